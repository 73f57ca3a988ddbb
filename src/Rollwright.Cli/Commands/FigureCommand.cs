using System.Collections.Immutable;
using System.CommandLine;
using Rollwright.Banjo.Rolls;
using Rollwright.Banjo.Tunings;
using Rollwright.Cli.Asking;
using Rollwright.Cli.Files;
using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Figures;
using Rollwright.Music.Chords;

namespace Rollwright.Cli.Commands;

/// <summary>
/// <c>rollwright figure bars|form|chords|rolls … -o FILE</c>: figures for an article, as wide as its column and cropped to
/// the ink.
/// </summary>
internal static class FigureCommand
{
    private static readonly Option<string> Output = new("--output", "-o")
    {
        Description = "The file to write; its ending says the form: pdf, png or svg.",
        Required = true,
    };
    private static readonly Option<string> Width = new("--width")
    {
        Description = "Width of the column: a number with mm, cm, in or pt.",
        DefaultValueFactory = _ => "90mm",
    };
    private static readonly Option<string> Caption = new("--caption")
    {
        Description = "Words under the figure.",
        DefaultValueFactory = _ => "",
    };
    private static readonly PageOptions Page = new();

    public static Command Build()
    {
        var command = new Command("figure", "Draws a figure for an article: bars, form, chords or rolls.")
        {
            Bars(),
            Form(),
            Chords(),
            Rolls(),
        };
        return command;
    }

    private static Command Bars()
    {
        var input = BreakArgument();
        var bars = new Option<string>("--bars")
        {
            Description = "Which bars, as they are counted on the page: 5 or 5-8; 0 is the pickup.",
            Required = true,
        };
        var command = new Command("bars", "Some bars of a break.") { input, bars };
        Page.AddTo(command);
        return Drawn(
            command,
            (parsed, style) =>
            {
                var played = BreakInput.Read(parsed.GetRequiredValue(input));
                var (first, last) = BarSpan.Read(parsed.GetRequiredValue(bars), played.Numbering, played.Bars.Length);
                return BarsFigure.Lay(played, first, last, Page.Read(parsed).Change(PageStyle.A4), style);
            },
            parsed => Page.Read(parsed).Dpi
        );
    }

    private static Command Form()
    {
        var input = BreakArgument();
        return Drawn(
            new("form", "A map of the form: parts, phrases, chords.") { input },
            (parsed, style) => FormMap.Lay(BreakInput.Read(parsed.GetRequiredValue(input)), style)
        );
    }

    private static Command Chords()
    {
        var names = new Argument<string[]>("chord")
        {
            Description = "Chords such as G, C, D7 or Em, as the hands know them.",
            Arity = ArgumentArity.OneOrMore,
        };
        var tuning = new Option<string>("--tuning")
        {
            Description = $"One of {string.Join(", ", TuningTable.All.Select(known => known.Id))}.",
            DefaultValueFactory = _ => "open-g",
        };
        return Drawn(
            new("chords", "Diagrams of chords.") { names, tuning },
            (parsed, style) =>
            {
                var id = parsed.GetRequiredValue(tuning);
                var known =
                    TuningTable.Find(id)
                    ?? throw new RequestException(
                        $"--tuning: no tuning is called '{id}'; known are {string.Join(", ", TuningTable.All.Select(item => item.Id))}"
                    );
                var chords = parsed
                    .GetRequiredValue(names)
                    .Select(name =>
                        Chord.Parse(name)
                        ?? throw new RequestException($"'{name}' is not a chord; write it as G, C, D7 or Em")
                    )
                    .ToList();
                return ChordFigure.Lay(known, chords, style);
            }
        );
    }

    private static Command Rolls()
    {
        var names = new Argument<string[]>("roll")
        {
            Description = $"Of {string.Join(", ", RollTable.All.Select(roll => roll.Name))}; all by default.",
            Arity = ArgumentArity.ZeroOrMore,
        };
        return Drawn(
            new("rolls", "A table of rolls.") { names },
            (parsed, style) =>
            {
                var asked = parsed.GetValue(names) ?? [];
                ImmutableArray<Roll> rolls =
                [
                    .. asked.Select(name =>
                        RollTable.All.FirstOrDefault(roll => roll.Name == name)
                        ?? throw new RequestException(
                            $"no roll is called '{name}'; known are {string.Join(", ", RollTable.All.Select(roll => roll.Name))}"
                        )
                    ),
                ];
                return RollFigure.Lay(rolls.IsEmpty ? RollTable.All : rolls, style);
            }
        );
    }

    private static Argument<string> BreakArgument() =>
        new("break") { Description = "A break in JSON or MusicXML; - is standard input." };

    private static Command Drawn(
        Command command,
        Func<ParseResult, FigureStyle, Layout> draw,
        Func<ParseResult, double?>? dpi = null
    )
    {
        foreach (var option in new Option[] { Output, Width, Caption })
            command.Options.Add(option);
        command.SetAction(parsed =>
        {
            var path = parsed.GetRequiredValue(Output);
            var ending = Path.GetExtension(path).TrimStart('.').ToLowerInvariant();
            if (!PageOutput.IsDrawn(ending))
                throw new RequestException($"{path}: a figure is drawn as pdf, png or svg, not as '{ending}'");
            var style = new FigureStyle(Length.Points(parsed.GetRequiredValue(Width)), parsed.GetValue(Caption) ?? "");
            try
            {
                PageOutput.WriteLayout(path, ending, draw(parsed, style), dpi?.Invoke(parsed));
            }
            catch (ArgumentException fault)
            {
                // Without the name of the parameter, which is ours.
                throw new RequestException(fault.Message.Split(" (Parameter", StringSplitOptions.None)[0]);
            }
            return Exit.Done;
        });
        return command;
    }
}
