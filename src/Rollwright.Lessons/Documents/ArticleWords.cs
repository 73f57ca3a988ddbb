using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Words;

namespace Rollwright.Lessons.Documents;

/// <summary>The opening of a column: what the tune is, for someone who has not heard of it.</summary>
internal static class ArticleWords
{
    private static readonly string[] Numbers = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight"];

    public static string Opening(LessonPlan plan)
    {
        var (tune, played) = (plan.Tune, plan.Played);
        var kind = tune.Kind.Length > 0 ? tune.Kind.ToLowerInvariant() : "tune";
        var parts = BreakForm.Of(played);
        var setting = played.Setting;
        string[] sentences =
        [
            $"{tune.Title} is {Article(kind)} {kind} in {tune.Key}, in {tune.Time} time.",
            $"It has {Counted(parts.Length, "part")}{Repeats(parts)}, {tune.BarsPlayed} bars in all.",
            tune.Range.Length > 0 ? $"On the fiddle it goes from {tune.Range}." : "",
            setting.Capo == 0
                ? $"Here it is arranged for the five-string banjo in {Tuned(setting.Tuning.Name)}, without a capo."
                : $"Here it is arranged for the five-string banjo in {Tuned(setting.Tuning.Name)}, with a capo at fret {setting.Capo}.",
        ];
        return string.Join(' ', sentences.Where(sentence => sentence.Length > 0));
    }

    // "open D tuning, string 5 to a".
    private static string Tuned(string name) =>
        name.Split(", ", 2) is [var kind, var rest] ? $"{kind} tuning, {rest}" : $"{name} tuning";

    private static string Repeats(IReadOnlyCollection<Part> parts)
    {
        var times = parts.Select(part => part.Times).Distinct().ToList();
        if (times is [1])
            return "";
        if (times is [var same])
            return parts.Count == 1 ? $", played {Times(same)}" : $", each played {Times(same)}";
        var said = parts.Where(part => part.Times > 1).Select(part => $"{part.Name} {Times(part.Times)}").ToList();
        return $", with {Counting.Listed(said)}";
    }

    private static string Times(int times) => times == 2 ? "twice" : $"{Number(times)} times";

    private static string Counted(int count, string one) => $"{Number(count)} {(count == 1 ? one : one + "s")}";

    private static string Number(int count) => count < Numbers.Length ? Numbers[count] : $"{count}";

    private static string Article(string noun) => noun[0] is 'a' or 'e' or 'i' or 'o' or 'u' ? "an" : "a";
}
