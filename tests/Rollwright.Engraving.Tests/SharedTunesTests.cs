using Rollwright.Arranging;
using Rollwright.Arranging.Spots;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Pdf;
using Rollwright.Formats.Abc;
using Rollwright.TestKit;

namespace Rollwright.Engraving.Tests;

/// <summary>Breaks of all tunes of ../shared/tunes as this program arranges them, on every kind of page.</summary>
public class SharedTunesTests
{
    private static readonly Lazy<List<(Break Played, Span[] Spots)>> Loaded = new(() =>
        [
            .. Directory
                .GetFiles(Path.Combine(Places.Shared, "tunes"), "*.abc")
                .Order(StringComparer.Ordinal)
                .AsParallel()
                .AsOrdered()
                .Select(file => AbcReader.Read(File.ReadAllText(file), file).Tunes[0])
                .Select(tune => Arranger.Arrange(tune, new()))
                .Select(made => (made.Break, SpotsOf(made))),
        ]
    );

    [Fact]
    public void Nothing_collides_and_nothing_leaves_the_page_on_any_tune_in_any_style() =>
        OnAll(
            (played, layout) =>
            {
                var faults = Collisions
                    .OfSigns(layout)
                    .Concat(Collisions.OfLines(layout))
                    .Concat(Collisions.OfPaper(layout));
                faults.FirstOrDefault().Should().BeNull(played.Title);
            }
        );

    [Fact]
    public void No_system_of_a_page_holds_one_bar_unless_a_part_has_no_other() =>
        OnAll(
            (played, layout) =>
            {
                // A telephone may be too narrow for two full bars.
                if (layout.Pages[0].Width < 500)
                    return;
                foreach (var system in layout.Bars.GroupBy(place => place.System))
                {
                    if (system.Count() == 1)
                        played.Bars.Length.Should().BeLessThan(3, $"{played.Title}, system {system.Key}");
                }
            }
        );

    [Fact]
    public void Pdftotext_reads_every_title_first_and_qpdf_finds_no_fault()
    {
        var path = Path.GetTempFileName();
        try
        {
            foreach (var (played, _) in All().Take(8))
            {
                File.WriteAllBytes(path, PdfWriter.Write(Engraver.Lay(played, PageStyle.A4)));
                Outside.Run("qpdf", "--check", path).Code.Should().Be(0);
                Outside.Run("pdftotext", path, "-").Out.Should().StartWith(played.Title);
            }
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static void OnAll(Action<Break, Drawing.Layout> claim)
    {
        foreach (var (played, spots) in All())
        {
            foreach (var style in Pages.Styles)
                claim(played, Engraver.Lay(played, style, [.. spots]));
        }
    }

    private static List<(Break Played, Span[] Spots)> All()
    {
        Places.NeedShared("tunes");
        Loaded.Value.Should().HaveCountGreaterThan(40);
        return Loaded.Value;
    }

    private static Span[] SpotsOf(Arrangement made)
    {
        var spots = new List<Spot>();
        foreach (var spot in made.Spots())
        {
            if (spots.Count == 0 || spots[^1].Bar != spot.Bar)
                spots.Add(spot);
        }
        return
        [
            .. spots.Select(spot => new Span(SpanKind.Lick, $"{spot.Count} licks", spot.Bar, spot.At, spot.Length)),
        ];
    }
}
