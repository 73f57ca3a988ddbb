using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rollwright.Banjo.Breaks;
using Rollwright.Cli.Files;
using Rollwright.Lessons;
using Rollwright.Lessons.Practice;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright practice BREAK</c>: what is hard, today's session, the days to come.</summary>
internal static class PracticeCommand
{
    public static Command Build()
    {
        var path = new Argument<string>("break")
        {
            Description = "A break in JSON, MusicXML or plain-text tab; - is standard input.",
        };
        var target = new Option<double?>("--tempo")
        {
            Description = "The tempo to get to, in units of the break's own; by default the break's.",
        };
        var days = new Option<int>("--days")
        {
            Description = $"Days to plan, 1 to {PracticePlan.MostDays}.",
            DefaultValueFactory = _ => 14,
        };
        var minutes = new Option<int>("--minutes")
        {
            Description = "Minutes of a session, 5 to 180.",
            DefaultValueFactory = _ => PracticeHabits.Usual.Minutes,
        };
        var start = new Option<DateOnly?>("--from")
        {
            Description = "The first day, such as 2026-12-01; today by default.",
        };
        var json = new Option<bool>("--json") { Description = "Answer in JSON." };
        var command = new Command(
            "practice",
            "Plans how a break is learnt: what is hard, what to do today, when it returns."
        )
        {
            path,
            target,
            days,
            minutes,
            start,
            json,
        };
        command.SetAction(parsed =>
        {
            var found = BreakInput.Read(parsed.GetRequiredValue(path));
            var (asked, ahead, session) = (parsed.GetValue(target), parsed.GetValue(days), parsed.GetValue(minutes));
            if (asked is not (null or (>= 1 and <= 1_000)))
                throw new RequestException($"--tempo {asked}: take 1 to 1000 {found.Tempo.UnitName}s a minute");
            if (ahead is not (>= 1 and <= PracticePlan.MostDays))
                throw new RequestException($"--days {ahead}: take 1 to {PracticePlan.MostDays}");
            if (session is not (>= 5 and <= 180))
                throw new RequestException($"--minutes {session}: take 5 to 180");
            if (found.Bars.All(bar => bar.Strokes.IsEmpty))
                throw new RequestException("the break has no note: there is nothing to practise");
            var first = parsed.GetValue(start) ?? DateOnly.FromDateTime(DateTime.Now);
            var habits = PracticeHabits.Usual with { Minutes = session };
            var plan = PracticePlan.Of(found, habits, [], first, ahead, asked);
            if (parsed.GetValue(json))
                Console.WriteLine(JsonSerializer.Serialize(AsJson(found, plan)));
            else
                Print(found, plan);
            return Exit.Done;
        });
        return command;
    }

    private static void Print(Break found, PracticePlan plan)
    {
        var unit = found.Tempo.UnitName;
        Console.WriteLine($"{found.Title}: to be learnt up to {unit} = {plan.Target:0.##}");
        if (plan.Comfortable is { } all && all < plan.Target)
            Console.WriteLine(
                $"Comfortable in all bars up to {all:0}: what is above it takes more than practice, or an easier version."
            );
        Console.WriteLine("\nHardest first");
        foreach (var work in plan.Works)
        {
            var also = work.Also.IsEmpty ? "" : $", also {string.Join(", ", work.Also)}";
            var hard = work.Comfortable is { } tempo
                ? $"comfortable up to {tempo:0}, {work.HardPlace}: {work.Why}"
                : "nothing asks for time";
            Console.WriteLine($"  phrase {work.Phrase.Number} of {work.Part}{also} ({work.Loop.Name}): {hard}");
        }
        Console.WriteLine($"\n{Day(plan.Today.Day)}, {plan.Today.Exercises.Sum(one => one.Minutes)} minutes");
        foreach (var exercise in plan.Today.Exercises)
        {
            Console.WriteLine($"  {exercise.Minutes, 2} min  {exercise.Words}");
            if (exercise.Why.Length > 0)
                Console.WriteLine($"          {exercise.Why}");
        }
        if (!plan.Coming.IsEmpty)
            Console.WriteLine("\nThe days to come, if all goes well");
        foreach (var session in plan.Coming)
            Console.WriteLine(
                $"  {Day(session.Day)}: {Phrases("new", session.New)}{Phrases("again", session.Due)}".TrimEnd(' ', ';')
            );
        Console.WriteLine($"\n{Cautions.Hands} {Cautions.Hearing}");
    }

    private static string Phrases(string word, IReadOnlyCollection<int> phrases) =>
        phrases.Count == 0 ? "" : $"{word} {string.Join(", ", phrases)}; ";

    private static string Day(DateOnly day) => day.ToString("ddd d MMM yyyy", CultureInfo.InvariantCulture);

    private static object AsJson(Break found, PracticePlan plan) =>
        new
        {
            title = found.Title,
            unit = found.Tempo.Unit.ToString(),
            target = plan.Target,
            comfortable = plan.Comfortable,
            phrases = plan.Works.Select(work => new
            {
                phrase = work.Phrase.Number,
                part = work.Part,
                also = work.Also,
                bars = work.Loop.Name,
                comfortable = work.Comfortable,
                hardBar = found.Numbering[work.HardBar].Name,
                why = work.Why,
                ladder = new
                {
                    work.Ladder.Start,
                    work.Ladder.Target,
                    work.Ladder.Step,
                    work.Ladder.Clean,
                    work.Ladder.Spoiled,
                },
            }),
            sessions = plan
                .Coming.Prepend(plan.Today)
                .Select(session => new
                {
                    day = session.Day.ToString("O", CultureInfo.InvariantCulture),
                    @new = session.New,
                    again = session.Due,
                    exercises = session.Exercises.Select(exercise => new
                    {
                        kind = exercise.Kind.ToString(),
                        phrases = exercise.Phrases,
                        bars = exercise.Loops.Select(loop => loop.Name),
                        from = exercise.Loops.Select(loop => loop.From.ToString()),
                        to = exercise.Loops.Select(loop => loop.To.ToString()),
                        start = exercise.Start,
                        minutes = exercise.Minutes,
                        words = exercise.Words,
                        why = exercise.Why,
                    }),
                }),
            cautions = new[] { Cautions.Hands, Cautions.Hearing },
        };
}
