using System.Collections.Immutable;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;

namespace Rollwright.Engraving.Flow;

/// <summary>Puts pieces on pages: what must stay together goes to the next page together.</summary>
internal sealed class FlowPages(FlowStyle style)
{
    private readonly List<List<Ink>> pages =
    [
        [],
    ];
    private double y;

    public ImmutableArray<LaidPage> Fill(IReadOnlyList<Piece> pieces)
    {
        for (var first = 0; first < pieces.Count; )
        {
            var after = first + 1;
            while (after < pieces.Count && pieces[after - 1].KeepsNext && !pieces[after].BeginsPage)
                after++;
            var height = 0.0;
            for (var i = first; i < after; i++)
                height += pieces[i].Height + (i == first ? 0 : pieces[i].Before);
            var before = y > 0 ? pieces[first].Before : 0;
            if (y > 0 && (pieces[first].BeginsPage || (y + before + height > style.TextHeight)))
                Turn();
            for (var i = first; i < after; i++)
                Put(pieces[i]);
            first = after;
        }
        if (y == 0 && pages.Count > 1)
            pages.RemoveAt(pages.Count - 1);
        return [.. pages.Select((inks, i) => PageOf(inks, i + 1))];
    }

    private void Put(Piece piece)
    {
        var before = y > 0 ? piece.Before : 0;
        // Together they were more than a page.
        if (y > 0 && y + before + piece.Height > style.TextHeight)
        {
            Turn();
            before = 0;
        }
        pages[^1].AddRange(piece.Inks.Select(ink => ink.Moved(0, y + before)));
        y += before + piece.Height;
    }

    private void Turn()
    {
        pages.Add([]);
        y = 0;
    }

    private LaidPage PageOf(List<Ink> inks, int number)
    {
        var isRight = number % 2 == 1;
        var left = isRight ? style.Inner : style.Outer;
        var right = left + style.TextWidth;
        List<Ink> all = [.. inks.Select(ink => ink.Moved(left, style.Top))];
        var size = style.Size * 0.82;
        if (number > 1 && style.RunningTitle.Length > 0)
        {
            var title = Fitted(style.RunningTitle, size);
            all.Add(
                new Words(
                    InkKind.PageNumber,
                    title,
                    isRight ? right : left,
                    style.Top - (size * 1.5),
                    size,
                    Face.Italic,
                    isRight ? Anchor.Right : Anchor.Left
                )
            );
        }
        if (style.IsNumbered)
            all.Add(
                new Words(
                    InkKind.PageNumber,
                    $"{number}",
                    isRight ? right : left,
                    style.Height - style.Bottom + (size * 2.4),
                    size,
                    Face.Roman,
                    isRight ? Anchor.Right : Anchor.Left
                )
            );
        return new(style.Width, style.Height, [.. all]);
    }

    private string Fitted(string title, double size)
    {
        if (Lettering.WidthOf(title, size, Face.Italic) <= style.TextWidth)
            return title;
        var length = title.Length - 1;
        while (length > 1 && Lettering.WidthOf(title[..length] + "…", size, Face.Italic) > style.TextWidth)
            length--;
        return title[..length].TrimEnd() + "…";
    }
}
