using System.Collections.Immutable;
using Rollwright.Music.Keys;

namespace Rollwright.Arranging.Chording;

/// <summary>
/// What can be so at a beat. Each is a row of <c>data/harmony.txt</c>, which says how much it speaks for each of the 24
/// triads, seen from the tonic, from a note that is heard, or from the chord before.
/// </summary>
internal static class HarmonyRows
{
    /// <summary>Bars are counted in phrases of eight.</summary>
    private const int Phrase = 8;

    private static readonly string[] Keys = ["major key", "minor key"];
    private static readonly string[] Halves = ["first half", "second half"];
    private static readonly string[] Ends =
    [
        "the part's last bar",
        "the part's last bar but one",
        "the tune's last bar",
    ];
    private static readonly string[] Heard = ["on the beat", "in the tune"];
    private static readonly string[] Windows =
    [
        "at the start of the bar",
        "at the half of the bar",
        "on another beat",
        "within the beat",
        "in this half of the bar",
        "on the next beat",
        "on the beat before",
        "in the next bar",
        "in the bar before",
    ];
    private static readonly List<string> Listed = [];

    // Each block of rows begins where the one before it ended.
    private static readonly int AlwaysAt = Add(Keys);
    private static readonly int MetreAt = Add(Each(Keys, BeatPlace.Metres));
    private static readonly int BarAt = Add(
        Each(Keys, ["pickup", .. Enumerable.Range(1, Phrase).Select(bar => $"bar {bar} of {Phrase}")], Halves)
    );
    private static readonly int EndAt = Add(Each(Keys, Ends, Halves));
    private static readonly int DegreeAt = Add(
        Each(Keys, Heard, Enumerable.Range(0, 12).Select(degree => $"note {degree} above the tonic"))
    );
    private static readonly int NoteAt = Add(Windows.Select(window => $"from a note {window}"));
    private static readonly int AfterAt = Add(Each(Keys, ["after"], Triad.Names));
    private static readonly int CadenceAt = Add(Each(Keys, ["into the part's last bar after"], Triad.Names));
    private static readonly int MovedAt = Add(["from a major chord before", "from a minor chord before"]);

    public static ImmutableArray<string> Names => [.. Listed];

    public static int Count => Listed.Count;

    /// <summary>0 for keys with a major third, 1 for those with a minor one.</summary>
    public static int KeyOf(Mode mode) => mode is Mode.Major or Mode.Mixolydian or Mode.Lydian ? 0 : 1;

    public static int Always(int key) => AlwaysAt + key;

    public static int Metre(int key, int metre) => MetreAt + (key * BeatPlace.Metres.Length) + metre;

    /// <param name="key">See <see cref="KeyOf"/>.</param>
    /// <param name="fromStart">Bars of the part before this one; -1 for a pickup.</param>
    /// <param name="half">Half of the bar.</param>
    public static int Bar(int key, int fromStart, int half) =>
        BarAt + (((key * (Phrase + 1)) + (fromStart < 0 ? 0 : 1 + (fromStart % Phrase))) * 2) + half;

    /// <param name="key">See <see cref="KeyOf"/>.</param>
    /// <param name="end">0 the part's last bar, 1 the last but one, 2 the tune's last.</param>
    /// <param name="half">Half of the bar.</param>
    public static int End(int key, int end, int half) => EndAt + (((key * Ends.Length) + end) * 2) + half;

    public static int DegreeOnBeat(int key, int degree) => DegreeAt + (key * 24) + degree;

    public static int DegreeInTune(int key, int degree) => DegreeAt + (key * 24) + 12 + degree;

    public static int Note(NoteWindow window) => NoteAt + (int)window;

    public static int After(int key, int triad) => AfterAt + (key * Triad.Count) + triad;

    public static int Cadence(int key, int triad) => CadenceAt + (key * Triad.Count) + triad;

    public static int Moved(int triadBefore) => MovedAt + (triadBefore % 2);

    private static int Add(IEnumerable<string> names)
    {
        var at = Listed.Count;
        Listed.AddRange(names);
        return at;
    }

    private static IEnumerable<string> Each(params IEnumerable<string>[] words) =>
        words.Aggregate((first, second) => first.SelectMany(a => second.Select(b => $"{a}, {b}")));
}

/// <summary>Where a note is heard, as seen from the beat that asks.</summary>
internal enum NoteWindow
{
    AtBarStart,
    AtHalfBar,
    OnOtherBeat,
    WithinBeat,
    InHalfBar,
    OnNextBeat,
    OnBeatBefore,
    InNextBar,
    InBarBefore,
}
