using System.Collections.Immutable;
using System.Text;
using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Figures;
using Rollwright.Formats.Abc;
using Rollwright.Lessons.JamSheets;
using Rollwright.Music.Chords;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.JamSheets;

/// <summary>What a jam sheet gives up when it is long, in which order, and how it takes up white.</summary>
public class SheetFormTests
{
    // Parts of eight bars each, with repeats; some parts may be the same music.
    private static readonly Gen<Break> Long =
        from parts in Gen.Int[1, 24]
        from kinds in Gen.Int[0, 11].Array[parts]
        from chords in Gen.Int[1, 4]
        select Made(kinds, chords);

    [Fact]
    public void It_gives_up_size_first_then_repeats_of_the_melody_then_the_melody_and_never_gets_any_back() =>
        Long.Sample(
            played =>
            {
                var rows = SheetForm.OnOnePage(played).Select(row => row.ToList()).ToList();
                foreach (var row in rows)
                {
                    row.Select(form => form.Scale).Should().BeInDescendingOrder().And.OnlyHaveUniqueItems();
                    row.Should().OnlyContain(form => Bars(form) == Bars(row[0]) && form.Note == row[0].Note);
                    row.Should().OnlyContain(form => form.Columns == row[0].Columns && form.Stretch == 1);
                }
                var kept = rows.ConvertAll(row => Bars(row[0]));
                kept.Should().BeInDescendingOrder();
                kept[0].Should().Be(played.Tune!.Bars.Length);
                rows[0][0].Note.Should().BeEmpty();
                rows.Where(row => Bars(row[0]) < kept[0]).Should().OnlyContain(row => row[0].Note.Length > 0);
                kept[^1].Should().Be(0);
                rows[^1][^1].Columns.Should().Be(2);
                rows[^1][^1].Scale.Should().Be(rows.Min(row => row[^1].Scale), "nothing smaller can be read");
            },
            iter: 200
        );

    [Fact]
    public void What_is_left_of_the_melody_is_each_kind_of_part_once_from_the_first_on() =>
        Long.Sample(
            played =>
            {
                var all = Music(played.Tune!.Bars);
                foreach (var form in SheetForm.OnOnePage(played).Select(row => row.First()))
                {
                    if (form.Melody is not { } melody || form.Note.Length == 0)
                        continue;
                    var parts = Music(melody.Bars).Chunk(8).Select(part => string.Join('|', part)).ToList();
                    parts.Should().OnlyHaveUniqueItems();
                    parts
                        .Should()
                        .Equal(all.Chunk(8).Select(part => string.Join('|', part)).Distinct().Take(parts.Count));
                }
            },
            iter: 100
        );

    [Fact]
    public void A_break_without_its_tune_has_no_melody_to_give_up()
    {
        var rows = SheetForm.OnOnePage(Made([0, 1], 1) with { Tune = null }).ToList();
        rows.SelectMany(row => row).Should().OnlyContain(form => form.Melody == null && form.Note.Length == 0);
    }

    [Fact]
    public void Two_columns_hold_all_parts_in_order_and_are_about_as_high() =>
        Gen.Select(Gen.Int[1, 64].Array[1, 30], Gen.Bool.Select(isWide => isWide ? 8 : 4))
            .Sample(
                (lengths, across) =>
                {
                    List<GridPart> parts =
                    [
                        .. lengths.Select(
                            (length, i) => new GridPart($"{i}", 1, [.. Enumerable.Repeat(new GridBar([], ""), length)])
                        ),
                    ];
                    var columns = SheetForm.InTwo(parts, across);
                    columns.SelectMany(column => column).Should().Equal(parts);
                    columns.Should().OnlyContain(column => !column.IsEmpty).And.HaveCountLessThanOrEqualTo(2);
                    // The left one ends with the part that reaches over the middle, or before it.
                    int Rows(IEnumerable<GridPart> some) => some.Sum(part => (part.Bars.Length + across - 1) / across);
                    if (columns.Count == 2)
                        Math.Abs(Rows(columns[0]) - Rows(columns[1]))
                            .Should()
                            .BeLessThanOrEqualTo(parts.Max(part => Rows([part])) + 1);
                }
            );

    [Fact]
    public void White_goes_into_the_boxes_and_no_more_than_there_is() =>
        Gen.Select(Long, Gen.Double[-50, 600])
            .Sample(
                (played, white) =>
                {
                    var parts = SoundingTune.Grid(played, NumberStyle.Arabic);
                    foreach (var form in SheetForm.OnOnePage(played).SelectMany(row => row))
                    {
                        var filled = form.Filling(parts, white);
                        (filled with { Stretch = 1 }).Should().Be(form);
                        filled.Stretch.Should().BeGreaterThanOrEqualTo(1);
                        var across = form.Across(parts);
                        double Height(SheetForm one) =>
                            form.Columns == 1
                                ? ChordGrid.Lay(parts, new(500), across, one.BoxScale, one.Stretch).Pages[0].Height
                                : ChordGrid
                                    .Lay(SheetForm.InTwo(parts, across), new(500), across, one.BoxScale, one.Stretch)
                                    .Pages[0]
                                    .Height;
                        // Points of a drawing are rounded to hundredths.
                        (Height(filled) - Height(form))
                            .Should()
                            .BeLessThanOrEqualTo(Math.Max(0, white) + 0.02);
                    }
                },
                iter: 20
            );

    private static int Bars(SheetForm form) => form.Melody?.Bars.Length ?? 0;

    private static List<string> Music(IEnumerable<Rollwright.Music.Tunes.TuneBar> bars) =>
        [.. bars.Select(bar => string.Join(' ', bar.Notes.Select(note => note.Pitch.Midi)))];

    // A part of a kind has a melody of its own; a bar has so many chords.
    private static Break Made(int[] kinds, int chords)
    {
        const string Notes = "GABcdefgabDE";
        var abc = new StringBuilder("X:1\nT:Long\nM:4/4\nL:1/8\nK:G\n");
        for (var part = 0; part < kinds.Length; part++)
        {
            abc.Append($"P:P{part + 1}\n|:");
            for (var bar = 0; bar < 8; bar++)
                abc.Append($"{new string(Notes[kinds[part]], 1)}{string.Concat(Enumerable.Repeat("GBdB", 2))[1..]}")
                    .Append(bar == 7 ? ":|\n" : "|");
        }
        var tune = AbcReader.Read(abc.ToString(), "long").Tunes[0];
        return SampleBreaks.Small with
        {
            Title = "Long",
            Tune = tune,
            Spans = [],
            Bars =
            [
                .. tune.Bars.Select(bar =>
                    SampleBreaks.Bar("3.0T 2.0I 5.0T 1.0M 3.0T 2.0I 5.0T 1.0M") with
                    {
                        Marks = bar.Marks,
                        Chords =
                        [
                            .. Enumerable
                                .Range(0, chords)
                                .Select(i => new ChordAt(new(i, chords), Chord.Parse(i % 2 == 0 ? "Am" : "D7")!.Value)),
                        ],
                    }
                ),
            ],
        };
    }
}
