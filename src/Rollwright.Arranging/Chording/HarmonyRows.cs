using System.Collections.Immutable;

namespace Rollwright.Arranging.Chording;

/// <summary>
/// The rows of the table of chords: each is one thing that can be so at a beat, and says how much that speaks for each of
/// the 24 triads, as seen from the tonic, from a note that is heard, or from the chord before.
/// </summary>
internal static class HarmonyRows
{
    /// <summary>Windows through which notes are heard.</summary>
    public enum Window
    {
        AtBeat,
        WithinBeat,
        InBar,
        InTune,
        AtBarStart,
        AtHalfBar,
        NextBeat,
        BeatBefore,
        NextBar,
        BarBefore,
        HalfBar,
    }

    private const int Halves = 2;
    private static readonly List<string> Listed = [];
    private static readonly string[] Keys = ["major", "minor"];
    private static readonly string[] HalfNames = ["first half", "second half"];

    private static readonly int AlwaysAt = Add(Keys.Select(key => $"{key}: always"));
    private static readonly int PhraseAt = Add(
        from key in Keys from bar in Enumerable.Range(0, 9) from half in HalfNames
        select bar == 0 ? $"{key}: pickup, {half}" : $"{key}: bar {bar} of 8, {half}"
    );
    private static readonly int EndAt = Add(
        from key in Keys from bar in Enumerable.Range(0, 4) from half in HalfNames
        select $"{key}: {bar} bars to the end of the part, {half}"
    );
    private static readonly int LastAt = Add(
        from key in Keys from half in HalfNames select $"{key}: last bar of the tune, {half}"
    );
    private static readonly int MetreAt = Add(
        from key in Keys from metre in MetreNames select $"{key}: {metre}"
    );
    private static readonly int HeardAt = Add(
        from key in Keys from window in new[] { Window.AtBeat, Window.WithinBeat, Window.InBar, Window.InTune, Window.NextBar, Window.BarBefore }
        from degree in Enumerable.Range(0, 12)
        select $"{key}: {window} {degree}"
    );
    private static readonly int SeenAt = Add(Enum.GetValues<Window>().Select(window => $"note {window}"));
    private static readonly int AfterAt = Add(
        from key in Keys from spot in new[] { "", " at the end" } from triad in Enumerable.Range(0, 24)
        select $"{key}: after {triad}{spot}"
    );
    private static readonly int MovedAt = Add(["after a major chord", "after a minor chord"]);

    public static string[] MetreNames => ["4/4", "2/4", "6/8", "3/4", "9/8", "other"];

    public static ImmutableArray<string> Names => [.. Listed];

    public static int Count => Listed.Count;

    public static int Always(int key) => AlwaysAt + key;

    public static int Phrase(int key, int fromStart, int half) =>
        PhraseAt + (((key * 9) + (fromStart < 0 ? 0 : 1 + (fromStart % 8))) * Halves) + half;

    public static int End(int key, int toEnd, int half) => EndAt + (((key * 4) + toEnd) * Halves) + half;

    public static int Last(int key, int half) => LastAt + (key * Halves) + half;

    public static int Metre(int key, int metre) => MetreAt + (key * 6) + metre;

    public static int Heard(int key, Window window, int degree) =>
        HeardAt + (((key * 6) + (window == Window.NextBar ? 4 : window == Window.BarBefore ? 5 : (int)window)) * 12) + degree;

    public static int Seen(Window window) => SeenAt + (int)window;

    public static int After(int key, bool isEnd, int triad) => AfterAt + (((key * 2) + (isEnd ? 1 : 0)) * 24) + triad;

    public static int Moved(int quality) => MovedAt + quality;

    // ---- changes: one number a row
    private static readonly List<string> ChangeList = [];
    private static readonly int ChangeMetreAt = AddChange(
        from metre in MetreNames from beat in Enumerable.Range(1, 6) select $"{metre} beat {beat}"
    );
    private static readonly int ChangePhraseAt = AddChange(
        from bar in Enumerable.Range(0, 9) from half in Enumerable.Range(0, 3) select $"bar {bar} of 8, {half}"
    );
    private static readonly int ChangeEndAt = AddChange(
        from bar in Enumerable.Range(0, 4) from half in Enumerable.Range(0, 3) select $"{bar} bars to the end, {half}"
    );
    private static readonly int ChangeDenseAt = AddChange(
        from dense in Enumerable.Range(0, 5) from half in Enumerable.Range(0, 3) select $"density {dense}, {half}"
    );

    public static ImmutableArray<string> ChangeNames => [.. ChangeList];

    public static int ChangeMetre(int metre, int beat) => ChangeMetreAt + (metre * 6) + Math.Min(beat, 5);

    // half: 0 bar start, 1 half bar, 2 else
    public static int ChangePhrase(int fromStart, int place) =>
        ChangePhraseAt + ((fromStart < 0 ? 0 : 1 + (fromStart % 8)) * 3) + place;

    public static int ChangeEnd(int toEnd, int place) => ChangeEndAt + (toEnd * 3) + place;

    public static int ChangeDense(int dense, int place) => ChangeDenseAt + (dense * 3) + place;

    private static int Add(IEnumerable<string> names)
    {
        var at = Listed.Count;
        Listed.AddRange(names);
        return at;
    }

    private static int AddChange(IEnumerable<string> names)
    {
        var at = ChangeList.Count;
        ChangeList.AddRange(names);
        return at;
    }
}
