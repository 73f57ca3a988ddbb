using System.Collections.Immutable;
using Rollwright.Banjo.Settings;

namespace Rollwright.Arranging.Advice;

/// <summary>What suits a tune, found by solving it.</summary>
/// <param name="Ways">Settings and styles: those of the advised style first, then the others, each by price.</param>
/// <param name="Phrases">Phrase by phrase, in the best setting, what rolls and what melodic style keep.</param>
/// <param name="Style">The style that is advised.</param>
/// <param name="Sentences">The same in words.</param>
public sealed record TuneAdvice(
    ImmutableArray<AdvisedWay> Ways,
    ImmutableArray<PhraseAdvice> Phrases,
    string Style,
    ImmutableArray<string> Sentences
);

/// <summary>A setting and a style that were solved.</summary>
/// <param name="Setting">Tuning, capo, position, octave.</param>
/// <param name="Style">Name of the style.</param>
/// <param name="Kept">Share of the tune that is played, 0 to 1.</param>
/// <param name="Work">Price of what the hands do, a bar, in thousandths of a plain melody note left out.</param>
/// <param name="Price">What it is ranked by: the tune that is lost, the work, and how unusual the setting is.</param>
public sealed record AdvisedWay(Setting Setting, string Style, double Kept, int Work, int Price);

/// <summary>A phrase and what two styles keep of it.</summary>
/// <param name="FirstBar">Index of its first written bar.</param>
/// <param name="LastBar">Index of its last.</param>
/// <param name="Roll">Share of the tune that rolls keep, 0 to 1.</param>
/// <param name="Melodic">Share that melodic style keeps.</param>
/// <param name="IsStepwise">Most of its notes are eighths (the steps of its metre) that go by a second or a third.</param>
public sealed record PhraseAdvice(int FirstBar, int LastBar, double Roll, double Melodic, bool IsStepwise);
