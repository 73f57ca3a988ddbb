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
    public static (Made? Made, ImmutableArray<Problem> Problems) Make(Tune tune, Wishes wishes)
    {
        try
        {
            var arrangement = Arranger.Arrange(tune, OptionsOf(tune, wishes));
            var id = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{Fingerprint(tune)} {wishes}")));
            ImmutableArray<Problem> notes = arrangement.ChordsAdded
                ?
                [
                    new(
                        null,
                        null,
                        "The tune came without chords; likely ones were added",
                        "write your own in the text as \"G\"",
                        false
                    ),
                ]
                : [];
            return (new(id[..16], arrangement.Break), notes);
        }
        catch (ArrangeException no)
        {
            return (null, [new(null, null, no.Message.TrimEnd('.'), "", true)]);
        }
    }

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

    public static string Draw(Break played)
    {
        var strokes = played
            .Bars.SelectMany(
                (bar, b) =>
                    bar.Strokes.Select(
                        (stroke, i) =>
                            (Name: $"s-{b}-{i}", stroke, X: ((b % 4) * 200) + stroke.At.ToDouble() * 200, Y: b / 4 * 90)
                    )
            )
            .Select(s =>
                $"<g id='{s.Name}'><text font-size='12' x='{s.X + 10}' y='{s.Y + s.stroke.String * 12 + 10}'>{s.stroke.Fret}</text></g>"
            );
        return $"<svg viewBox='0 0 810 800' xmlns='http://www.w3.org/2000/svg'>{string.Concat(strokes)}</svg>";
    }
}
