using Rollwright.Banjo.Breaks;
using Rollwright.Listening.Beside.Answers;
using Rollwright.Listening.Beside.Words;

namespace Rollwright.Cli.Commands;

/// <summary>A take beside a break as JSON. Times are seconds from the beginning of the recording, lateness milliseconds.</summary>
internal static class ComparisonJson
{
    public static object Of(string take, string path, Break meant, Comparison found, TakeWords words)
    {
        var numbering = meant.Numbering;
        string NameOf(int bar) => numbering[found.Meant.Bars[bar].Written].Name;
        return new
        {
            file = take,
            against = path,
            follows = found.Follows,
            found = Math.Round(found.Found, 4),
            higher = found.Higher,
            words = words.Whole,
            workOn = found.WorkOn.Select(bar => numbering[bar].Name),
            stretches = found.Stretches.Select(stretch => new
            {
                from = Seconds(stretch.From),
                to = Seconds(stretch.To),
                firstBar = NameOf(stretch.FirstBar),
                lastBar = NameOf(stretch.LastBar),
            }),
            phrases = found.Phrases.Select(
                (phrase, i) =>
                    new
                    {
                        number = phrase.Phrase.Number,
                        time = phrase.Phrase.Pass,
                        bars = phrase.Phrase.Bars.Select(NameOf),
                        counts = Of(phrase.Counts),
                        faster = Math.Round(phrase.Speeding, 3) + 0.0,
                        words = found.Follows ? words.Phrases[i] : null,
                    }
            ),
            bars = found.Bars.Select(bar => new
            {
                bar = NameOf(bar.Bar),
                written = found.Meant.Bars[bar.Bar].Written,
                from = Seconds(bar.From),
                perMinute = bar.WholeNote is { } whole
                    ? Math.Round(60 / (meant.Tempo.Unit.ToDouble() * whole), 1)
                    : (double?)null,
                counts = Of(bar.Counts),
            }),
            notes = found.Notes.Select(note => new
            {
                id = note.Note.Id,
                stroke = note.Note.Name?.ToString(),
                bar = NameOf(note.Note.Bar),
                pitch = note.Note.Pitch,
                label = note.Label switch
                {
                    Listening.Beside.NoteLabel.LeftOut => "left out",
                    var label => $"{label}".ToLowerInvariant(),
                },
                onset = Seconds(note.Onset),
                late = note.Late is { } late ? Math.Round(late * 1000, 1) : (double?)null,
                instead = note.Instead,
            }),
            added = found.Added.Select(note => new
            {
                onset = Seconds(note.Onset),
                pitch = note.Pitch,
                bar = note.Bar is { } bar ? NameOf(bar) : null,
            }),
            barStarts = found.BarStarts.Select(start => Seconds(start)),
        };
    }

    private static object Of(Counts counts) =>
        new
        {
            notes = counts.Meant,
            right = counts.Right,
            wrong = counts.Wrong,
            missing = counts.Missing,
            early = counts.Early,
            late = counts.Late,
            added = counts.Added,
            leftOut = counts.LeftOut,
            uneven = Math.Round(counts.Unevenness * 1000, 1),
        };

    private static double? Seconds(double? time) => time is { } seconds ? Math.Round(seconds, 4) : null;
}
