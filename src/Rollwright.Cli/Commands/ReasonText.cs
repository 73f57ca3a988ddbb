using System.Globalization;
using Rollwright.Arranging;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Reasons;

namespace Rollwright.Cli.Commands;

/// <summary>The reasons of a break for people: a line a step, and the table of what the break costs.</summary>
internal static class ReasonText
{
    public static void Write(Arrangement made, TextWriter output)
    {
        output.WriteLine(
            $"{made.Break.Title}: why each step is as it is. Prices are in plain notes of the tune left out."
        );
        foreach (var reason in made.Reasons)
        {
            output.WriteLine(Line(made, reason));
        }
        output.WriteLine();
        output.WriteLine("What the break costs by term:");
        foreach (var (term, price) in made.Terms)
            output.WriteLine($"  {TermNames.Of(term), -16} {Price(price), 8}");
        output.WriteLine($"  {"in all", -16} {Price(made.Cost), 8}");
    }

    /// <summary>"bar 3, beat 2: T on string 3, open: keeps the tune; costs 0.06 (melody-index 0.06); next best …, 0.45 dearer".</summary>
    private static string Line(Arrangement made, StepReason reason)
    {
        var place = made.Grid.Steps[reason.Step];
        var keeps =
            place.Onset is not { } key ? ""
            : reason.Done.Sounds(key, made.Break.Setting.Tuning) ? ", the tune's note"
            : ", the tune's note is left out";
        var lick = reason.Lick is { } within ? $", in the lick '{within.Lick.Name}'" : "";
        var terms = reason.Terms.IsEmpty
            ? ""
            : $"; {string.Join(", ", reason.Terms.Select(entry => $"{TermNames.Of(entry.Term)} {Price(entry.Price)}"))}";
        var other = reason.RunnerUp is { } second
            ? $"; next best {StepWords.Of(second.Done)}, {Price(second.Price)} dearer"
            : "";
        return $"{made.Grid.Place(reason.Step)}: {StepWords.Of(reason.Done)}{keeps}{lick}{terms}{other}";
    }

    private static string Price(int thousandths) =>
        (thousandths / 1000.0).ToString("0.00", CultureInfo.InvariantCulture);
}
