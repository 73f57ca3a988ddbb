using System.Text.Json;
using Rollwright.Banjo.Breaks;
using Rollwright.Listening.Takes;
using Rollwright.Web.State.Hearing;
using Rollwright.Web.Words;

namespace Rollwright.Cli.Commands;

/// <summary>What was heard, in words and for machines.</summary>
internal static class ListenWords
{
    private const int MostDoubts = 8;

    public static IEnumerable<string> Of(Heard heard)
    {
        if (heard.Break is not { } played)
        {
            yield return heard.Notes.IsEmpty
                ? "no plucked notes found; record the banjo nearer and alone"
                : "notes were heard, but no hands could play them in any tuning; give --tuning and --capo, or use --json for the notes";
            yield break;
        }
        yield return $"{HeardWords.Summary(heard, played)}; {HeardWords.Setting(heard, played)}";
        if (HeardWords.Licks(played) is { } licks)
            yield return licks;
        var doubts = Doubt.In(heard);
        if (doubts.Count > 0)
            yield return $"not sure here: {string.Join("; ", doubts.Take(MostDoubts).Select(spot => spot.Words))}{(doubts.Count > MostDoubts ? $"; and {doubts.Count - MostDoubts} more spots" : "")}";
    }

    public static string Json(string path, Heard heard) =>
        JsonSerializer.Serialize(
            new
            {
                file = path,
                cents = Math.Round(heard.Cents, 1),
                tuning = heard.Break?.Setting.Tuning.Id,
                capo = heard.Break?.Setting.Capo,
                metre = heard.Break?.Time.ToString(),
                tempo = heard.Break is { } played
                    ? new { unit = played.Tempo.Unit.ToString(), perMinute = played.Tempo.PerMinute }
                    : null,
                swing = Math.Round(heard.Swing, 2),
                bars = heard.BarTimes.Select(time => Math.Round(time, 3)),
                chords = heard.Break?.Bars.Select(bar => bar.Chords.Select(at => at.Chord.ToString())),
                licks = heard
                    .Break?.Spans.Where(span => span.Kind is SpanKind.Lick or SpanKind.Tag)
                    .Select(span => new
                    {
                        name = span.Name,
                        bar = span.Bar,
                        at = span.At.ToString(),
                        length = span.Length.ToString(),
                    }),
                notes = heard.Notes.Select(note => new
                {
                    onset = Math.Round(note.Onset, 4),
                    pitch = note.Pitch,
                    @string = note.String,
                    fret = note.Fret,
                    finger = note.Finger?.ToString(),
                    slur = note.Slur?.ToString(),
                    bar = note.Bar,
                    at = note.At?.ToString(),
                    confidence = Math.Round(note.Confidence, 3),
                }),
            }
        );
}
