using System.Collections.Immutable;
using System.CommandLine;
using Rollwright.Arranging;
using Rollwright.Banjo.Tunings;
using Rollwright.Cli.Files;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;
using Rollwright.Web.State;
using Spectre.Console;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright arrange TUNE… -o FILE</c>: breaks from tunes.</summary>
internal static class ArrangeCommand
{
    private static readonly Argument<string[]> Tunes = new("tune")
    {
        Description = "Files in ABC notation; - is standard input.",
        Arity = ArgumentArity.OneOrMore,
    };
    private static readonly Option<string?> Output = new("--output", "-o")
    {
        Description =
            $"The file to write, for one tune; its ending says the form: {Forms.Known}. - is plain-text tab on standard output.",
    };
    private static readonly Option<string?> OutDir = new("--out-dir")
    {
        Description = "The folder to write to; files carry the name of the tune's file.",
    };
    private static readonly Option<string> To = new("--to")
    {
        Description = "Forms to write into the folder, such as tab,musicxml,mid,pdf.",
        DefaultValueFactory = _ => "tab,pdf,mid",
    };
    private static readonly Option<string?> SoundingKey = new("--key")
    {
        Description = "The key that shall sound, such as A or Em; the tune's own by default.",
    };
    private static readonly Option<string?> Tuning = new("--tuning")
    {
        Description =
            $"One of {string.Join(", ", TuningTable.All.Select(tuning => tuning.Id))}; the one that suits by default.",
    };
    private static readonly Option<int?> Capo = new("--capo")
    {
        Description = "Fret of the capo, 0 to 12; the one that suits by default.",
    };
    private static readonly Option<int> Level = new("--level")
    {
        Description = "1 (first year) to 5 (performer).",
        DefaultValueFactory = _ => 3,
    };

    public static Command Build()
    {
        var command = new Command("arrange", "Makes a break from each tune.")
        {
            Tunes,
            Output,
            OutDir,
            To,
            SoundingKey,
            Tuning,
            Capo,
            Level,
        };
        command.SetAction(Run);
        return command;
    }

    private static int Run(ParseResult parsed)
    {
        var options = OptionsOf(parsed);
        var paths = parsed.GetRequiredValue(Tunes);
        if (parsed.GetValue(OutDir) is { } folder)
        {
            if (parsed.GetValue(Output) is not null)
                throw new RequestException("-o and --out-dir exclude each other; give one of them");
            return ToFolder(paths, folder, Forms.OfList(parsed.GetRequiredValue(To)), options);
        }
        var target = parsed.GetValue(Output) ?? "-";
        var form = Forms.OfFile(target);
        if (paths.Length > 1)
            throw new RequestException("-o takes one tune; give --out-dir for several files");
        var tunes = Read(paths[0]);
        if (tunes.Length > 1)
            throw new RequestException(
                $"{paths[0]}: the file holds {tunes.Length} tunes; give --out-dir to have them all"
            );
        OutputFile.Write(target, form.Write(Arrange(paths[0], tunes[0], options)));
        return Exit.Done;
    }

