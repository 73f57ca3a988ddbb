using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Wordprocessing;

namespace Rollwright.Lessons.Documents.Printing;

/// <summary>The styles and the numbering of a document in Office Open XML (ECMA-376).</summary>
internal static class DocxStyles
{
    public const string Bullets = "1";

    // Numbering of the ordered lists begins behind that of the bullets.
    private const int FirstOrdered = 2;
    private const int Depths = 4;

    private static readonly (string Id, string Name, int HalfPoints, int Before, bool IsBold, bool IsItalic)[] Known =
    [
        ("Title", "Title", 40, 0, true, false),
        ("Heading1", "heading 1", 40, 240, true, false),
        ("Heading2", "heading 2", 30, 320, true, false),
        ("Heading3", "heading 3", 24, 240, true, false),
        ("Caption", "caption", 19, 40, false, true),
        ("Quote", "Quote", 22, 120, false, true),
        ("ListParagraph", "List Paragraph", 22, 0, false, false),
        ("Code", "Code", 18, 0, false, false),
    ];

    public static Styles Make()
    {
        var styles = new Styles(
            new DocDefaults(
                new RunPropertiesDefault(
                    new RunPropertiesBaseStyle(
                        new RunFonts
                        {
                            Ascii = "Times New Roman",
                            HighAnsi = "Times New Roman",
                            ComplexScript = "Times New Roman",
                        },
                        new FontSize { Val = "22" },
                        new Languages { Val = "en-US" }
                    )
                ),
                new ParagraphPropertiesDefault(
                    new ParagraphPropertiesBaseStyle(
                        new SpacingBetweenLines
                        {
                            After = "120",
                            Line = "276",
                            LineRule = LineSpacingRuleValues.Auto,
                        }
                    )
                )
            ),
            new Style(new StyleName { Val = "Normal" }, new PrimaryStyle())
            {
                Type = StyleValues.Paragraph,
                StyleId = "Normal",
                Default = true,
            }
        );
        foreach (var (id, name, size, before, isBold, isItalic) in Known)
        {
            var isHeading = id.StartsWith("Heading", StringComparison.Ordinal) || id == "Title";
            var paragraph = new StyleParagraphProperties();
            if (isHeading)
                paragraph.Append(new KeepNext(), new KeepLines());
            paragraph.Append(new SpacingBetweenLines { Before = $"{before}", After = id == "Code" ? "0" : "120" });
            if (id == "Quote")
                paragraph.Append(new Indentation { Left = "360" });
            if (isHeading && id != "Title")
                paragraph.Append(new OutlineLevel { Val = id[^1] - '1' });
            var run = new StyleRunProperties();
            if (id == "Code")
                run.Append(
                    new RunFonts
                    {
                        Ascii = "Courier New",
                        HighAnsi = "Courier New",
                        ComplexScript = "Courier New",
                    }
                );
            if (isBold)
                run.Append(new Bold());
            if (isItalic)
                run.Append(new Italic());
            run.Append(new FontSize { Val = $"{size}" });
            styles.Append(
                new Style(
                    new StyleName { Val = name },
                    new BasedOn { Val = "Normal" },
                    new PrimaryStyle(),
                    paragraph,
                    run
                )
                {
                    Type = StyleValues.Paragraph,
                    StyleId = id,
                }
            );
        }
        return styles;
    }

    /// <summary>Bullets, and one numbering for each ordered list, so that each begins anew.</summary>
    /// <param name="starts">The first number of each ordered list.</param>
    public static Numbering MakeNumbering(IReadOnlyList<int> starts)
    {
        var numbering = new Numbering(
            Abstract(0, NumberFormatValues.Bullet, _ => "•"),
            Abstract(1, NumberFormatValues.Decimal, depth => $"%{depth + 1}.")
        );
        numbering.Append(new NumberingInstance(new AbstractNumId { Val = 0 }) { NumberID = 1 });
        for (var i = 0; i < starts.Count; i++)
            numbering.Append(
                new NumberingInstance(
                    new AbstractNumId { Val = 1 },
                    new LevelOverride(new StartOverrideNumberingValue { Val = starts[i] }) { LevelIndex = 0 }
                )
                {
                    NumberID = FirstOrdered + i,
                }
            );
        return numbering;
    }

    public static string OrderedList(int index) => $"{FirstOrdered + index}";

    private static AbstractNum Abstract(int id, NumberFormatValues format, Func<int, string> mark)
    {
        var all = new AbstractNum(new MultiLevelType { Val = MultiLevelValues.HybridMultilevel })
        {
            AbstractNumberId = id,
        };
        for (var depth = 0; depth < Depths; depth++)
            all.Append(
                new Level(
                    new StartNumberingValue { Val = 1 },
                    new NumberingFormat { Val = format },
                    new LevelText { Val = mark(depth) },
                    new LevelJustification { Val = LevelJustificationValues.Left },
                    new PreviousParagraphProperties(new Indentation { Left = $"{360 * (depth + 1)}", Hanging = "260" })
                )
                {
                    LevelIndex = depth,
                }
            );
        return all;
    }
}
