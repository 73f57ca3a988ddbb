using System.Collections.Immutable;
using System.Text.Json;

namespace Rollwright.Lessons.Series;

/// <summary>What an index says of a lesson.</summary>
/// <param name="Title">The tune's.</param>
/// <param name="About">A sentence: kind, key, metre, form.</param>
/// <param name="Key">The key that sounds.</param>
/// <param name="Level">1 to 5; null where the break was not arranged here.</param>
/// <param name="Tempo">The tempo to get to, in words: "half note = 76".</param>
/// <param name="Taught">What the hands learn, a line each.</param>
/// <param name="Rights">Whose the tune is.</param>
public sealed record LessonFacts(
    string Title,
    string About,
    string Key,
    int? Level,
    string Tempo,
    ImmutableArray<string> Taught,
    string Rights
)
{
    /// <summary>Name of the file that holds them, in a lesson's folder.</summary>
    public const string FileName = "lesson.json";

    private const string Format = "rollwright lesson facts";

    private static readonly JsonSerializerOptions Json = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        WriteIndented = true,
    };

    private sealed record Written(string? Format, int Version, LessonFacts? Lesson);

    public static LessonFacts Of(Plan.LessonPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var tempo = plan.Played.Tempo;
        return new(
            plan.Tune.Title,
            plan.Tune.Sentences[0],
            plan.Tune.Key,
            plan.Level,
            $"{tempo.UnitName} = {tempo.PerMinute:0.#}",
            plan.Learnt,
            plan.Tune.Rights.Words
        );
    }

    public byte[] Write() => JsonSerializer.SerializeToUtf8Bytes(new Written(Format, 1, this), Json);

    /// <exception cref="LessonException">It is not such a file.</exception>
    public static LessonFacts Read(string json)
    {
        try
        {
            return
                JsonSerializer.Deserialize<Written>(json, Json)
                    is { Format: Format, Version: 1, Lesson: { Title: not null, Taught.IsDefault: false } lesson }
                ? lesson
                : throw new LessonException("this is no file about a lesson; make the lesson's folder again");
        }
        catch (JsonException)
        {
            throw new LessonException("this is no file about a lesson; make the lesson's folder again");
        }
    }
}