    // Files are independent of each other: all cores work, and a bad file costs the others nothing.
    private static int ToFolder(string[] paths, string folder, ImmutableArray<BreakForm> forms, ArrangeOptions options)
    {
        var worst = Exit.Done;
        void Each(string path)
        {
            var code = OneFile(path, folder, forms, options);
            InterlockedMax(ref worst, code);
        }

        if (paths.Length > 1 && AnsiConsole.Profile.Capabilities.Interactive && !Console.IsErrorRedirected)
        {
            var console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Error) });
            console
                .Progress()
                .Start(context =>
                {
                    var task = context.AddTask("Arranging", maxValue: paths.Length);
                    Parallel.ForEach(
                        paths,
                        path =>
                        {
                            Each(path);
                            task.Increment(1);
                        }
                    );
                });
        }
        else
        {
            Parallel.ForEach(paths, Each);
        }
        return worst;
    }

    private static int OneFile(string path, string folder, ImmutableArray<BreakForm> forms, ArrangeOptions options)
    {
        try
        {
            var tunes = Read(path);
            var names = NamesOf(path, tunes);
            var isWrong = false;
            foreach (var (name, tune) in names.Zip(tunes))
            {
                try
                {
                    var made = Arrange(path, tune, options);
                    foreach (var form in forms)
                        OutputFile.Write(Path.Combine(folder, $"{name}.{form.Ending}"), form.Write(made));
                }
                catch (RequestException fault)
                {
                    Exit.Say(fault.Message);
                    isWrong = true;
                }
            }
            return isWrong ? Exit.Wrong : Exit.Done;
        }
        catch (Exception fault) when (Exit.IsExpected(fault))
        {
            Exit.Say(fault.Message);
            return Exit.Wrong;
        }
    }

    /// <summary>
    /// The names of the outputs of a file's tunes. Numbers and titles come twice in collections: the second of a name
    /// gets a number of its own, so that no break overwrites another.
    /// </summary>
    private static string[] NamesOf(string path, ImmutableArray<Tune> tunes)
    {
        var stem = InputFile.StemOf(path);
        if (tunes.Length == 1)
            return [stem];
        var taken = new HashSet<string>(StringComparer.Ordinal);
        return
        [
            .. tunes.Select(tune =>
            {
                var name = $"{stem}-{tune.Number}-{Slug(tune.Title)}";
                var free = name;
                for (var count = 2; !taken.Add(free); count++)
                    free = $"{name}-{count}";
                return free;
            }),
        ];
    }

    private static Banjo.Breaks.Break Arrange(string path, Tune tune, ArrangeOptions options)
    {
        Arrangement made;
        try
        {
            made = Arranger.Arrange(tune, options);
        }
        catch (ArrangeException fault)
        {
            throw new RequestException($"{InputFile.NameOf(path)}: {fault.Message}");
        }
        var setting = made.Break.Setting;
        var capo = setting.Capo == 0 ? "no capo" : $"capo {setting.Capo}, sounds in {setting.SoundingKey}";
        var chords = made.ChordsAdded ? "; it came without chords and was given some" : "";
        Exit.Say(
            $"{InputFile.NameOf(path)}: {tune.Title}: {setting.Position.Tonic} position, {setting.Tuning.Name}, {capo}{chords}"
        );
        return made.Break;
    }

    /// <summary>The tunes of a file; what was left out of one is said, but the tune can still be had.</summary>
    private static ImmutableArray<Tune> Read(string path)
    {
        var reading = AbcReader.Read(InputFile.Read(path), InputFile.NameOf(path));
        var errors = reading.Messages.Where(message => message.Severity == Severity.Error).ToArray();
        if (reading.Tunes.IsEmpty)
            throw new RequestException(
                errors.FirstOrDefault()?.ToString()
                    ?? $"{path}:1:1: this holds no tune; a tune begins with X: and K: lines"
            );
        foreach (var message in errors)
            Exit.Say(message.ToString());
        return reading.Tunes;
    }

    private static ArrangeOptions OptionsOf(ParseResult parsed)
    {
        Tuning? tuning = null;
        if (parsed.GetValue(Tuning) is { } id)
            tuning =
                TuningTable.Find(id)
                ?? throw new RequestException(
                    $"--tuning: no tuning is called '{id}'; known are {string.Join(", ", TuningTable.All.Select(known => known.Id))}"
                );
        if (parsed.GetValue(Capo) is < 0 or > 12)
            throw new RequestException($"--capo {parsed.GetValue(Capo)}: a capo is at fret 0 to 12");
        if (parsed.GetValue(Level) is not (>= 1 and <= 5))
            throw new RequestException($"--level {parsed.GetValue(Level)}: a level is 1 to 5");
        return new()
        {
            SoundingKey = parsed.GetValue(SoundingKey) is { } key ? KeyOf(key) : null,
            Tuning = tuning,
            Capo = parsed.GetValue(Capo),
            Level = parsed.GetValue(Level),
        };
    }

    private static Key KeyOf(string text)
    {
        var root = text.TrimEnd('m');
        var name = PitchName.Parse(root);
        return name is { } tonic && text.Length - root.Length <= 1
            ? new(tonic, text.EndsWith('m') ? Mode.Minor : Mode.Major)
            : throw new RequestException($"--key: '{text}' is not a key such as G, Bb, F#m");
    }

    private static string Slug(string title)
    {
        var letters = title.Normalize().ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-');
        var slug = string.Join('-', string.Concat(letters).Split('-', StringSplitOptions.RemoveEmptyEntries));
        return slug.Length == 0 ? "untitled" : slug[..Math.Min(60, slug.Length)];
    }

    private static void InterlockedMax(ref int target, int value)
    {
        int seen;
        while (
            value > (seen = Volatile.Read(ref target)) && Interlocked.CompareExchange(ref target, value, seen) != seen
        ) { }
    }
}
