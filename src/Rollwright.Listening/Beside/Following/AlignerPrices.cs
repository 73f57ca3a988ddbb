using Rollwright.Listening.Beside.Meanings;

namespace Rollwright.Listening.Beside.Following;

/// <summary>What the ways of an alignment pay; the values are in <c>data/takes.txt</c>.</summary>
internal sealed class AlignerPrices
{
    private readonly double mismatch = TakeTable.Of("mismatch");
    private readonly double wrong = TakeTable.Of("wrong");
    private readonly double stopEarly = TakeTable.Of("stop-early");
    private readonly double stopAfterPart = TakeTable.Of("stop-after-part");
    private readonly double forward = TakeTable.Of("forward");
    private readonly double breakOff = TakeTable.Of("break-off");

    // Into each gesture from elsewhere; and what all gestures before it cost if they are missed.
    private readonly double[] doors;
    private readonly bool[] opensPart;
    private readonly double[] missed;

    public AlignerPrices(Meant meant, IReadOnlyList<Gesture> gestures)
    {
        (doors, missed) = (new double[gestures.Count], new double[gestures.Count + 1]);
        opensPart = new bool[gestures.Count + 1];
        opensPart[^1] = true;
        var phrases = meant.Phrases.ToDictionary(phrase => phrase.Bars[0]);
        for (var j = 0; j < gestures.Count; j++)
        {
            var notes = gestures[j].Notes.Select(note => meant.Notes[note]).ToList();
            var opensBar = j == 0 || meant.Notes[gestures[j - 1].Notes[0]].Bar != notes[0].Bar;
            var phrase = opensBar ? phrases.GetValueOrDefault(notes[0].Bar) : null;
            opensPart[j] = phrase is { OpensPart: true };
            doors[j] = TakeTable.Of(
                !opensBar ? "to-note"
                : phrase is null ? "to-bar"
                : phrase.OpensPart ? "to-part"
                : "to-phrase"
            );
            missed[j + 1] =
                missed[j] + TakeTable.Of(notes.TrueForAll(note => note.IsSlurred) ? "slur-missed" : "missed");
        }
    }

    public double Added { get; } = TakeTable.Of("added");

    public double Outside { get; } = TakeTable.Of("outside");

    private double GoOn { get; } = TakeTable.Of("go-on");

    public double Sway { get; } = TakeTable.Of("sway");

    public double SwayPart { get; } = TakeTable.Of("sway-part");

    public double Late { get; } = TakeTable.Of("late");

    public double Hesitate { get; } = TakeTable.Of("hesitate");

    public double TempoMemory { get; } = TakeTable.Of("tempo-memory");

    public double TempoFree { get; } = TakeTable.Of("tempo-free");

    /// <summary>Beginning with this one: those before are missed, or one begins elsewhere than at the beginning.</summary>
    public double First(int j) => Math.Min(missed[j], doors[j] + Outside);

    /// <summary>Ending with this one: after a part one may well stop.</summary>
    public double Last(int j) => Math.Min(missed[^1] - missed[j + 1], opensPart[j + 1] ? stopAfterPart : stopEarly);

    /// <summary>
    /// Going from one gesture to another that is not the next. Players go back to where they were; past something they go
    /// from the end of a part to the beginning of one, and hardly ever otherwise.
    /// </summary>
    public double To(int from, int j) =>
        j == from + 1 ? GoOn
        : j <= from ? doors[j]
        : doors[j]
            + (
                !opensPart[j] ? forward
                : opensPart[from + 1] ? 0
                : breakOff
            );

    /// <summary>Missing those from one up to another, itself not missed.</summary>
    public double Missed(int from, int to) => missed[to] - missed[from];

    public double Mismatch(Gesture heard, Gesture meant)
    {
        var common = heard.Common(meant);
        return common == 0 ? wrong : mismatch * (1 - (2.0 * common / (heard.Pitches.Length + meant.Pitches.Length)));
    }
}
