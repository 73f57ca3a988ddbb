using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Tunings;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Web.State;

/// <summary>The one place where the page meets the rooms that read, arrange and draw.</summary>
internal static class BreakMaker
{
    /// <summary>The tunes of a text, and what it has to answer for.</summary>
    public static (ImmutableArray<Tune> Tunes, ImmutableArray<Problem> Problems) Read(AbcReading reading) =>
        (
            reading.Tunes,
            [
                .. reading
                    .Messages.OrderBy(message => message.Severity != Severity.Error)
                    .Select(message => new Problem(
                        message.Line,
                        message.Column,
                        message.What,
                        message.Remedy,
                        message.Severity == Severity.Error
                    )),
            ]
        );

    /// <summary>The break of a tune as wished; none where the wishes or the tune stand in the way.</summary>
    /// <param name="tune">The tune.</param>
    /// <param name="wishes">What is asked for.</param>
    /// <param name="shelf">Where breaks are kept: what was made before is taken from there.</param>
    public static (Made? Made, ImmutableArray<Problem> Problems) Make(Tune tune, Wishes wishes, Shelf shelf)
    {
        var id = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{Fingerprint(tune)} {wishes}")))[
            ..16
        ];
        if (!shelf.TryFind(id, out var made))
        {
            try
            {
                made = new(id, Arranger.Arrange(tune, OptionsOf(tune, wishes)).Break);
            }
            catch (ArrangeException no)
            {
                return (null, [new(null, null, no.Message.TrimEnd('.'), "", true)]);
            }
            catch (Exception fault)
            {
                // The page must outlive a fault of ours: the person keeps the text and what else lies on the bench.
                return (null, [Fault(fault)]);
            }
            shelf.Put(made);
        }
        return (made, tune.HasChords ? [] : [ChordsAdded]);
    }

    private static readonly Problem ChordsAdded = new(
        null,
        null,
        "The tune came without chords; likely ones were added",
        "write your own in the text, in quotation marks before the note",
        false
    );

    private static Problem Fault(Exception fault) =>
        new(
            null,
            null,
            $"The program failed at this tune ({fault.GetType().Name}); the fault is ours, not yours",
            "try another setting or tune, and report it with the tune",
            true
        );

    private static ArrangeOptions OptionsOf(Tune tune, Wishes wishes) =>
        new()
        {
            SoundingKey = wishes.Key is { } key ? new Key(PitchName.Parse(key)!.Value, tune.Key.Mode) : null,
            Tuning = wishes.Tuning is { } tuning ? TuningTable.Find(tuning) : null,
            Capo = wishes.Capo,
            Level = wishes.Level,
        };

    // The same tune gives the same name, whichever page or session made it.
    private static string Fingerprint(Tune tune)
    {
        var text = new StringBuilder($"{tune.Title} {tune.Composer} {tune.Key} {tune.Time} {tune.Tempo}");
        foreach (var bar in tune.Bars)
        {
            text.Append('|')
                .Append(bar.Length)
                .Append(bar.Key)
                .Append(bar.Marks.RepeatStart)
                .Append(bar.Marks.RepeatEnd);
            text.AppendJoin(',', bar.Marks.EndingStart)
                .Append(bar.Marks.EndingStop)
                .Append(bar.Marks.Part)
                .Append(bar.Marks.SectionEnd);
            text.AppendJoin(' ', bar.Notes).AppendJoin(' ', bar.Chords);
        }
        return text.ToString();
    }
}
