using System.Collections.Immutable;
using CsCheck;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Figures;
using Rollwright.Engraving.Flow;
using Rollwright.Engraving.Measuring;
using Rollwright.TestKit;

namespace Rollwright.Engraving.Tests.Flow;

public class TextFlowTests
{
    private static readonly FlowStyle Paper = new(420, 400) { RunningTitle = "Title" };

    private static readonly Layout Figure = BarsFigure.Lay(
        SampleBreaks.Small,
        1,
        2,
        PageStyle.A4,
        new(Paper.TextWidth)
    );

    private static readonly Gen<string> Texts = Gen.String[Gen.Char["abc defgh, ij. KL"], 1, 700];

    private static readonly Gen<FlowBlock> Blocks = Gen.OneOf(
        Texts.Select(text => (FlowBlock)new TextBlock([new(text), new(text, Face.Bold)])),
        Gen.Select(
            Gen.Int[1, 3],
            Gen.String[Gen.Char["Heading "], 1, 60],
            (level, text) => (FlowBlock)new Heading(level, "H" + text)
        ),
        Texts.Select(text => (FlowBlock)new NoteBlock([new(text)])),
        Gen.Select(Gen.Int[0, 2], Texts, (depth, text) => (FlowBlock)new ItemBlock("•", depth, [new("x" + text)])),
        Gen.Select(Gen.Int[1, 6], Gen.String[Gen.Char["abc de"], 1, 40])
            .Select(one =>
                (FlowBlock)
                    new TableBlock(
                        ["One", "Two"],
                        [.. Enumerable.Repeat(ImmutableArray.Create(one.Item2, "2"), one.Item1)]
                    )
            ),
        Gen.Const((FlowBlock)new FigureBlock(Figure, "A caption"))
    );

    private static readonly Gen<List<FlowBlock>> Documents = Blocks.List[1, 14];

    [Fact]
    public void All_ink_lies_within_the_margins_of_its_page_and_none_overlaps_but_rules() =>
        Documents.Sample(
            blocks =>
            {
                var pages = TextFlow.Lay("Title", "", blocks, Paper).Pages;
                for (var i = 0; i < pages.Length; i++)
                {
                    var left = i % 2 == 0 ? Paper.Inner : Paper.Outer;
                    var words = pages[i]
                        .Inks.OfType<Words>()
                        .Where(ink => ink.Kind is InkKind.Text or InkKind.Heading or InkKind.Caption)
                        .ToList();
                    foreach (var ink in pages[i].Inks.Where(ink => ink.Kind != InkKind.PageNumber))
                    {
                        ink.Box.Left.Should().BeGreaterThan(left - 3);
                        ink.Box.Right.Should().BeLessThan(left + Paper.TextWidth + 3);
                        ink.Box.Top.Should().BeGreaterThan(Paper.Top - 1);
                        ink.Box.Bottom.Should().BeLessThan(Paper.Height - Paper.Bottom + 1);
                    }
                    for (var a = 0; a < words.Count; a++)
                    {
                        for (var b = a + 1; b < words.Count; b++)
                            words[a]
                                .Box.Grown(-0.5)
                                .Overlaps(words[b].Box.Grown(-0.5))
                                .Should()
                                .BeFalse($"{words[a]} {words[b]}");
                    }
                }
            },
            iter: 100
        );

    [Fact]
    public void No_page_is_empty_and_no_heading_is_the_last_of_one_that_is_followed() =>
        Documents.Sample(
            blocks =>
            {
                var pages = TextFlow.Lay("Title", "", blocks, Paper).Pages;
                for (var i = 0; i < pages.Length; i++)
                {
                    var body = pages[i].Inks.Where(ink => ink.Kind != InkKind.PageNumber).ToList();
                    body.Should().NotBeEmpty();
                    if (i + 1 == pages.Length)
                        continue;
                    var isAllHeadings = body.TrueForAll(ink => ink.Kind == InkKind.Heading);
                    var lowest = body.MaxBy(ink => ink.Box.Bottom)!;
                    (lowest.Kind == InkKind.Heading && !isAllHeadings).Should().BeFalse();
                }
            },
            iter: 200
        );

    [Fact]
    public void Every_word_is_printed_in_order() =>
        Texts.Sample(
            text =>
            {
                var printed = TextFlow
                    .Lay("T", "", [new TextBlock([new(text)])], Paper)
                    .Pages.SelectMany(page => page.Inks.OfType<Words>().Where(ink => ink.Kind == InkKind.Text))
                    .Select(ink => ink.Text);
                string.Concat(printed).Replace(" ", "").Should().Be(text.Replace(" ", ""));
            },
            iter: 100
        );

    [Fact]
    public void A_figure_that_is_wider_than_the_text_is_refused()
    {
        var act = () =>
            TextFlow.Lay(
                "T",
                "",
                [new FigureBlock(BarsFigure.Lay(SampleBreaks.Small, 1, 2, PageStyle.A4, new(500)))],
                Paper
            );
        act.Should().Throw<ArgumentException>();
    }

    [Fact]
    public void The_head_of_a_picture_is_enough_to_refuse_one_that_is_too_large()
    {
        // A PNG of 20,000 by 10,000 pixels that has a head and no pixel (W3C PNG, 5.2 and 11.2.2).
        byte[] head =
        [
            0x89,
            .. "PNG\r\n\x1a\n"u8,
            0,
            0,
            0,
            13,
            .. "IHDR"u8,
            0,
            0,
            0x4e,
            0x20,
            0,
            0,
            0x27,
            0x10,
            8,
            2,
            0,
            0,
            0,
        ];
        byte[] chunk = head[12..29];
        byte[] file = [.. head, .. Crc(chunk), 0, 0, 0, 0, .. "IDAT"u8, .. Crc("IDAT"u8.ToArray())];
        var act = () => PictureFile.Read(file);
        act.Should().Throw<InvalidDataException>().WithMessage("*20000 × 10000*");
        var none = () => PictureFile.Read("no picture"u8.ToArray());
        none.Should().Throw<InvalidDataException>().WithMessage("*PNG, JPEG*");
    }

    private static byte[] Crc(byte[] bytes)
    {
        var crc = 0xffffffffu;
        foreach (var one in bytes)
        {
            crc ^= one;
            for (var i = 0; i < 8; i++)
                crc = (crc & 1) != 0 ? (crc >> 1) ^ 0xedb88320 : crc >> 1;
        }
        crc ^= 0xffffffff;
        return [(byte)(crc >> 24), (byte)(crc >> 16), (byte)(crc >> 8), (byte)crc];
    }
}
