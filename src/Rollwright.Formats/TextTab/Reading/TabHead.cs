using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.TextTab.Reading;

/// <summary>What the words before the first system say: title, tuning, capo, key, metre, tempo. What they do not say is null.</summary>
internal sealed partial record TabHead
{
    /// <summary>Semitones from a tune's pitch to the banjo's: an octave down (common practice).</summary>
    private const int UsualShift = -12;

    public string Title { get; init; } = "Untitled";

    public string Composer { get; init; } = "";

    public Tuning? Tuning { get; init; }

    public int Capo { get; init; }

    public Key? Position { get; init; }

    public TimeSignature? Time { get; init; }

    public Tempo? Tempo { get; init; }

    public Swing? Swing { get; init; }

    public static TabHead Of(TabPage page)
    {
        var head = new TabHead();
        var words = page.Head.Where(line => !line.IsBlank).Select(line => line.Text.Trim()).ToList();
        var titles = words.TakeWhile(text => !Named().IsMatch(text)).ToList();
        if (titles.Count > 0)
            head = head with { Title = titles[0], Composer = titles.Count > 1 ? titles[1] : "" };
        foreach (var text in words)
            head = head.With(text);
        return head with { Tuning = head.Tuning ?? OfLabels(page) };
    }

    /// <summary>The setting; what is assumed is said.</summary>
    public Setting Setting(int line, MessageLog log)
    {
        if (Tuning is null)
            log.NoteOnce(line, 1, "the page does not name its tuning; open G is taken");
        if (Position is null)
            log.NoteOnce(line, 1, "the page does not name its key; G major is taken for the hands");
        return new(Tuning ?? TuningTable.OpenG, Capo, Position ?? new Key(new(Letter.G)), UsualShift);
    }

    private TabHead With(string text)
    {
        var head = this;
        if (CapoWord().Match(text) is { Success: true } capo)
            head = head with
            {
                Capo = Math.Clamp(int.Parse(capo.Groups["fret"].Value, CultureInfo.InvariantCulture), 0, 12),
            };
        if (TuningWord().Match(text) is { Success: true } tuning)
            head = head with { Tuning = TuningOf(tuning.Groups["value"].Value) ?? head.Tuning };
        if (KeyWord().Match(text) is { Success: true } key)
            head = head with { Position = PositionOf(key, head.Capo) ?? head.Position };
        if (TimeWord().Match(text) is { Success: true } time)
            head = head with { Time = MetreField.Read(time.Groups["value"].Value) ?? head.Time };
        if (TempoWord().Match(text) is { Success: true } tempo)
            head = head with { Tempo = TempoOf(tempo) ?? head.Tempo };
        if (SwingWord().Match(text) is { Success: true } swing)
            head = head with { Swing = Music.Metre.Swing.Parse(swing.Groups["value"].Value) };
        return head;
    }

    // "open G (g D G B D)", "gDGBD", "double C".
    private static Tuning? TuningOf(string text)
    {
        var notes = NoteNames().Match(text);
        var spelled = notes.Success ? notes.Groups["note"].Captures.Select(note => note.Value).ToList() : [];
        return spelled.Count == Neck.Strings && OfNames(spelled) is { } known
            ? known
            : TuningTable.All.FirstOrDefault(one => text.Contains(one.Name, StringComparison.OrdinalIgnoreCase));
    }

    private static Tuning? OfLabels(TabPage page)
    {
        var labels =
            page.Systems.Count == 0 ? [] : page.Systems[0].Strings.Select(line => line.Label).Reverse().ToList();
        return labels.TrueForAll(label => PitchName.Parse(label) is not null) ? OfNames(labels) : null;
    }

    // Of strings 5 to 1, by pitch class: a letter has no octave.
    private static Tuning? OfNames(List<string> names)
    {
        var classes = names.Select(name => PitchName.Parse(name)?.PitchClass ?? -1).Reverse().ToList();
        return TuningTable.All.FirstOrDefault(tuning => tuning.Open.Select(key => key % 12).SequenceEqual(classes));
    }

    // "A major, fingered as G major": the hands' key is named too; else it is the sounding key without the capo.
    private static Key? PositionOf(Match key, int capo)
    {
        if (key.Groups["hands"].Success && KeyField.Read(key.Groups["hands"].Value, out _).Key is var hands)
            return hands;
        return KeyField.Read(key.Groups["value"].Value, out var wrong).Key is var sounding && wrong is null
            ? sounding.Transpose(-capo)
            : null;
    }

    private static Tempo? TempoOf(Match tempo)
    {
        if (
            !double.TryParse(
                tempo.Groups["value"].Value,
                NumberStyles.AllowDecimalPoint,
                CultureInfo.InvariantCulture,
                out var perMinute
            ) || perMinute is < 1 or > 2000
        )
            return null;
        var unit = tempo.Groups["unit"].Value.ToLowerInvariant() switch
        {
            "half" => new Fraction(1, 2),
            "dotted quarter" => new(3, 8),
            "eighth" => new(1, 8),
            "quarter" or "" => new(1, 4),
            var other => MetreField.Unit(other) ?? new(1, 4),
        };
        return new(unit, perMinute);
    }

    private const RegexOptions Any =
        RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant;

    [GeneratedRegex(@"^(tuning|tuned|capo|key|time|metre|meter|tempo)\b|\d/\d|\bbpm\b|=", Any, 1000)]
    private static partial Regex Named();

    [GeneratedRegex(@"\bcapo\b\D{0,20}(?<fret>\d{1,2})", Any, 1000)]
    private static partial Regex CapoWord();

    [GeneratedRegex(@"\b(tuning|tuned)\b\W*(to\b)?(?<value>.*)", Any, 1000)]
    private static partial Regex TuningWord();

    [GeneratedRegex(
        @"\bkey\b( of\b)?\W*(?<value>[A-G][#b]?( ?(major|minor|mixolydian|dorian|phrygian|lydian|locrian|m)\b)?)(.*fingered as (?<hands>[A-G][#b]? \w+))?",
        Any,
        1000
    )]
    private static partial Regex KeyWord();

    [GeneratedRegex(@"(^|\s|:)(?<value>\d{1,2}/(1|2|4|8|16|32))(?!\d| of)\b", Any, 1000)]
    private static partial Regex TimeWord();

    [GeneratedRegex(
        @"((?<unit>dotted quarter|half|quarter|eighth) note|(?<unit>\d+/\d+) of a whole note|\btempo\b\W*)\s*=?\s*(?<value>\d+(\.\d+)?)",
        Any,
        1000
    )]
    private static partial Regex TempoWord();

    [GeneratedRegex(@"\bswung \w+ (?<value>\d+:\d+)", Any, 1000)]
    private static partial Regex SwingWord();

    [GeneratedRegex(
        @"(?<note>[A-Ga-g][#b]?)[ -]?(?<note>[A-G][#b]?)[ -]?(?<note>[A-G][#b]?)[ -]?(?<note>[A-G][#b]?)[ -]?(?<note>[A-G][#b]?)(?![a-z])",
        RegexOptions.ExplicitCapture,
        1000
    )]
    private static partial Regex NoteNames();
}
