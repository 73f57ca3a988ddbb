using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Json;
using Rollwright.Formats.Messages;
using Rollwright.Formats.Midi;
using Rollwright.Formats.MusicXml;
using Rollwright.Formats.TextTab;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Fuzzing;

/// <summary>
/// Every reader on mutations of good files: it answers, or explains with a remedy; it never throws, and keeps to two seconds
/// and 256 MB. 20,000 cases in all; <c>bench/fuzz.sh</c> runs as many as it is asked for, from another seed.
/// </summary>
public class FuzzTests
{
    private static readonly int Times = Setting("ROLLWRIGHT_FUZZ_TIMES", 1);
    private static readonly int Seed = Setting("ROLLWRIGHT_FUZZ_SEED", 1);

    private static readonly Tune Tune = AbcReader
        .Read(
            "X:1\nT:The Kettle Path\nC:A. Player\nR:reel\nM:C|\nL:1/8\nQ:1/2=80\nK:Ador\nP:A\n|:\"Am\"A2(3Bcd e>c A2-|[1A8:|[2[Ace]4 z4||\nP:B\n|:\"G\"G,2^F2 {a}g4 & C8|\n",
            "tune.abc"
        )
        .Tunes.Single();

    // Short, so that many cases are quick; the tune goes with it where the form has a place for it.
    private static readonly Break Played = SampleBreaks.SmallCapo2 with
    {
        Bars = SampleBreaks.SmallCapo2.Bars[..Tune.Bars.Length],
        Tune = Tune,
    };

    [Fact]
    public void Abc() =>
        Try(
            4000,
            Encoding.UTF8.GetBytes(AbcWriter.Write(Played)),
            [
                "|:",
                ":|",
                "::|",
                "[1",
                "[V:2]",
                "(9",
                "K:none",
                "M:64/64",
                "L:1/1",
                "P:A9(BA)9",
                "Z99",
                "&",
                "-",
                "\"Gm7b5\"",
                "[K:",
                "%%",
                "\n\n",
                "X:2\n",
                "<<<",
                "c'''''",
            ],
            bytes =>
            {
                var reading = AbcReader.Read(bytes, "f.abc");
                foreach (var tune in reading.Tunes)
                    _ = tune.Played();
                return (reading.Tunes.IsEmpty, reading.Messages);
            }
        );

    private static readonly string[] XmlPieces =
    [
        "<note>",
        "</note>",
        "<backup><duration>9</duration></backup>",
        "<forward/>",
        "<chord/>",
        "<grace/>",
        "<tie type=\"stop\"/>",
        "<!--",
        "-->",
        "<![CDATA[",
        "]]>",
        "&amp;",
        "&x;",
        "<!DOCTYPE x [<!ENTITY x \"y\">]>",
        "<divisions>0.001</divisions>",
        "<string>6</string>",
        "<part id=\"P1\">",
        "<transpose><chromatic>99</chromatic></transpose>",
        "<repeat direction=\"backward\" times=\"999\"/>",
        "\u0000",
    ];

    [Fact]
    public void MusicXml_as_a_break() =>
        Try(
            1500,
            Encoding.UTF8.GetBytes(MusicXmlWriter.Write(Played)),
            XmlPieces,
            bytes => Answer(MusicXmlReader.Read(bytes, "f.musicxml"))
        );

    [Fact]
    public void MusicXml_as_notes() =>
        Try(
            1500,
            Encoding.UTF8.GetBytes(MusicXmlWriter.Write(Played)),
            XmlPieces,
            bytes => Answer(NotationReader.Read(bytes, "f.musicxml"))
        );

    [Fact]
    public void Compressed_MusicXml() =>
        Try(
            2000,
            MxlFile.Write(MusicXmlWriter.Write(Played)),
            [
                "PK\u0003\u0004",
                "PK\u0001\u0002",
                "PK\u0005\u0006",
                "META-INF/container.xml",
                "\u0000\u0000\u0000\u0000",
            ],
            bytes => Answer(MusicXmlReader.Read(bytes, "f.mxl"))
        );

    [Fact]
    public void Midi() =>
        Try(
            4000,
            MidiWriter.Write(Played),
            ["MTrk", "MThd", "\u007f\u007f\u007f\u007f", "\u0000\u0000\u0000\u0000", "\u0000\u007f"],
            bytes => Answer(MidiReader.Read(bytes, "f.mid"))
        );

    [Fact]
    public void Text_tab() =>
        Try(
            4000,
            Encoding.UTF8.GetBytes(TextTabWriter.Write(Played)),
            [
                "|",
                "||",
                ":",
                "h",
                "p",
                "ch",
                "b",
                "/",
                "\\",
                "~",
                "\n",
                "\n\n",
                "-",
                "--------",
                "22",
                "1 e & a",
                "T I M",
                "[1,2.___",
                "Time: 13/64",
                "Capo: 99",
                "Key: H",
                "Part Z",
                "99 times",
                "\t",
            ],
            bytes => Answer(TextTabReader.Read(Encoding.UTF8.GetString(bytes), "f.tab"))
        );

    [Fact]
    public void Json() =>
        Try(
            3000,
            Encoding.UTF8.GetBytes(JsonWriter.Write(Played)),
            [
                "{",
                "}",
                "[",
                "]",
                ",",
                ":",
                "\"",
                "null",
                "true",
                "\"at\":\"1/3\",",
                "\"strokes\":[],",
                "[[[[[[[[",
                "\\ud800",
                "\"1/967680\"",
            ],
            bytes => Answer(BreakReader.Read([(byte)'{', .. bytes.SkipWhile(one => one == '{')], "f.json"))
        );

    private static (bool IsRefused, ImmutableArray<Message> Messages) Answer(BreakReading reading)
    {
        _ = reading.Break?.Played();
        return (reading.Break is null, reading.Messages);
    }

    private static (bool IsRefused, ImmutableArray<Message> Messages) Answer(TuneReading reading)
    {
        _ = reading.Tune?.Played();
        return (reading.Tune is null, reading.Messages);
    }

    private static void Try(
        int cases,
        byte[] good,
        string[] pieces,
        Func<byte[], (bool IsRefused, ImmutableArray<Message> Messages)> read
    )
    {
        read(good).IsRefused.Should().BeFalse("mutations start from a file that can be read");
        var refused = 0;
        for (var i = 0; i < cases * Times; i++)
        {
            var seed = (Seed * 1_000_003) + i;
            var bytes = new Mutation(seed, pieces).Of(good);
            string? fault;
            try
            {
                fault = Bounds.Fault(() =>
                {
                    var (isRefused, messages) = read(bytes);
                    refused += isRefused ? 1 : 0;
                    if (isRefused && !messages.Any(said => said is { What.Length: > 0, Remedy.Length: > 0 }))
                        throw new InvalidDataException("refused without a word of what to do");
                });
            }
            catch (Exception thrown)
            {
                fault = thrown.ToString();
            }
            if (fault is null)
                continue;
            var path = Path.Combine(Path.GetTempPath(), $"rollwright-fuzz-{seed}");
            File.WriteAllBytes(path, bytes);
            Assert.Fail($"seed {seed}, kept in {path}: {fault}");
        }
        // Mutations that are all refused, or none, would say little.
        refused.Should().BeInRange(1, (cases * Times) - 1);
    }

    private static int Setting(string name, int usual) =>
        int.TryParse(Environment.GetEnvironmentVariable(name), CultureInfo.InvariantCulture, out var value)
            ? value
            : usual;
}
