using System.CommandLine;
using System.Text.Json;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.Cli.Files;
using Rollwright.Music.Forms;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright check BREAK…</c>: what hands cannot do in a break, and how fast they can play it.</summary>
internal static class CheckCommand
{
    public static Command Build()
    {
        var breaks = new Argument<string[]>("break")
        {
            Description = "Breaks in JSON, MusicXML or plain-text tab; - is standard input.",
            Arity = ArgumentArity.OneOrMore,
        };
        var json = new Option<bool>("--json") { Description = "Answer in JSON." };
        var tempo = new Option<bool>("--tempo")
        {
            Description = "Say too up to which tempo each bar is comfortable, and which bars limit the whole.",
        };
        var command = new Command("check", "Says what hands cannot do in a break; exit code 1 where there is anything.")
        {
            breaks,
            json,
            tempo,
        };
        command.SetAction(parsed =>
            Run(parsed.GetRequiredValue(breaks), parsed.GetValue(json), parsed.GetValue(tempo))
        );
        return command;
    }

    private static int Run(string[] paths, bool asJson, bool withTempo)
    {
        var worst = Exit.Done;
        foreach (var path in paths)
        {
            try
            {
                var found = BreakInput.Read(path);
                var findings = Checker.Check(found);
                if (asJson)
                {
                    var numbering = found.Numbering;
                    var list = findings.Select(finding => AsJson(path, numbering, finding));
                    Console.WriteLine(
                        withTempo
                            ? JsonSerializer.Serialize(
                                new
                                {
                                    file = path,
                                    findings = list,
                                    tempo = TempoTable.AsJson(found),
                                }
                            )
                            : JsonSerializer.Serialize(list)
                    );
                }
                else
                {
                    Print(path, found, findings);
                    if (withTempo)
                        TempoTable.Print(path, found);
                }
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
        var numbering = found.Numbering;
        foreach (var finding in findings)
            Console.WriteLine($"{path}: {numbering.Place(finding.Bar, finding.At)}: {finding.Words} [{finding.Rule}]");
        Exit.Say(
            $"{path}: {(findings.Count == 0 ? "hands can play this" : $"{findings.Count} finding{(findings.Count == 1 ? "" : "s")}")}"
        );
    }

    private static object AsJson(string path, BarNumbering numbering, Finding finding) =>
        new
        {
            file = path,
            bar = numbering[finding.Bar].Number,
            written = finding.Bar,
            beat = numbering.Beat(finding.Bar, finding.At),
            stroke = finding.Stroke,
            rule = finding.Rule,
            words = finding.Words,
        };
}
