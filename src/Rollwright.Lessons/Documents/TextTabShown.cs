using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Lessons.Drills;
using Rollwright.Lessons.Plan;

namespace Rollwright.Lessons.Documents;

/// <summary>Music as plain-text tab.</summary>
internal sealed class TextTabShown : IMusicShown
{
    public bool HasCaptions => false;

    public string Whole(Break played, string caption) => $"```\n{LessonMarkdown.TabOf(played)}\n```";

    public string Bars(Break played, ImmutableArray<int> bars, string caption) =>
        Whole(Excerpt.Of(played, bars, played.Title), caption);

    public string Form(Break played, string caption) => "";

    public string Chords(Break played, string caption) => "";

    public string List() => "";
}
