using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;

namespace Rollwright.Lessons.Documents;

/// <summary>How a text shows music: each answer is Markdown that stands by itself, empty where it does not show that.</summary>
internal interface IMusicShown
{
    /// <summary>Whether captions are shown; otherwise what tells one from another has to be said above it.</summary>
    bool HasCaptions { get; }

    /// <summary>All of a break.</summary>
    string Whole(Break played, string caption);

    /// <summary>Bars of a break that follow each other.</summary>
    string Bars(Break played, ImmutableArray<int> bars, string caption);

    /// <summary>A map of the form.</summary>
    string Form(Break played, string caption);

    /// <summary>Diagrams of the chords that a break is played over.</summary>
    string Chords(Break played, string caption);

    /// <summary>A list of all that was shown.</summary>
    string List();
}
