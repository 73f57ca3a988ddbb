namespace Rollwright.Listening.Beside.Answers;

/// <summary>How the notes of a bar or a phrase came out.</summary>
/// <param name="Meant">Notes that were meant and not left out.</param>
/// <param name="Wrong">Of them, with another pitch.</param>
/// <param name="Missing">Of them, not there.</param>
/// <param name="Early">Of those right, clearly before their time.</param>
/// <param name="Late">Of those right, clearly after their time.</param>
/// <param name="Added">Notes that were not meant.</param>
/// <param name="LeftOut">Notes that the take goes past by going elsewhere.</param>
/// <param name="Unevenness">
/// Root mean square of how early or late the notes right are, in seconds; 0 where there are none.
/// </param>
public readonly record struct Counts(
    int Meant,
    int Wrong,
    int Missing,
    int Early,
    int Late,
    int Added,
    int LeftOut,
    double Unevenness
)
{
    public int Right => Meant - Wrong - Missing;

    /// <summary>How much there is to work on: a wrong or missing note counts 1, an added one a half, one early or late a third.</summary>
    public double Faults => Wrong + Missing + (Added / 2.0) + ((Early + Late) / 3.0);

    internal static Counts Of(IEnumerable<NoteAnswer> notes, int added)
    {
        var all = notes.ToList();
        var meant = all.Where(note => note.Label != NoteLabel.LeftOut).ToList();
        var right = meant.Where(note => note.Label == NoteLabel.Ok).ToList();
        var away = right.Select(note => note.Late).OfType<double>().ToList();
        return new(
            meant.Count,
            meant.Count(note => note.Label == NoteLabel.Wrong),
            meant.Count(note => note.Label == NoteLabel.Missing),
            right.Count(note => note.IsEarly),
            right.Count(note => note.IsLate),
            added,
            all.Count - meant.Count,
            away.Count == 0 ? 0 : Math.Sqrt(away.Average(late => late * late))
        );
    }
}
