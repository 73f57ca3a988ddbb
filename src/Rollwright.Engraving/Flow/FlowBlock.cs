using System.Collections.Immutable;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;

namespace Rollwright.Engraving.Flow;

/// <summary>Text in one face.</summary>
public readonly record struct TextRun(string Text, Face Face = Face.Roman);

/// <summary>A part of a text that stands below the one before it.</summary>
public abstract record FlowBlock;

/// <summary>A heading; it never stands alone at the foot of a page.</summary>
/// <param name="Level">1 is the title, 2 and 3 are below it; deeper ones look like 3.</param>
/// <param name="Text">Its words.</param>
public sealed record Heading(int Level, string Text) : FlowBlock;

/// <summary>A paragraph of text.</summary>
public sealed record TextBlock(ImmutableArray<TextRun> Runs) : FlowBlock;

/// <summary>A warning or a caution, with a rule at its left.</summary>
public sealed record NoteBlock(ImmutableArray<TextRun> Runs) : FlowBlock;

/// <summary>An item of a list.</summary>
/// <param name="Mark">"•" or "1.".</param>
/// <param name="Depth">0 for the outermost list.</param>
public sealed record ItemBlock(string Mark, int Depth, ImmutableArray<TextRun> Runs) : FlowBlock;

/// <summary>Lines that stay as they are.</summary>
public sealed record LinesBlock(ImmutableArray<string> Lines) : FlowBlock;

/// <summary>A table with a head of one row; every row has as many cells.</summary>
public sealed record TableBlock(ImmutableArray<string> Head, ImmutableArray<ImmutableArray<string>> Rows) : FlowBlock;

/// <summary>A drawing no wider than the text; each of its pages stands whole on one page.</summary>
/// <param name="Figure">The drawing.</param>
/// <param name="Caption">Words under it; none where empty.</param>
public sealed record FigureBlock(Layout Figure, string Caption = "") : FlowBlock;

/// <summary>A photograph or another picture, no wider than the text and no higher than half a page.</summary>
/// <param name="Image">The picture.</param>
/// <param name="Caption">Words under it; none where empty.</param>
public sealed record PictureBlock(PictureFile Image, string Caption = "") : FlowBlock;

/// <summary>What follows begins a page.</summary>
public sealed record NewPage : FlowBlock;
