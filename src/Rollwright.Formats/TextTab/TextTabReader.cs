using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Messages;
using Rollwright.Formats.TextTab.Reading;

namespace Rollwright.Formats.TextTab;

/// <summary>
/// Reads the plain-text tab that players post: five strings under one another, named or not; bars, repeats, endings; numbers
/// with h p s / \ b ch between them; chords above, fingers and a count below. Rhythm is that of the count, else of the
/// spacing. What the page does not say is assumed, and the assumption is said.
/// </summary>
public static class TextTabReader
{
    /// <summary>Of a page; a long tune is some ten thousand.</summary>
    public const int MostCharacters = 200_000;

    public static BreakReading Read(string text, string fileName)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length > MostCharacters)
            return BreakReading.Refused(
                fileName,
                1,
                1,
                $"the page has more than {MostCharacters} characters",
                "give a single tune"
            );
        var log = new MessageLog(fileName);
        var page = TabPage.Of(text.TrimStart('\uFEFF'), log);
        if (page.Systems.Count == 0 && log.Messages.IsEmpty)
            log.Error(1, 1, "the page has no five strings of tab", "write a line a string, such as D|--0--2--|");
        return new(page.Systems.Count == 0 ? null : new TabAssembly(page, log).Read(), log.Messages);
    }
}
