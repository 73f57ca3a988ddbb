using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Pdf;
using Rollwright.TestKit;

namespace Rollwright.Engraving.Tests;

/// <summary>PDF files judged by outside readers: poppler's tools and qpdf.</summary>
public sealed class PdfTests_Poppler : IDisposable
{
    private readonly string path = Path.GetTempFileName();

    public void Dispose() => File.Delete(path);

    [Fact]
    public void Pdffonts_finds_every_font_inside()
    {
        Print(SampleBreaks.SmallCapo2, PageStyle.A4);
        var rows = Outside
            .Run("pdffonts", path)
            .Out.Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Skip(2)
            .ToList();
        rows.Should().NotBeEmpty();
        // The columns "emb sub uni" follow the encoding; each row ends with the object's two numbers.
        rows.Select(row => row.Split(' ', StringSplitOptions.RemoveEmptyEntries)[^5])
            .Should()
            .OnlyContain(cell => cell == "yes");
        rows.Should().OnlyContain(row => row.Contains("+Rollwright") && row.Contains("CID TrueType"));
    }

    [Fact]
    public void Pdftotext_reads_title_setting_chords_and_numbers()
    {
        Print(SampleBreaks.SmallCapo2 with { Title = "The Łączna Kettle" }, PageStyle.A4);
        var text = Outside.Run("pdftotext", "-layout", path, "-").Out;
        text.Should().Contain("The Łączna Kettle").And.Contain("Capo 2, sounds in A major").And.Contain("D7");
    }

    [Fact]
    public void Pdftotext_reads_sharps_and_flats()
    {
        var key = new Music.Keys.Key(new(Music.Pitches.Letter.B, -1));
        var sample = SampleBreaks.Small;
        Print(sample with { Setting = sample.Setting with { Position = key } }, PageStyle.A4);
        Outside.Run("pdftotext", path, "-").Out.Should().Contain("B♭ major");
    }

    [Fact]
    public void Qpdf_finds_no_fault()
    {
        Print(SampleBreaks.Small, PageStyle.LargePrint);
        Outside.Run("qpdf", "--check", path).Code.Should().Be(0);
    }

    [Fact]
    public void Pdfinfo_reads_page_size_and_title()
    {
        Print(SampleBreaks.Small, PageStyle.A4);
        var info = Outside.Run("pdfinfo", path).Out;
        info.Should().Contain("The Kettle Path").And.MatchRegex(@"Page size:\s+595\.\d+ x 841\.\d+ pts \(A4\)");
    }

    [Fact]
    public void The_bytes_are_the_same_each_time_and_carry_no_date()
    {
        var layout = Engraver.Lay(SampleBreaks.Small, PageStyle.A4);
        var bytes = PdfWriter.Write(layout);
        bytes.Should().Equal(PdfWriter.Write(Engraver.Lay(SampleBreaks.Small, PageStyle.A4)));
        System.Text.Encoding.Latin1.GetString(bytes).Should().NotContain("/CreationDate").And.NotContain("/ModDate");
    }

    private void Print(Break played, PageStyle style) =>
        File.WriteAllBytes(path, PdfWriter.Write(Engraver.Lay(played, style)));
}
