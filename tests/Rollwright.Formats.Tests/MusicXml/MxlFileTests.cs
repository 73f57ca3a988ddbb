using System.IO.Compression;
using System.Text;
using Rollwright.Formats.MusicXml;
using Rollwright.Formats.MusicXml.Reading;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.MusicXml;

/// <summary>Compressed scores: the rules are those of the container reference of MusicXML 4.0 (W3C Music Notation Community Group).</summary>
public class MxlFileTests
{
    private const string Container =
        "<container><rootfiles><rootfile full-path=\"a/b.xml\"/><rootfile full-path=\"b.pdf\" media-type=\"application/pdf\"/></rootfiles></container>";

    private static readonly string Score = MusicXmlWriter.Write(SampleBreaks.SmallCapo2);

    [Fact]
    public void What_is_written_is_read_back() =>
        MusicXmlReader
            .Read(MxlFile.Write(Score), "break.mxl")
            .Break.Should()
            .BeEquivalentTo(
                MusicXmlReader.Read(Score, "break.musicxml").Break,
                options => options.WithStrictOrdering()
            );

    [Fact]
    public void The_same_score_makes_the_same_bytes() => MxlFile.Write(Score).Should().Equal(MxlFile.Write(Score));

    // Python's zipfile is the outside reader: it checks every sum, and tells the order and the compression of the files.
    [Fact]
    public void An_outside_program_finds_the_files_that_the_format_asks_for()
    {
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(path, MxlFile.Write(Score));
            var (code, said, _) = Outside.Run(
                "python3",
                "-c",
                "import sys, zipfile as z; a = z.ZipFile(sys.argv[1]); assert a.testzip() is None; "
                    + "print(*[f'{i.filename}:{i.compress_type}' for i in a.infolist()]); print(a.read('mimetype').decode()); "
                    + "print(a.read('META-INF/container.xml').decode())",
                path
            );
            code.Should().Be(0);
            said.Should()
                .StartWith("mimetype:0 META-INF/container.xml:8 score.musicxml:8\napplication/vnd.recordare.musicxml\n")
                .And.Contain(
                    "<rootfile full-path=\"score.musicxml\" media-type=\"application/vnd.recordare.musicxml+xml\"/>"
                );
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void The_first_root_file_is_the_score_wherever_it_stands() =>
        MusicXmlReader
            .Read(Zip(("META-INF/container.xml", Container), ("b.pdf", "%PDF"), ("a/b.xml", Score)), "other.mxl")
            .Break.Should()
            .NotBeNull();

    [Fact]
    public void An_archive_without_a_score_is_refused_with_a_remedy()
    {
        Refused(Zip(("a/b.xml", Score)));
        Refused(Zip(("META-INF/container.xml", Container)));
        Refused(Zip(("META-INF/container.xml", "<container>"), ("a/b.xml", Score)));
        Refused(Zip(("META-INF/container.xml", "<container/>"), ("a/b.xml", Score)));
        var cut = MxlFile.Write(Score);
        Refused(cut[..(cut.Length / 2)]);
        cut[200] ^= 0xFF;
        cut[201] ^= 0xFF;
        Refused(cut);
    }

    [Fact]
    public void A_bomb_is_refused_in_bounded_memory()
    {
        var bomb = Zip(("META-INF/container.xml", Container), ("a/b.xml", new string(' ', 300_000_000)));
        bomb.Length.Should().BeLessThan(1_000_000);
        Bounded(() => Refused(bomb));
        var list = Zip(("META-INF/container.xml", new string(' ', 300_000_000)), ("a/b.xml", Score));
        Bounded(() => Refused(list));
    }

    [Theory]
    [InlineData("<note/>")]
    [InlineData("<note><pitch><step>G</step><octave>4</octave></pitch><duration>1</duration></note>")]
    [InlineData("<x/>")]
    [InlineData("<a>")]
    public void A_million_of_anything_is_refused_in_bounded_memory(string element)
    {
        var count = Math.Min(1_000_000, 19_000_000 / element.Length);
        var text =
            "<score-partwise><part id=\"P1\"><measure>"
            + new StringBuilder().Insert(0, element, count)
            + "</measure></part></score-partwise>";
        var packed = Zip(("META-INF/container.xml", Container), ("a/b.xml", text));
        Bounded(() => Refused(packed));
        Bounded(() => NotationReader.Read(packed, "million.mxl").Tune.Should().BeNull());
    }

    [Fact]
    public void The_largest_part_that_is_read_stays_within_bounds()
    {
        var note =
            "<note><pitch><step>G</step><octave>4</octave></pitch><duration>1</duration><voice>1</voice><type>quarter</type><staff>1</staff><x/></note>";
        var measure = "<measure>" + new StringBuilder().Insert(0, note, 10) + "</measure>";
        var text =
            "<score-partwise><part id=\"P1\">"
            + new StringBuilder().Insert(0, measure, ScoreFile.MostNotes / 10)
            + "</part></score-partwise>";
        Bounded(() =>
            NotationReader.Read(text, "large.musicxml").Tune!.Bars.Should().HaveCount(ScoreFile.MostNotes / 10)
        );
    }

    // Nothing outside the file is asked for, and nothing is expanded: neither a file's content nor an entity's.
    [Theory]
    [InlineData("<!DOCTYPE s [<!ENTITY x SYSTEM \"file:///etc/passwd\">]>")]
    [InlineData("<!DOCTYPE s [<!ENTITY y \"yyyyyyyyyy\"><!ENTITY x \"&y;&y;&y;&y;&y;&y;&y;&y;&y;&y;\">]>")]
    public void Entities_are_never_resolved(string type)
    {
        var text = Score.Replace("<score-partwise", type + "<score-partwise", StringComparison.Ordinal);
        MusicXmlReader.Read(text, "type.musicxml").Break.Should().NotBeNull();
        var used = text.Replace("The Kettle Path", "&x;", StringComparison.Ordinal);
        var reading = MusicXmlReader.Read(used, "entity.musicxml");
        reading.Break.Should().BeNull();
        reading.Messages.Single().What.Should().Be("this is no XML, or broken XML");
    }

    [Fact]
    public void A_document_type_elsewhere_is_not_fetched() =>
        MusicXmlReader
            .Read(
                Score.Replace(
                    "<score-partwise",
                    "<!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\" \"http://127.0.0.1:1/partwise.dtd\"><score-partwise",
                    StringComparison.Ordinal
                ),
                "type.musicxml"
            )
            .Break.Should()
            .NotBeNull();

    private static void Refused(byte[] bytes)
    {
        var reading = MusicXmlReader.Read(bytes, "bad.mxl");
        reading.Break.Should().BeNull();
        reading.Messages.Should().OnlyContain(message => message.Remedy.Length > 0 && message.What.Length > 0);
        reading.Messages.Should().NotBeEmpty();
    }

    private static void Bounded(Action read) => Bounds.Fault(read).Should().BeNull();

    private static byte[] Zip(params (string Name, string Text)[] files)
    {
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, text) in files)
            {
                using var entry = zip.CreateEntry(name).Open();
                entry.Write(Encoding.UTF8.GetBytes(text));
            }
        }
        return stream.ToArray();
    }
}
