using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Lessons.Words;

namespace Rollwright.Lessons.Drills;

/// <summary>What a drill trains.</summary>
public enum DrillKind
{
    /// <summary>The right hand of a bar, all strings open.</summary>
    RollAlone,

    /// <summary>The left hand from one shape to the next.</summary>
    ShapeChange,

    /// <summary>One slur, again and again.</summary>
    SlurAlone,

    /// <summary>The bar that limits the tempo, at half speed.</summary>
    HardBar,

    /// <summary>A place where several licks fit.</summary>
    Spot,
}

/// <summary>Something small out of a break, to be played again and again.</summary>
/// <param name="Kind">What it trains.</param>
/// <param name="Title">Short: "The slur alone".</param>
/// <param name="Words">What to do and what to listen for, a sentence or two.</param>
/// <param name="Takes">What is played: one, or several to choose from. Each can be played by hands.</param>
public sealed record Drill(DrillKind Kind, string Title, string Words, ImmutableArray<DrillTake> Takes);

/// <summary>One thing to play.</summary>
/// <param name="Name">Empty where a drill has one; else what tells it from the others: the lick's name.</param>
/// <param name="Played">A bar or two.</param>
public sealed record DrillTake(string Name, Break Played)
{
    /// <summary>It in words, a line for each bar.</summary>
    public ImmutableArray<string> Lines(WordForm form) =>
        [.. PhraseWords.OfExcerpt(Played).SelectMany(phrase => phrase.Text(form).Split('\n'))];
}
