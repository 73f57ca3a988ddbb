using System.Globalization;
using Rollwright.Banjo.Breaks;
using Rollwright.Listening.Takes;

namespace Rollwright.Web.Words;

/// <summary>What was heard in a take, in a line or two.</summary>
public static class HeardWords
{
    // Less is within what tuners leave (assumption).
    private const double WorthSaying = 5;

    public static string Setting(Heard heard, Break written)
    {
        ArgumentNullException.ThrowIfNull(heard);
        var offset =
            Math.Abs(heard.Cents) < WorthSaying
                ? ""
                : string.Create(
                    CultureInfo.InvariantCulture,
                    $"; {Math.Abs(heard.Cents):0} cents {(heard.Cents > 0 ? "above" : "below")} concert pitch"
                );
        var setting = written.Setting;
        var capo = setting.Capo == 0 ? "no capo" : $"capo {setting.Capo}";
        return $"sounds in {setting.SoundingKey}: {setting.Tuning.Name} tuning ({setting.Tuning.Spelling}), {capo}, played out of {setting.Position.Tonic}{offset}";
    }

    public static string Summary(Heard heard, Break written)
    {
        ArgumentNullException.ThrowIfNull(heard);
        ArgumentNullException.ThrowIfNull(written);
        var lost = heard.Notes.Count(note => note.String is null);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{heard.Notes.Length} notes in {written.Bars.Length} bars of {written.Time}, {written.Tempo.UnitName} = {written.Tempo.PerMinute:0}{(heard.Swing > 0 ? ", swung" : "")}{(lost > 0 ? $"; {lost} more that hands cannot play beside the others are left out" : "")}"
        );
    }

    /// <summary>The licks of the bank that were played, and where; null where there is none.</summary>
    public static string? Licks(Break written)
    {
        ArgumentNullException.ThrowIfNull(written);
        var licks = written
            .Spans.Where(span => span.Kind is SpanKind.Lick or SpanKind.Tag)
            .Select(span => $"{span.Name} ({written.Numbering.Place(span.Bar, span.At)})")
            .ToList();
        return licks.Count == 0 ? null : $"licks: {string.Join("; ", licks)}";
    }
}
