using Rollwright.Listening.Takes;

namespace Rollwright.Web.State.Hearing;

/// <summary>A spot of a take where the ear was not sure.</summary>
/// <param name="Words">Which, for a button.</param>
/// <param name="From">Seconds where it begins to be heard again.</param>
/// <param name="Until">Seconds where it ends.</param>
public sealed record Doubt(string Words, double From, double Until)
{
    /// <summary>Notes surer than this are not asked about; four of five of the others were right on the listening bench.</summary>
    public const double Sure = 0.8;

    private const int Most = 24;
    private const double Around = 0.35;

    /// <summary>The spots, by time; notes near each other are one.</summary>
    public static IReadOnlyList<Doubt> In(Heard heard)
    {
        ArgumentNullException.ThrowIfNull(heard);
        var spots = new List<Doubt>();
        foreach (var note in heard.Notes.Where(note => note.Confidence < Sure))
        {
            var (from, until) = (Math.Max(0, note.Onset - Around), note.Onset + (2 * Around));
            if (spots.Count > 0 && from < spots[^1].Until)
                spots[^1] = spots[^1] with { Until = until };
            else if (spots.Count < Most)
                spots.Add(new(Place(heard, note), from, until));
        }
        return spots;
    }

    private static string Place(Heard heard, HeardNote note) =>
        note is { Bar: { } bar, At: { } at, String: { } on } && heard.Break is { } written
            ? $"{Rollwright.Web.Words.PlaceWords.Capital(written.Numbering.Place(bar, at))}: string {on}, fret {note.Fret}"
            : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"At {note.Onset:0.0} s");
}
