using System.Collections.Immutable;
using System.CommandLine;
using System.Text;
using System.Text.Json;
using Rollwright.Arranging;
using Rollwright.Cli.Asking;
using Rollwright.Cli.Files;
using Rollwright.Lessons;
using Rollwright.Lessons.Outputs;
using Rollwright.Lessons.Page;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Strips;
using Rollwright.Lessons.Words;
using Rollwright.Lessons.Words.Edits;
using Rollwright.Sound;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright lesson TUNE|BREAK</c>: a lesson in Markdown, phrase by phrase in words and tab, and its documents.</summary>
internal static class LessonCommand
{
    private static readonly SettingOptions Setting = new();
    private static readonly LessonOptions Documents = new();
    private static readonly Argument<string> Source = new("source")
    {
        Description = "A tune in ABC notation, or a break in JSON, MusicXML or plain-text tab; - is standard input.",
    };
    private static readonly Option<string> Output = new("--output", "-o")
    {
        Description = "Where the lesson goes: Markdown, or with .html a page that plays; - is standard output.",
        DefaultValueFactory = _ => "-",
    };
    private static readonly Option<bool> Short = new("--short")
    {
        Description = "Short words, for readers who have the tab before them.",
    };
    private static readonly Option<string?> Words = new("--words")
    {
        Description = "Your own words for phrases, a file in JSON (docs/lessons.md).",
    };
    private static readonly Option<bool> Json = new("--json") { Description = "Answer in JSON." };

    public static Command Build()
    {
        var command = new Command("lesson", "Teaches a break: setting, form, phrases in words, drills, variations.")
        {
            Source,
            Output,
            Short,
            Words,
            Json,
        };
        Setting.AddTo(command);
        Documents.AddTo(command);
        command.SetAction(parsed =>
        {
            var folder = Documents.FolderOf(parsed);
            var chosen = Documents.OutputsOf(parsed);
            var output = parsed.GetRequiredValue(Output);
            var isPage = output.EndsWith(".html", StringComparison.OrdinalIgnoreCase);
            Documents.Check(parsed, hasText: folder is not null || !(isPage || parsed.GetValue(Json)), isPage);
            var form = parsed.GetValue(Short) ? WordForm.Short : WordForm.Long;
            var edits = EditsOf(parsed.GetValue(Words));
            if (folder is null && parsed.GetValue(Json))
            {
                Write(output, JsonSerializer.Serialize(LessonAnswer.Of(PlanOf(parsed).Plan, edits)) + "\n");
                return Exit.Done;
            }
            var page =
                folder is not null ? Path.Combine(folder, "page")
                : isPage ? Path.GetDirectoryName(Path.GetFullPath(output))
                : null;
            var lesson = Documents.Read(parsed, () => PlanOf(parsed), edits, form, page);
            var done = Exit.Done;
            if (folder is not null)
                done = WriteDocuments(folder, chosen, lesson, parsed);
            else
                Write(output, isPage ? LessonPage.Write(lesson) : LessonMarkdown.Write(lesson));
            if (folder is not null || isPage)
                Warn(lesson.Plan);
            return done;
        });
        return command;
    }

    private static int WriteDocuments(
        string folder,
        ImmutableArray<LessonOutput> outputs,
        Lesson lesson,
        ParseResult parsed
    )
    {
        var made = new List<LessonFolder.Made>[outputs.Length];
        var faults = new string?[outputs.Length];
        Parallel.For(
            0,
            outputs.Length,
            i =>
            {
                try
                {
                    made[i] = [.. outputs[i].Make(lesson).Select(file => new LessonFolder.Made(outputs[i].Name, file))];
                }
                catch (Exception fault) when (fault is LessonException or SoundException)
                {
                    (made[i], faults[i]) = ([], $"{outputs[i].Name}: {fault.Message}");
                }
            }
        );
        var strip = Array.FindIndex([.. outputs], output => output.Name == "strip");
        if (strip >= 0 && made[strip].Count > 0)
            made[strip].AddRange(VideosOf(made[strip], lesson));
        // What cannot be made does not cost the others.
        foreach (var fault in faults.OfType<string>())
            Exit.Say(fault);
        var left = LessonFolder.Write(folder, [.. made.SelectMany(of => of)], Documents.IsForced(parsed));
        if (left.Count > 0)
            Exit.Say(
                $"{string.Join(", ", left)}: changed by hand or not made by this program, so left as it is; --force overwrites"
            );
        return left.Count == 0 && !Array.Exists(faults, fault => fault is not null) ? Exit.Done : Exit.Wrong;
    }

    // ffmpeg is a program of its own, so this is done here and not where the pictures are made.
    private static IEnumerable<LessonFolder.Made> VideosOf(IReadOnlyList<LessonFolder.Made> pictures, Lesson lesson)
    {
        var strip = TabStrip.Of(lesson.Plan.Played, lesson.Times, lesson.Strip.IsLow);
        if (strip.IsByBar)
            Exit.Say(
                $"strip: the break has more than {TabStrip.MostPictures} notes as played, which is the most pictures that are made; so there is one a bar"
            );
        var (videos, missing) = StripVideos.Of([.. pictures.Select(one => one.File)], strip.Steps, lesson.Strip);
        if (missing is not null)
            Exit.Say($"strip: {missing}");
        return videos.Select(file => new LessonFolder.Made("strip", file));
    }

    // To whoever teaches, and not in what readers get.
    private static void Warn(LessonPlan plan)
    {
        if (plan.Tune.Rights.Warning is { Length: > 0 } warning)
            Exit.Say($"before publishing: {warning}");
    }

    private static void Write(string output, string text) => OutputFile.Write(output, Encoding.UTF8.GetBytes(text));

    private static (LessonPlan Plan, Arrangement? Made) PlanOf(ParseResult parsed)
    {
        var path = parsed.GetRequiredValue(Source);
        var bytes = InputFile.Read(path);
        var options = Setting.Read(parsed);
        return RequestException.Naming<(LessonPlan, Arrangement?)>(
            path,
            () =>
            {
                if (!IsAbc(bytes))
                    return (LessonPlan.Of(BreakInput.Of(bytes, path)), null);
                var tune = TuneInput.OneOf(bytes, path, "give a file with one tune");
                var made = Arranger.Arrange(tune, options);
                return (LessonPlan.Of(made, options.Level, Arranger.Advise(tune, options)), made);
            }
        );
    }

    // Tunes have a line that begins with X: or K:; no form of break has.
    private static bool IsAbc(byte[] bytes) =>
        Encoding
            .Latin1.GetString(bytes)
            .Split('\n', '\r')
            .Any(line =>
                line.StartsWith("X:", StringComparison.Ordinal) || line.StartsWith("K:", StringComparison.Ordinal)
            );

    private static LessonText EditsOf(string? path)
    {
        return path is null
            ? LessonText.Empty
            : RequestException.Naming(path, () => LessonTextJson.Read(Encoding.UTF8.GetString(InputFile.Read(path))));
    }
}
