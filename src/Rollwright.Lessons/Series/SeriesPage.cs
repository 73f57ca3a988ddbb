using System.Globalization;
using System.Text;
using Rollwright.Engraving.Svg;
using Rollwright.Lessons.Player;

namespace Rollwright.Lessons.Series;

/// <summary>The index of a series: a page without script, for a disk or the web.</summary>
public static class SeriesPage
{
    public static string Write(LessonSeries series)
    {
        ArgumentNullException.ThrowIfNull(series);
        var main = new StringBuilder();
        main.Append($"<header class=\"sheet\">\n<h1>{Text(series.Title)}</h1>\n");
        if (series.Author.Length > 0)
            main.Append($"<p class=\"setting\">{Text(series.Author)}</p>\n");
        main.Append("</header>\n<ol class=\"series\">\n");
        foreach (var lesson in series.Lessons)
            Append(main, lesson);
        main.Append("</ol>\n<p class=\"caution\"><a href=\"feed.xml\">What is new, as an Atom feed</a></p>\n");
        var fonts = SvgFonts.StyleSheet([], main.ToString());
        return $"""
            <!DOCTYPE html>
            <html lang="en">
            <head>
            <meta charset="utf-8">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <meta name="color-scheme" content="light dark">
            <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:; base-uri 'none'; form-action 'none'">
            <title>{Text(series.Title)}</title>
            <link rel="alternate" type="application/atom+xml" href="feed.xml" title="{Text(series.Title)}">
            <style>
            {PlayerAssets.Text("palette.css")}{PlayerAssets.Text("page.css")}{PlayerAssets.Text(
                "lesson.css"
            )}{fonts}</style>
            </head>
            <body>
            <main>
            {main}</main>
            </body>
            </html>

            """;
    }

    private static void Append(StringBuilder main, SeriesLesson lesson)
    {
        var facts = lesson.Facts;
        var level = facts.Level is { } number ? string.Create(CultureInfo.InvariantCulture, $"level {number}, ") : "";
        main.Append($"<li class=\"sheet\">\n<h2><a href=\"{Text(lesson.Address)}\">{Text(facts.Title)}</a></h2>\n")
            .Append($"<p>{Text(facts.About)} {Text(Upper($"{level}to be played at {facts.Tempo}."))}</p>\n<ul>\n");
        foreach (var taught in facts.Taught)
            main.Append($"<li>{Text(taught)}</li>\n");
        main.Append($"</ul>\n<p class=\"setting\">{Text(facts.Rights)}</p>\n");
        if (lesson is { HasPage: true, HasHandout: true })
            main.Append(
                $"<p><a href=\"{Text(Uri.EscapeDataString(lesson.Folder))}/handout.pdf\">The handout<span class=\"unseen\"> of {Text(facts.Title)}</span></a></p>\n"
            );
        main.Append("</li>\n");
    }

    private static string Text(string words) => PageFile.Escaped(words);

    private static string Upper(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
