using System.CommandLine;
using System.Text.Json;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.Cli.Files;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright check BREAK…</c>: what hands cannot do in a break.</summary>
internal static class CheckCommand
{
    public static Command Build()
    {
        var breaks = new Argument<string[]>("break")
        {
            Description = "Breaks in JSON or MusicXML; - is standard input.",
            Arity = ArgumentArity.OneOrMore,
        };
        var json = new Option<bool>("--json") { Description = "Answer in JSON." };
        var command = new Command("check", "Says what hands cannot do in a break; exit code 1 where there is anything.")
        {
            breaks,
            json,
        };
        command.SetAction(parsed => Run(parsed.GetRequiredValue(breaks), parsed.GetValue(json)));
        return command;
    }

    private static int Run(string[] paths, bool asJson)
    {
        var worst = Exit.Done;
        foreach (var path in paths)
        {
            try
            {
                var found = BreakInput.Read(path);
                var findings = Checker.Check(found);
                if (asJson)
                    Console.WriteLine(
                        JsonSerializer.Serialize(findings.Select(finding => AsJson(path, found, finding)))
                    );
                else
                    Print(path, found, findings);
                worst = Math.Max(worst, findings.IsEmpty ? Exit.Done : Exit.No);
            }
            catch (Exception fault) when (Exit.IsExpected(fault))
            {
                Exit.Say(fault.Message);
                worst = Exit.Wrong;
            }
        }
        return worst;
    }

    private static void Print(string path, Break found, IReadOnlyList<Finding> findings)
    {
        foreach (var finding in findings)
            Console.WriteLine(
                $"{path}: bar {finding.Bar + 1}, beat {Beat(found, finding):0.##}: {finding.Words} [{finding.Rule}]"
            );
        Exit.Say(
            $"{path}: {(findings.Count == 0 ? "hands can play this" : $"{findings.Count} finding{(findings.Count == 1 ? "" : "s")}")}"
        );
    }

    private static object AsJson(string path, Break found, Finding finding) =>
        new
        {
            file = path,
            bar = finding.Bar + 1,
            beat = Beat(found, finding),
            stroke = finding.Stroke,
            rule = finding.Rule,
            words = finding.Words,
        };

    private static double Beat(Break found, Finding finding) =>
        1 + (finding.At / found.Bars[finding.Bar].Time.Beat).ToDouble();
}
