using System.Collections.Immutable;
using System.CommandLine;
using System.Text;
using Rollwright.Arranging;
using Rollwright.Cli.Files;
using Rollwright.Engraving;
using Rollwright.Lessons;
using Rollwright.Lessons.Captions;
using Rollwright.Lessons.Documents;
using Rollwright.Lessons.Outputs;
using Rollwright.Lessons.Page;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Strips;
using Rollwright.Lessons.Templates;
using Rollwright.Lessons.Words;
using Rollwright.Lessons.Words.Edits;
using Rollwright.Music.Chords;

namespace Rollwright.Cli.Asking;

/// <summary>What can be asked of a lesson's documents: which, on what paper, at what tempo.</summary>
internal sealed class LessonOptions
{
    private static readonly string[] Sounds = [".wav", ".mp3", ".ogg", ".oga", ".opus", ".flac", ".m4a", ".aac"];

    private readonly Option<string?> folder = new("--out-dir")
    {
        Description = "A folder for the lesson's documents; files of yours in it are left alone.",
    };
    private readonly Option<string?> only = new("--only")
    {
        Description =
            $"Of the documents these alone, such as handout,captions; all but strip where it is not given; known are {string.Join(", ", LessonOutput.All.Select(output => $"{output.Name} ({output.About})"))}.",
    };
    private readonly Option<bool> force = new("--force")
    {
        Description = "Overwrite files in the folder that you changed or that others made.",
    };
    private readonly Option<string> paper = new("--paper")
    {
        Description = "Paper of handout and jam sheet: a4 or letter.",
        DefaultValueFactory = _ => "a4",
    };
    private readonly Option<string?> introduction = new("--introduction")
    {
        Description = "Your own words before the lesson, in Markdown: text, pictures, links, credit, licence.",
    };
    private readonly Option<string?> template = new("--template")
    {
        Description = "Markdown with places such as {{phrases}}, for the article, or without --out-dir for the lesson.",
    };
    private readonly Option<double> column = new("--column-width")
    {
        Description = "Width of an article's column in millimetres, 60 to 250.",
        DefaultValueFactory = _ => 85,
    };
    private readonly Option<string> numbers = new("--chord-numbers")
    {
        Description = "Numbers of chords on the jam sheet: arabic (1, 4, 5) or roman (I, IV, V).",
        DefaultValueFactory = _ => "arabic",
    };
    private readonly Option<double?> tempo = new("--tempo")
    {
        Description = "Tempo of captions and chapters, a minute in the tune's own unit; the break's own by default.",
    };

    private readonly Option<int> stripWidth = new("--strip-width")
    {
        Description = "Width of the strip's pictures and videos in pixels, 320 to 3840.",
        DefaultValueFactory = _ => new StripLook().Width,
    };
    private readonly Option<double> plate = new("--strip-plate")
    {
        Description = "How dense the light plate behind the strip is, 0.4 to 1.",
        DefaultValueFactory = _ => new StripLook().Plate,
    };
    private readonly Option<string> stripForm = new("--strip-form")
    {
        Description =
            "Form of the strip: full, or low (lines, numbers and slurs alone, without chords, rhythm and fingers, to leave more of the picture).",
        DefaultValueFactory = _ => "full",
    };
    private readonly Option<string?> video = new("--video")
    {
        Description = "A recorded take, video or sound, to stand on the page; the page finds it where it lies now.",
    };
    private readonly Option<string?> barTimes = new("--bar-times")
    {
        Description = "Where the bars of the take begin, a file in JSON, as the page saves it (docs/lessons.md).",
    };

    public void AddTo(Command command)
    {
        foreach (
            var option in new Option[]
            {
                folder,
                only,
                force,
                introduction,
                template,
                paper,
                column,
                numbers,
                tempo,
                stripWidth,
                plate,
                stripForm,
                video,
                barTimes,
            }
        )
            command.Options.Add(option);
    }

    /// <summary>Where documents go; null where none were asked for.</summary>
    /// <exception cref="RequestException">Documents are chosen without a folder for them.</exception>
    public string? FolderOf(ParseResult parsed)
    {
        var asked = parsed.GetValue(folder);
        if (asked is null && parsed.GetValue(only) is not null)
            throw new RequestException("--only: the documents need a folder; give --out-dir");
        return asked;
    }

    public bool IsForced(ParseResult parsed) => parsed.GetValue(force);

    /// <exception cref="RequestException">No document has that name.</exception>
    public ImmutableArray<LessonOutput> OutputsOf(ParseResult parsed)
    {
        if (parsed.GetValue(only) is not { } list)
            return LessonOutput.Usual;
        ImmutableArray<LessonOutput> chosen =
        [
            .. list.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
                .Select(name =>
                    LessonOutput.Find(name)
                    ?? throw new RequestException(
                        $"--only: no document is called '{name}'; known are {string.Join(", ", LessonOutput.All.Select(output => output.Name))}"
                    )
                )
                .Distinct(),
        ];
        return chosen.IsEmpty ? throw new RequestException("--only names no document") : chosen;
    }

