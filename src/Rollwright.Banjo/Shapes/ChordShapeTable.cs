using System.Collections.Immutable;
using Rollwright.Banjo.Data;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;
using Rollwright.Music.Pitches;

namespace Rollwright.Banjo.Shapes;

/// <summary>The chord shapes of <c>data/shapes.txt</c>, the movable ones at every fret where they fit.</summary>
public static class ChordShapeTable
{
    /// <summary>The highest fret that a movable shape is offered at; above it the frets are too narrow for four fingers.</summary>
    private const int LastShapeFret = 17;

    private static readonly Lazy<ImmutableArray<ChordShape>> BuiltIn = new(() =>
        Parse("shapes.txt", BuiltInData.Text("shapes.txt"))
    );

    /// <summary>All shapes of open G; other tunings have theirs worked out from their pitches.</summary>
    public static ImmutableArray<ChordShape> All => BuiltIn.Value;

    /// <exception cref="DataException">A row is wrong: the pitches are not of the chord, a fret without a finger, …</exception>
    public static ImmutableArray<ChordShape> Parse(string file, string text)
    {
        var shapes = ImmutableArray.CreateBuilder<ChordShape>();
        var table = DataTable.Parse(file, text, "kind", "chord", "tuning", "frets", "fingers", "root", "source");
        foreach (var row in table.Rows)
        {
            var tuning = TuningTable.Find(row["tuning"]) ?? throw row.Wrong($"no tuning is called '{row["tuning"]}'");
            int? root = row["root"] == "-" ? null : row.Whole("root");
            switch (row["kind"])
            {
                case "open":
                    var chord = Chord.Parse(row["chord"]) ?? throw row.Wrong($"'{row["chord"]}' is not a chord");
                    shapes.Add(Checked(row, tuning, new(chord, Read(row, 0), root, false)));
                    break;
                case "movable":
                    for (var anchor = 1; anchor <= LastShapeFret; anchor++)
                    {
                        if (Movable(row, tuning, root, anchor) is { } shape)
                            shapes.Add(shape);
                    }
                    break;
                default:
                    throw row.Wrong($"kind '{row["kind"]}' is neither 'open' nor 'movable'");
            }
        }
        return shapes.ToImmutable();
    }

    private static ChordShape? Movable(DataTable.Row row, Tuning tuning, int? root, int anchor)
    {
        var shape = Read(row, anchor);
        if (shape.Count < 4 || shape.HighestFret > LastShapeFret)
            return null;
        // Without its root a family is named by the fifth below the tone that would stand there: the root string is
        // known from the family's other members, two frets above the lowered seventh on string 2.
        var rootKey = root is { } s ? tuning.KeyOf(s, shape.FretOn(s)) : tuning.KeyOf(2, shape.FretOn(2)) + 2;
        var name = new PitchName[]
        {
            new(Letter.C),
            new(Letter.C, 1),
            new(Letter.D),
            new(Letter.E, -1),
            new(Letter.E),
            new(Letter.F),
            new(Letter.F, 1),
            new(Letter.G),
            new(Letter.A, -1),
            new(Letter.A),
            new(Letter.B, -1),
            new(Letter.B),
        }[rootKey % 12];
        var quality = row["chord"] switch
        {
            "maj" => ChordQuality.Major,
            "m" => ChordQuality.Minor,
            "7" => ChordQuality.DominantSeventh,
            var other => throw row.Wrong($"movable chord '{other}' is none of maj, m, 7"),
        };
        return Checked(row, tuning, new(new Chord(name, quality), shape, root, true));
    }

    private static HandShape Read(DataTable.Row row, int anchor)
    {
        var frets = row["frets"].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var fingers = row["fingers"].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (frets.Length != 4 || fingers.Length != 4)
            throw row.Wrong("frets and fingers are four each, for strings 4 3 2 1");
        var shape = HandShape.Open;
        for (var i = 0; i < 4; i++)
        {
            if (frets[i] == "x")
                continue;
            var moves = frets[i].StartsWith('n');
            var offset = frets[i].TrimStart('n');
            if (!int.TryParse(offset.Length == 0 ? "0" : offset, out var fret))
                throw row.Wrong($"fret '{frets[i]}' is neither a number nor n, n+1, n-1 …");
            fret += moves ? anchor : 0;
            if (moves && fret < 1)
                return HandShape.Open;
            if (fret == 0)
                continue;
            if (!int.TryParse(fingers[i], out var finger) || finger is < 1 or > 4)
                throw row.Wrong($"fret {fret} on string {4 - i} needs a finger from 1 to 4, not '{fingers[i]}'");
            shape = shape.With(4 - i, fret, finger);
        }
        return shape;
    }

    private static ChordShape Checked(DataTable.Row row, Tuning tuning, ChordShape shape)
    {
        for (var s = 1; s <= 4; s++)
        {
            if (!shape.Chord.Contains(tuning.KeyOf(s, shape.Shape.FretOn(s))))
                throw row.Wrong($"string {s} of {shape.Shape} does not belong to {shape.Chord}");
        }
        return shape;
    }
}
