using CsCheck;
using Rollwright.Lessons.Templates;

namespace Rollwright.Lessons.Tests.Templates;

public class TemplateTests
{
    private static readonly string[] Known = ["title", "phrases", "practice"];

    [Fact]
    public void Places_are_filled_in_the_order_of_the_text()
    {
        var asked = new List<string>();
        var text = Template
            .Parse("# {{ title }}\n\n{{practice}} and {{phrases}}\n", "t.md", Known)
            .Fill(
                name =>
                {
                    asked.Add(name);
                    return name.ToUpperInvariant();
                },
                last: "practice"
            );
        text.Should().Be("# TITLE\n\nPRACTICE and PHRASES\n");
        asked.Should().Equal("title", "phrases", "practice");
    }

    [Theory]
    [InlineData("a\n\nb {{phrase}}", "t.md:3:3: *'phrase'*'phrases'*")]
    [InlineData("{{titel}}", "t.md:1:1: *'title'*")]
    [InlineData("x\n  {{title\n}}", "t.md:2:3: *not closed*")]
    [InlineData("{{}}", "t.md:1:1: *")]
    [InlineData("{{title}", "t.md:1:1: *not closed*")]
    public void A_place_that_is_none_is_one_line_with_its_place_and_what_may_be_meant(string text, string line)
    {
        var act = () => Template.Parse(text, "t.md", Known);
        var message = act.Should().Throw<LessonException>().Which.Message;
        message.Should().Match(line).And.NotContain("\n");
    }

    [Fact]
    public void What_is_filled_in_is_not_filled_again()
    {
        var text = Template.Parse("{{title}}", "t.md", Known).Fill(_ => "{{title}} {{other");
        text.Should().Be("{{title}} {{other\n");
    }

    [Fact]
    public void Braces_after_a_backslash_stay() =>
        Template.Parse(@"\{{title}} {{title}}", "t.md", Known).Fill(_ => "x").Should().Be("{{title}} x\n");

    [Fact]
    public void A_heading_under_which_nothing_stands_is_left_out_but_not_in_code()
    {
        const string text =
            "# {{title}}\n\n## One\n\n{{phrases}}\n\n## Two\n\n```\n## code\n\n\n# more\n```\n\n### Three\n\n{{phrases}}\n\n";
        Template
            .Parse(text, "t.md", Known)
            .Fill(name => name == "title" ? "T" : "")
            .Should()
            .Be("# T\n\n## Two\n\n```\n## code\n\n\n# more\n```\n");
    }

    [Fact]
    public void Any_text_is_read_or_refused_with_a_place() =>
        Gen.String[Gen.Char["{}a\n\\ "], 0, 30]
            .Sample(text =>
            {
                try
                {
                    Template.Parse(text, "t.md", Known).Fill(_ => "");
                }
                catch (LessonException fault)
                {
                    return fault.Message.StartsWith("t.md:", StringComparison.Ordinal)
                        && fault.Message.Split(':').Length > 3;
                }
                return true;
            });

    [Fact]
    public void The_program_s_own_templates_have_known_places_and_every_place_is_in_one()
    {
        // Reading them throws where a place has no name that is known.
        LessonTemplates.Lesson.Should().NotBeNull();
        LessonTemplates.Article.Should().NotBeNull();
        LessonTemplates.Handout.Should().NotBeNull();
        var texts = string.Concat(
            Directory.GetFiles(Path.Combine(TestKit.Places.Root, "data", "templates"), "*.md").Select(File.ReadAllText)
        );
        Documents.LessonPlaces.Names.Should().OnlyContain(name => texts.Contains("{{" + name + "}}"));
    }
}