    /// <param name="parsed">What was asked.</param>
    /// <param name="planned">
    /// Makes what the lesson teaches, and says how the break came about (null where it was read as it is): seconds of work, asked for
    /// only when all that does not hang on it is known to be right.
    /// </param>
    /// <param name="edits">A person's words.</param>
    /// <param name="form">How much is said.</param>
    /// <param name="page">The folder that the page goes to; null for none.</param>
    /// <exception cref="RequestException">A value is none of those there are.</exception>
    public Lesson Read(
        ParseResult parsed,
        Func<(LessonPlan Plan, Arrangement? Made)> planned,
        LessonText edits,
        WordForm form,
        string? page
    )
    {
        var name = parsed.GetRequiredValue(paper);
        if (name is not ("a4" or "letter"))
            throw new RequestException($"--paper: no paper is called '{name}'; known are a4, letter");
        if (parsed.GetValue(column) is not (>= 60 and <= 250 and var width))
            throw new RequestException(
                $"--column-width {parsed.GetValue(column)}: a column is 60 to 250 millimetres wide"
            );
        var style = parsed.GetRequiredValue(numbers) switch
        {
            "arabic" => NumberStyle.Arabic,
            "roman" => NumberStyle.Roman,
            var other => throw new RequestException($"--chord-numbers: '{other}' is neither arabic nor roman"),
        };
        var strip = StripOf(parsed);
        var before = parsed.GetValue(introduction) is { } own
            ? IntroductionFile.Read(own)
            : Introduction.Of(edits.Introduction);
        var text = TemplateOf(parsed.GetValue(template)) ?? LessonTemplates.Own(edits);
        var take = VideoOf(parsed, page);
        var (plan, made) = planned();
        // Read once: what comes by standard input is there only once.
        var marked = MarkedOf(parsed, plan);
        return new()
        {
            Plan = plan,
            Made = made,
            Edits = edits,
            Form = form,
            Times = marked ?? TimesOf(parsed, plan),
            Video = take is null ? null : take with { Times = marked },
            Introduction = before,
            Template = text,
            ColumnWidth = width,
            Numbers = style,
            Paper = name == "a4" ? PageStyle.A4 : PageStyle.Letter,
            Strip = strip,
        };
    }

    private StripLook StripOf(ParseResult parsed)
    {
        var isLow = parsed.GetValue(stripForm)!.ToLowerInvariant() switch
        {
            "full" => false,
            "low" => true,
            var other => throw new RequestException($"--strip-form: '{other}' is neither full nor low"),
        };
        var look = new StripLook(parsed.GetValue(stripWidth), parsed.GetValue(plate), isLow);
        if (look.Width is not (>= 320 and <= 3840))
            throw new RequestException($"--strip-width {look.Width}: a strip is 320 to 3840 pixels wide");
        return look.Plate is >= 0.4 and <= 1
            ? look
            : throw new RequestException($"--strip-plate {look.Plate}: a plate is 0.4 to 1 dense");
    }

    /// <summary>The take that stands on the page, not yet with the times of its bars.</summary>
    /// <param name="parsed">What was asked.</param>
    /// <param name="folder">Where the page goes; null for the current folder.</param>
    /// <exception cref="RequestException">There is no such recording.</exception>
    private LessonVideo? VideoOf(ParseResult parsed, string? folder)
    {
        if (parsed.GetValue(video) is not { } path)
            return null;
        if (!File.Exists(path))
            throw new RequestException($"--video: there is no file {path}");
        var place = Path.GetRelativePath(Path.GetFullPath(folder ?? "."), Path.GetFullPath(path));
        var address = string.Join('/', place.Split(Path.DirectorySeparatorChar).Select(Uri.EscapeDataString));
        return new(address, Sounds.Contains(Path.GetExtension(path).ToLowerInvariant()), null);
    }

    private BarTimes? MarkedOf(ParseResult parsed, LessonPlan plan)
    {
        if (parsed.GetValue(barTimes) is not { } path)
            return null;
        try
        {
            return BarTimesJson.Read(Encoding.UTF8.GetString(InputFile.Read(path)), plan.Played);
        }
        catch (LessonException fault)
        {
            throw new RequestException($"{InputFile.NameOf(path)}: {fault.Message}");
        }
    }

    /// <summary>Says so where something was asked for that what is made cannot have.</summary>
    /// <param name="parsed">What was asked.</param>
    /// <param name="hasText">A text in Markdown is made, or documents that have one.</param>
    /// <param name="isPage">A page alone is made.</param>
    /// <exception cref="RequestException">It was.</exception>
    public void Check(ParseResult parsed, bool hasText, bool isPage)
    {
        if (!hasText && parsed.GetValue(template) is not null)
            throw new RequestException("--template is for the lesson in Markdown and for --out-dir");
        if (!hasText && !isPage && parsed.GetValue(introduction) is not null)
            throw new RequestException("--introduction is for the lesson in Markdown, for a page, and for --out-dir");
    }

    private static Template? TemplateOf(string? path)
    {
        if (path is null)
            return null;
        try
        {
            return LessonTemplates.Parse(IntroductionFile.TextOf(path), InputFile.NameOf(path));
        }
        catch (LessonException fault)
        {
            throw new RequestException(fault.Message);
        }
    }

    private BarTimes TimesOf(ParseResult parsed, LessonPlan plan)
    {
        try
        {
            return BarTimes.At(
                plan.Played,
                parsed.GetValue(tempo) is { } asked ? plan.Played.Tempo with { PerMinute = asked } : null
            );
        }
        catch (LessonException fault)
        {
            throw new RequestException($"--tempo: {fault.Message}");
        }
    }
}
