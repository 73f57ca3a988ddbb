using System.Collections.Immutable;
using System.CommandLine;
using Rollwright.Arranging;
using Rollwright.Arranging.Backup;
using Rollwright.Arranging.Locks;
using Rollwright.Cli.Asking;
using Rollwright.Cli.Commands.Licks;
using Rollwright.Cli.Files;
using Rollwright.Music.Tunes;
using Rollwright.Web.State;
using Version = Rollwright.Arranging.Variations.Version;

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
    private static readonly Option<string[]> Lock = new("--lock")
    {
        Description =
            "What must stay: a place and what is asked there, such as '3/2 note 3.2T', '5-8 no-slur', '1-4 frets 5', '7 shape 2-0-1-2', '8 lick NAME', '2/1 rest'. May be given several times.",
        AllowMultipleArgumentsPerToken = false,
    };
    private static readonly Option<string?> OfVersion = new("--variant")
    {
        Description =
            $"Another version instead of the break: {string.Join(", ", Version.All.Select(version => version.Name))}.",
    };
    private static readonly Option<int> Nth = new("--nth")
    {
        Description = "Which version, 1 or more: each differs from all before it.",
        DefaultValueFactory = _ => 1,
    };
    private static readonly Option<double?> SecondTime = new("--vary-repeats")
    {
        Description =
            "Writes repeats out; the second time through a part differs in this share of its steps, such as 0.3.",
    };
    private static readonly Option<string?> Backup = new("--backup")
    {
        Description = "A part to play behind someone else instead of the break: rolls or vamp.",
    };
    private static readonly Option<bool> Why = new("--why")
    {
        Description = "Says for every step why it is as it is, on standard output; the break goes to -o alone.",
    };
    private static readonly Option<bool> Json = new("--json")
    {
        Description = "The same, with the terms and the spots, as JSON.",
    };
    private static readonly SettingOptions Setting = new();
    private static readonly PageOptions Page = new();

    public static Command Build()
    {
        var command = new Command("arrange", "Makes a break from each tune.")
        {
            Tunes,
            Output,
            OutDir,
            To,
            Lock,
            OfVersion,
            Nth,
            SecondTime,
            Backup,
            Why,
            Json,
            BankFile.Option,
        };
        Setting.AddTo(command);
        Page.AddTo(command);
        command.SetAction(Run);
        return command;
    }

    private static int Run(ParseResult parsed)
    {
        var recipe = RecipeOf(parsed);
        var paths = parsed.GetRequiredValue(Tunes);
        if (parsed.GetValue(OutDir) is { } folder)
        {
            if (parsed.GetValue(Output) is not null)
                throw new RequestException("-o and --out-dir exclude each other; give one of them");
            return ArrangeBatch.Run(paths, folder, Forms.OfList(parsed.GetRequiredValue(To)), recipe);
        }
        if (paths.Length > 1)
            throw new RequestException("-o takes one tune; give --out-dir for several files");
        var tune = TuneInput.ReadOne(paths[0], "give --out-dir to have them all");
        var (why, json) = (parsed.GetValue(Why), parsed.GetValue(Json));
        var target = parsed.GetValue(Output) ?? (why || json ? null : "-");
        var form = target is null ? null : Forms.OfFile(target);
        var made = recipe.Make(paths[0], tune);
        if (target is not null)
            recipe.Write(target, form!, made);
        if (json)
            Console.WriteLine(ReasonJson.Of(made));
        else if (why)
            ReasonText.Write(made, Console.Out);
        return Exit.Done;
    }

    /// <summary>What is to be made of each tune.</summary>
    internal sealed record Recipe(
        ArrangeOptions Options,
        ImmutableArray<string> Locks,
        Version? Version,
        int Nth,
        BackupKind? Backup,
        PageChoice Page
    )
    {
        /// <summary>Writes what was made in a form, with its spots where they are asked for.</summary>
        public void Write(string path, FileForm form, Arrangement made)
        {
            var spots = Page.Spots && PageOutput.IsDrawn(form.Ending) ? SpotSpans.Of(made) : [];
            PageOutput.Write(path, form, made.Break, Page, spots);
        }

        /// <summary>The break, version or part, with a line about it on standard error.</summary>
        /// <exception cref="RequestException">It cannot be made; the message says why.</exception>
        public Arrangement Make(string path, Tune tune)
        {
            var made = RequestException.Naming(path, () => Make(tune));
            var chords = made.ChordsAdded ? "; it came without chords and was given some" : "";
            Exit.Say(
                $"{InputFile.NameOf(path)}: {tune.Title}: {SettingWords.OfTune(made.Break.Setting)}; {made.Style.Name} style, {100 * made.Kept:0} % of the tune kept{chords}"
            );
            return made;
        }

        private Arrangement Make(Tune tune)
        {
            var made = Arranger.Arrange(tune, Options);
            foreach (var text in Locks)
                made = made.With(LockReader.Read(text, made));
            if (Version is { } version)
                made = made.Versions(version, Nth)[^1].Made;
            return Backup is { } kind ? made.BackupPart(kind, Options.Level) : made;
        }
    }

    private static Recipe RecipeOf(ParseResult parsed)
    {
        Version? version = null;
        if (parsed.GetValue(OfVersion) is { } name)
            version =
                Version.Find(name)
                ?? throw new RequestException(
                    $"--variant: no version is called '{name}'; known are {string.Join(", ", Version.All.Select(known => known.Name))}"
                );
        if (parsed.GetValue(Nth) is not (>= 1 and <= 20))
            throw new RequestException($"--nth {parsed.GetValue(Nth)}: versions are counted from 1 to 20");
        if (parsed.GetValue(SecondTime) is < 0 or > 1)
            throw new RequestException($"--vary-repeats {parsed.GetValue(SecondTime)}: a share is 0 to 1");
        BackupKind? backup = parsed.GetValue(Backup) switch
        {
            null => null,
            "rolls" => BackupKind.Rolls,
            "vamp" => BackupKind.Vamp,
            var other => throw new RequestException($"--backup: '{other}' is neither rolls nor vamp"),
        };
        return new(
            Setting.Read(parsed) with
            {
                SecondTime = parsed.GetValue(SecondTime),
                Licks = FitLicks.IndexOf(BankFile.Open(parsed)),
            },
            [.. parsed.GetValue(Lock) ?? []],
            version,
            parsed.GetValue(Nth),
            backup,
            Page.Read(parsed)
        );
    }
}
