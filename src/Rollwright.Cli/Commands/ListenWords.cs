using System.Globalization;
using System.Text.Json;
using Rollwright.Banjo.Strokes;
using Rollwright.Cli.Asking;
using Rollwright.Listening.Takes;

namespace Rollwright.Cli.Commands;

/// <summary>What was heard, in words and for machines.</summary>
internal static class ListenWords
{
    /// <summary>Notes surer than this need no second hearing: on the listening bench one in fifty of them was wrong.</summary>
    private const double Sure = 0.8;

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
        var tempo = played.Tempo;
        yield return string.Create(
            CultureInfo.InvariantCulture,
            $"{heard.Notes.Length} notes in {played.Bars.Length} bars; {SettingWords.Of(played.Setting)}{Offset(heard.Cents)}; {tempo.UnitName} = {tempo.PerMinute:0}{(heard.Swing > 0 ? ", swung" : "")}"
        );
        var lost = heard.Notes.Count(note => note.String is null);
        if (lost > 0)
            yield return $"{lost} notes that hands cannot play beside the others are left out of the tab; --json has them";
        var doubts = heard.Notes.Where(note => note.Confidence < Sure).ToList();
        if (doubts.Count > 0)
            yield return $"listen again at {string.Join(", ", doubts.Take(MostDoubts).Select(note => Place(heard, note)))}{(doubts.Count > MostDoubts ? $" and {doubts.Count - MostDoubts} more notes" : "")}: not sure there";
    }

    public static string Json(string path, Heard heard) =>
        JsonSerializer.Serialize(
            new
            {
                file = path,
                cents = Math.Round(heard.Cents, 1),
                tuning = heard.Break?.Setting.Tuning.Id,
                capo = heard.Break?.Setting.Capo,
                tempo = heard.Break is { } played
                    ? new { unit = played.Tempo.Unit.ToString(), perMinute = played.Tempo.PerMinute }
                    : null,
                swing = Math.Round(heard.Swing, 2),
                bars = heard.BarTimes.Select(time => Math.Round(time, 3)),
                chords = heard.Break?.Bars.Select(bar => bar.Chords.Select(at => at.Chord.ToString())),
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

    private static string Offset(double cents) =>
        Math.Abs(cents) < 5 ? "" : $", {Math.Abs(cents):0} cents {(cents > 0 ? "sharp" : "flat")}";

    private static string Place(Heard heard, HeardNote note) =>
        note is { Bar: { } bar, At: { } at, String: { } on }
            ? $"{heard.Break!.Numbering.Place(bar, at)} ({Finger(note.Finger)}string {on} fret {note.Fret})"
            : string.Create(CultureInfo.InvariantCulture, $"{note.Onset:0.0} s");

    private static string Finger(RightFinger? finger) => finger is { } plucks ? $"{plucks} " : "slur, ";
}
