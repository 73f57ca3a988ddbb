using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Labels;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Signs;
using Rollwright.Engraving.Tab;
using Rollwright.Music.Forms;

namespace Rollwright.Engraving.Systems;

/// <summary>Draws systems: each staff on a sheet of its own, then both on one, then what stands above.</summary>
internal sealed class SystemDrawing(
    Break played,
    ImmutableArray<Span> spots,
    PhraseNumbers phrases,
    PageStyle style,
    Sizes sizes,
    SystemFront front
)
{
    private readonly ImmutableArray<SlurLink> slurs = SlurLinks.Of(played);
    private readonly FirstUses? firstUses = style is { ShowChords: true, ShowDiagrams: true } ? new(played) : null;
    private readonly TempoBands? tempoBands = style.ShowTempos
        ? new(TempoLimit.Of(played), played.Tempo.PerMinute)
        : null;

    /// <summary>One drawn system; y = 0 is the middle line of the notation, or the top line of a tab that stands alone.</summary>
    public readonly record struct Drawn(SetSystem System, Sheet Sheet, double Top, double Bottom);

    public ImmutableArray<Drawn> Draw(ImmutableArray<SetSystem> systems)
    {
        ImmutableArray<Sheet> notations = [.. systems.Select(DrawNotation)];
        ImmutableArray<Sheet> tabs = [.. systems.Select(DrawTab)];
        var drawn = ImmutableArray.CreateBuilder<Drawn>(systems.Length);
        var open = false;
        for (var i = 0; i < systems.Length; i++)
        {
            var sheet = notations[i];
            var down = style.ShowNotation
                ? Math.Max(
                    Staff.Bottom(sizes) + ((style.ShowTab ? 3.4 : 1) * sizes.Space),
                    sheet.Below(tabs[i], sizes.Clear)
                )
                : 0;
            sheet.Add(tabs[i], down);
            var top = style.ShowNotation ? Staff.Top(sizes) : 0;
            var bottom = style.ShowTab ? down + sizes.TabHeight : Staff.Bottom(sizes);
            Brackets.Draw(sheet, systems[i], top, bottom, style.ShowNotation && style.ShowTab, sizes);
            open = DrawLabels(sheet, systems[i], top, open);
            drawn.Add(new(systems[i], sheet, top, bottom));
        }
        return drawn.MoveToImmutable();
    }

    private Sheet DrawNotation(SetSystem system)
    {
        var sheet = new Sheet();
        if (!style.ShowNotation)
            return sheet;
        Staff.Draw(sheet, system, sizes);
        front.DrawNotation(sheet, system);
        foreach (var bar in system.Bars)
        {
            DrawNewTime(sheet, bar, 0);
            NoteHeads.Draw(sheet, bar, sizes);
            Rests.Draw(sheet, bar, sizes);
            Stems.Draw(sheet, bar, sizes);
            Beams.Draw(sheet, bar, sizes);
            Ties.Draw(sheet, bar, sizes);
        }
        BarLines.Draw(sheet, system, Staff.Top(sizes), Staff.Bottom(sizes), sizes);
        Slurs.Draw(sheet, system, slurs, sizes);
        foreach (var bar in system.Bars)
            Tuplets.Draw(sheet, bar, Staff.Top(sizes), sizes);
        return sheet;
    }

    private Sheet DrawTab(SetSystem system)
    {
        var sheet = new Sheet();
        if (!style.ShowTab)
        {
            if (style.ShowRightHand)
                RightFingers.Draw(sheet, system, 0, sizes);
            return sheet;
        }
        front.DrawTab(sheet, system);
        foreach (var bar in system.Bars)
        {
            if (!style.ShowNotation)
                DrawNewTime(sheet, bar, sizes.TabHeight / 2);
            TabNumbers.Draw(sheet, bar, style, sizes);
        }
        BarLines.Draw(sheet, system, 0, sizes.TabHeight, sizes);
        TabSlurs.Draw(sheet, system, slurs, style, sizes);
        sheet.Add(TabStaff.Lines(sheet, system, sizes));
        if (style.ShowLeftHand)
            LeftFingers.Draw(sheet, system, sizes);
        if (style.ShowNames)
            SpanNames.Draw(sheet, system, played, sizes);
        SpotBrackets.Draw(sheet, system, spots, sizes);
        var below =
            sheet
                .Inks.Where(ink => ink.Kind is InkKind.TabSlur or InkKind.SlurLetter)
                .Select(ink => ink.Box.Bottom)
                .Append(sizes.TabHeight + TabNumbers.HalfHeight(sizes))
                .Max() + (2.2 * sizes.Scale);
        if (!style.ShowNotation)
        {
            var top = below;
            foreach (var bar in system.Bars)
            {
                if (style.ShowRhythm)
                    below = Math.Max(below, RhythmStems.Draw(sheet, bar, top, sizes));
                Tuplets.Draw(sheet, bar, -TabNumbers.HalfHeight(sizes), sizes);
            }
        }
        if (style.ShowRightHand)
            RightFingers.Draw(sheet, system, below + (2.6 * sizes.Scale), sizes);
        tempoBands?.Draw(sheet, system, sheet.Inks.Max(ink => ink.Box.Bottom) + (3 * sizes.Scale), sizes);
        return sheet;
    }

    private void DrawNewTime(Sheet sheet, SetBar bar, double middle)
    {
        if (!bar.Bar.NewTime)
            return;
        var x = bar.Left + BarLines.StartWidth(bar.Written.Bar.Marks, sizes) + (0.7 * sizes.Space);
        TimeSignatures.Draw(sheet, bar.Written.Bar.Time, x, middle, sizes.Space);
    }

    private bool DrawLabels(Sheet sheet, SetSystem system, double top, bool open)
    {
        var lowest = top - (1.2 * sizes.Scale);
        if (style.ShowTune)
            TuneLine.Draw(sheet, system, played, lowest, style.ShowFates, sizes);
        BarNumbers.Draw(sheet, system, lowest, sizes);
        if (style.ShowChords)
            ChordNames.Draw(sheet, system, lowest, sizes);
        firstUses?.Draw(sheet, lowest, sizes);
        open = EndingBrackets.Draw(sheet, system, open, lowest, sizes);
        if (style.ShowPhrases)
            PhraseBrackets.Draw(sheet, system, phrases, lowest, sizes);
        PartLabels.Draw(sheet, system, lowest, sizes);
        // A strip runs with a take, which has a tempo of its own.
        if (!style.InOneLine && system.Bars[0].Written.Index == 0 && !(style.OfTune && played.Tune?.Tempo is null))
            TempoMark.Draw(sheet, system, played.Tempo, played.Swing, lowest, sizes);
        return open;
    }
}
