using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Figures;
using Rollwright.Lessons.Templates;

namespace Rollwright.Lessons.Documents;

/// <summary>A figure of a document.</summary>
/// <param name="Name">"figure-03": of its files, and in the text.</param>
/// <param name="Drawing">What is printed.</param>
/// <param name="Caption">Words under it.</param>
internal sealed record BookFigure(string Name, Layout Drawing, string Caption);

/// <summary>Music as figures: drawn as they are asked for, and numbered so.</summary>
internal sealed class FigureBook(FigureLook look, string folder = "") : IMusicShown
{
    private readonly List<BookFigure> figures = [];

    public IReadOnlyList<BookFigure> Figures => figures;

    /// <summary>The figure that an address in the text means; null where it means something else.</summary>
    public BookFigure? Find(string? address) => figures.Find(figure => AddressOf(figure) == address);

    public bool HasCaptions => look.IsNumbered;

    public string Whole(Break played, string caption)
    {
        var page = look.Page with { Width = look.Whole, Margin = Edge, ShowHeading = false };
        var drawing = Engraver.Lay(played, page with { Height = null });
        // What is longer than a page is parted between systems.
        if (look.WholeHeight is { } height && drawing.Pages[0].Height > height)
            drawing = Engraver.Lay(played, page with { Height = height, MaySaveAPage = true });
        return Add(drawing, caption);
    }

    public string Bars(Break played, ImmutableArray<int> bars, string caption) =>
        Add(BarsFigure.Lay(played, bars[0], bars[^1], look.Page, new(look.Column)), caption);

    public string Form(Break played, string caption)
    {
        var letters = LettersOf(played);
        return Drawn(() => FormMap.Lay(played, new(look.Column), letters), caption);
    }

    public string Chords(Break played, string caption)
    {
        var chords = played.Bars.SelectMany(bar => bar.Chords).Select(chord => chord.Chord).Distinct().ToList();
        return chords.Count == 0
            ? ""
            : Drawn(() => ChordFigure.Lay(played.Setting.Tuning, chords, new(look.Column)), caption);
    }

    public string List() => string.Join('\n', figures.Select(figure => $"- {PlainText.Of(figure.Caption)}"));

    private const double Edge = 1.5;

    // The letters of the text, which go by what the hands play.
    private static ImmutableDictionary<int, string> LettersOf(Break played) =>
        Plan.TeachingOrder.Letters(Banjo.Forms.BreakForm.Of(played));

    // A form of a dozen phrases a row, a chord without a shape: then the words alone say it.
    private string Drawn(Func<Layout> draw, string caption)
    {
        try
        {
            return Add(draw(), caption);
        }
        catch (ArgumentException)
        {
            return "";
        }
    }

    private string Add(Layout drawing, string caption)
    {
        var number = figures.Count + 1;
        var figure = new BookFigure(
            $"figure-{number:00}",
            drawing,
            look.IsNumbered ? $"Figure {number}. {caption}" : caption
        );
        figures.Add(figure);
        if (!HasCaptions)
            return $"![{PlainText.Of(drawing.Words)}]({AddressOf(figure)})";
        return $"![{PlainText.Of(drawing.Words)}]({AddressOf(figure)})\n*{PlainText.Of(figure.Caption)}*";
    }

    private string AddressOf(BookFigure figure) => $"{folder}{figure.Name}.svg";
}
