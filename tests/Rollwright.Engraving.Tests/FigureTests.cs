using Rollwright.Banjo.Rolls;
using Rollwright.Banjo.Tunings;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Figures;
using Rollwright.Music.Chords;
using Rollwright.TestKit;

namespace Rollwright.Engraving.Tests;

public class FigureTests
{
    private const double ColumnOf90Mm = 255;

    public static TheoryData<string> Kinds => ["bars", "form", "chords", "rolls"];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_figure_is_as_wide_as_its_column_and_ends_where_its_ink_ends(string kind)
    {
        var layout = Draw(
            kind,
            new(ColumnOf90Mm, "What it shows, in words that take more than one line of the column.")
        );
        var page = layout.Pages.Should().ContainSingle().Subject;
        page.Width.Should().Be(ColumnOf90Mm);
        var ink = Box.Around(page.Inks.Select(ink => ink.Box));
        ink.Top.Should().BeApproximately(1.5, 0.01);
        (page.Height - ink.Bottom).Should().BeInRange(1.4, 1.6);
        Collisions.OfPaper(layout).Should().BeEmpty();
        Collisions.OfSigns(layout).Should().BeEmpty();
        page.Inks.Count(ink => ink.Kind == InkKind.Caption).Should().Be(2);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_column_that_is_too_narrow_is_refused_with_a_remedy(string kind)
    {
        var drawing = () => Draw(kind, new(59));
        drawing.Should().Throw<ArgumentException>().WithMessage("*take 60 to 5000*");
    }

    [Fact]
    public void Bars_of_a_figure_keep_the_names_of_their_strokes_and_the_chord_that_goes_on()
    {
        var played = SampleBreaks.Small;
        var layout = BarsFigure.Lay(played, 2, 2, PageStyle.A4, new(ColumnOf90Mm));
        layout.Bars.Select(place => place.Bar).Should().Equal(2);
        layout.Strokes.Select(place => place.Stroke.Bar).Distinct().Should().Equal(2);
        layout.Strokes.Should().HaveCount(played.Bars[2].Strokes.Length);
        layout.Pages[0].Inks.Should().Contain(ink => ink.Kind == InkKind.Chord);
    }

    [Theory]
    [InlineData(0.54, 1)]
    [InlineData(0.54, 2)]
    [InlineData(0.68, 1.3)]
    [InlineData(1, 1)]
    public void Two_chords_of_a_narrow_box_are_never_too_small_to_read_and_stay_inside_it(double scale, double stretch)
    {
        // The narrowest boxes of a jam sheet: two columns of eight on A4.
        string[] names = ["A", "Am", "F#m", "Bm", "E7", "C#m", "Bb", "G"];
        var bars = names
            .SelectMany(_ => names, (one, other) => new GridBar([Chord(0, one), Chord(0.5, other)], ""))
            .ToList();
        var parts = bars.Chunk(8).Select((some, i) => new GridPart($"{i}", 1, [.. some])).ToList();
        var layout = ChordGrid.Lay(
            [
                [.. parts[..4]],
                [.. parts[4..]],
            ],
            new(503),
            8,
            scale,
            stretch
        );
        var chords = layout.Pages[0].Inks.OfType<Words>().Where(ink => ink.Face == Measuring.Face.Bold).ToList();
        chords.Count(ink => !char.IsDigit(ink.Text[0])).Should().Be(bars.Count * 2);
        chords.Should().OnlyContain(ink => ink.Size >= ChordGrid.LeastName);
        Collisions.OfPaper(layout).Should().BeEmpty();
        Collisions.OfSigns(layout).Should().BeEmpty();
        foreach (var box in layout.Pages[0].Inks.OfType<Rules>().Where(rules => rules.Kind == InkKind.GridCell))
            chords
                .Count(ink => ink.Box.Overlaps(box.Box))
                .Should()
                .Be(2, "each box has its two, and none of its neighbour's");

        static GridChord Chord(double where, string name) => new(where, name, "4", name.EndsWith('m') ? "m" : "");
    }

    [Fact]
    public void Chords_that_do_not_fit_side_by_side_stand_in_rows()
    {
        var names = new[] { "G", "C", "D7", "Em", "Am", "F#m", "Bb", "E7", "A" };
        var chords = names.Select(name => Chord.Parse(name)!.Value).ToList();
        var layout = ChordFigure.Lay(TuningTable.Find("open-g")!, chords, new(120));
        Collisions.OfPaper(layout).Should().BeEmpty();
        layout.Pages[0].Inks.Count(ink => ink.Kind == InkKind.Chord).Should().Be(names.Length);
    }

    [Theory]
    // Shapes of the project's own table (data/shapes.txt) in open G.
    [InlineData("open-g", "C", "2 0 1 2")]
    [InlineData("open-g", "D7", "0 2 1 0")]
    // Double C g C G C D: C sounds C G C E with string 1 at fret 2 (computed from the pitches).
    [InlineData("double-c", "C", "0 0 0 2")]
    public void The_shape_of_a_diagram_is_the_usual_one(string tuning, string chord, string frets) =>
        string.Join(' ', Labels.ShapeChoice.For(TuningTable.Find(tuning)!, Chord.Parse(chord)!.Value)!.Frets)
            .Should()
            .Be(frets);

    [Fact]
    public void Every_shape_of_every_tuning_sounds_its_chord_and_its_root()
    {
        foreach (var tuning in TuningTable.All)
        {
            foreach (var name in new[] { "C", "D", "Em", "F", "G", "A7", "Bb", "F#m", "B7", "Dm" })
            {
                var chord = Chord.Parse(name)!.Value;
                if (Labels.ShapeChoice.For(tuning, chord) is not { } shape)
                    continue;
                for (var i = 0; i < 4; i++)
                    chord.Contains(tuning.KeyOf(4 - i, shape.Frets[i])).Should().BeTrue($"{name} in {tuning.Name}");
            }
        }
    }

    private static Layout Draw(string kind, FigureStyle style) =>
        kind switch
        {
            "bars" => BarsFigure.Lay(SampleBreaks.SmallCapo2, 1, 2, PageStyle.A4, style),
            "form" => FormMap.Lay(SampleBreaks.Small, style),
            "chords" => ChordFigure.Lay(
                TuningTable.Find("open-g")!,
                [Chord.Parse("G")!.Value, Chord.Parse("D7")!.Value],
                style
            ),
            _ => RollFigure.Lay(RollTable.All, style),
        };
}
