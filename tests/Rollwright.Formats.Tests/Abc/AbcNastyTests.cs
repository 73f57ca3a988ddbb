using System.Text;
using CsCheck;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Abc;

/// <summary>Bad input of every kind: a message or a sensible tune, never an exception.</summary>
public class AbcNastyTests(ITestOutputHelper output)
{
    private const string Good =
        "X:1\nT:The Kettle Path\nC:A. Player\nM:6/8\nL:1/8\nQ:3/8=110\nP:AB\nK:Ador\nP:A\n"
        + "|:e|\"Am\"A2B c>dc|[1 (3ABc \"G/B\"B2 ^g:|[2 {ag}[Ace]3- [Ace]3||\nP:B\nV:2\nz6|\nV:1\n"
        + "\"^up\"!trill!a2f &d3|_B,,/ =c'2//- c'4/3 +GB+|1-3 (5:4:3abc x2 Z2 ::\\\n[K:G][M:4/4] g<g f>>e y|]\nw: la la\n%%text\n";

    [Fact]
    public void Every_nasty_file_gives_its_tunes_and_sensible_messages()
    {
        foreach (
            var file in Directory.GetFiles(Places.NeedShared("tunes-nasty"), "*.abc").Order(StringComparer.Ordinal)
        )
        {
            var reading = AbcReader.Read(File.ReadAllBytes(file), Path.GetFileName(file));
            reading.Tunes.Should().NotBeEmpty(file);
            output.WriteLine($"{Path.GetFileName(file)}: {reading.Tunes.Length} tunes");
            foreach (var message in reading.Messages)
                output.WriteLine($"    {message}");
            reading.Messages.Length.Should().BeLessThan(40);
        }
    }

    [Fact]
    public void No_mutation_of_a_tune_makes_the_reader_throw()
    {
        var signs = Gen.Char["|:[]()-<>_^=abcABCzZxyX0123456789/,'\"!+{}&%\\ \n\r.~TKMLPQVUm\t\u00e9\uD800\u0001"];
        Gen.Select(Gen.Int[0, Good.Length - 1], Gen.Int[0, 20], Gen.String[signs, 0, 12], Gen.Int[0, Good.Length - 1])
            .Sample(
                (at, gone, put, second) =>
                {
                    var text = Good[..at] + put + Good[Math.Min(Good.Length, at + gone)..];
                    text = text.Insert(Math.Min(second, text.Length), put);
                    Check(AbcReader.Read(text, "fuzz.abc"));
                    Check(AbcReader.Read(Encoding.Latin1.GetBytes(text), "fuzz.abc"));
                },
                iter: 5_000
            );
    }

    [Fact]
    public void No_bytes_make_the_reader_throw() =>
        Gen.Byte.Array[0, 400].Sample(bytes => Check(AbcReader.Read(bytes, "fuzz.abc")), iter: 2_000);

    [Theory]
    [InlineData("", "the file is empty")]
    [InlineData("\n \n", "the file is empty")]
    [InlineData("X:1\nK:G\n", "a tune without a single note")]
    [InlineData("X:1\nK:H\nGABc|\n", "'H' is not a key")]
    [InlineData("X:1\nM:4/5\nK:G\nGABc|\n", "'4/5' is not a metre")]
    [InlineData("X:1\nK:G\nG0 A/0 B|\n", "a note or rest of no length, or of one that no bar holds")]
    [InlineData("X:1\nK:G\n:| GABc|\n", "a repeat ends before any note")]
    [InlineData("X:1\nK:G\nG,,,,,,,,,,A|\n", "a note beyond what any instrument sounds")]
    [InlineData("X:1\nK:G\n\"G A|\n", "quotation marks are not closed")]
    public void What_is_wrong_is_said_once_with_a_remedy(string text, string what)
    {
        var message = AbcReader.Read(text, "bad.abc").Messages.First(m => m.Severity == Severity.Error);
        message.What.Should().Be(what);
        message.Remedy.Should().NotBeEmpty();
        message.Line.Should().BePositive();
        message.Column.Should().BePositive();
    }

    [Fact]
    public void Binary_files_and_files_beyond_the_bound_are_refused_in_one_line()
    {
        byte[] binary = [0x4D, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 1];
        AbcReader
            .Read(binary, "a.mid")
            .Messages.Should()
            .ContainSingle()
            .Which.What.Should()
            .Be("this is no text file");
        var large = new byte[50_000_000];
        Array.Fill(large, (byte)'a');
        var reading = AbcReader.Read(large, "large.abc");
        reading.Tunes.Should().BeEmpty();
        reading.Messages.Should().ContainSingle().Which.What.Should().Be("the file is larger than 20 MB");
    }

    [Fact]
    public void Sixty_four_parts_a_bar_of_two_hundred_notes_and_13_8_are_read()
    {
        var parts = string.Concat(Enumerable.Range(0, 64).Select(i => $"P:{(char)('A' + (i % 26))}\nCDEF|\n"));
        AbcReader.Read($"X:1\nM:C\nL:1/4\nK:C\n{parts}", "parts.abc").Tunes.Single().Bars.Length.Should().Be(64);
        var long_ = AbcReader.Read($"X:1\nM:C\nK:C\n{new string('C', 200)}|\n", "bar.abc");
        long_.Tunes.Single().Bars.Single().Notes.Length.Should().Be(200);
        long_.Messages.Should().Contain(message => message.What.Contains("the bar lasts 25"));
        var odd = AbcReader.Read("X:1\nM:13/8\nL:1/8\nK:C\nCDEFGABcdefga|\n", "odd.abc");
        odd.Messages.Should().BeEmpty();
        odd.Tunes.Single().Time.Should().Be(new Music.Metre.TimeSignature(13, 8));
    }

    [Fact]
    public void A_text_just_within_the_bound_is_read_to_its_end()
    {
        // Two million notes without a bar line: the bars and the tune are bounded, and every sign is passed once.
        var reading = AbcReader.Read($"X:1\nK:C\n{new string('C', 2_000_000)}\n", "long.abc");
        reading.Tunes.Single().Bars.Length.Should().BeLessThanOrEqualTo(AbcLimits.MostBars);
        reading.Messages.Should().NotBeEmpty();
    }

    private static void Check(AbcReading reading)
    {
        foreach (var tune in reading.Tunes)
            CheckTune(tune);
        (reading.Tunes.IsEmpty && reading.Messages.IsEmpty).Should().BeFalse();
    }

    private static void CheckTune(Tune tune)
    {
        foreach (var bar in tune.Bars)
        {
            var end = Music.Metre.Fraction.Zero;
            bar.Length.Should().BeGreaterThan(Music.Metre.Fraction.Zero);
            foreach (var note in bar.Notes)
            {
                note.At.Should().BeGreaterThanOrEqualTo(end, "one line of melody does not overlap");
                end = note.At + note.Length;
            }
            end.Should().BeLessThanOrEqualTo(bar.Length);
        }
        tune.Played().Should().NotBeNull();
    }
}
