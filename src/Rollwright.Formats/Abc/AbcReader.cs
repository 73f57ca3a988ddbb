using System.Collections.Immutable;
using Rollwright.Formats.Messages;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Abc;

/// <summary>
/// Reads tunes from ABC notation, version 2.1 (December 2011) and the older habits that collections keep: the melody
/// of the first voice, its chord symbols and its form. Never throws for what a file holds; what cannot be read is
/// said in a message with its line and column, and reading goes on behind it.
/// </summary>
public static class AbcReader
{
    /// <summary>Reads the bytes of a file: UTF-8, UTF-16 with a byte order mark, or Latin-1.</summary>
    public static AbcReading Read(ReadOnlySpan<byte> bytes, string fileName)
    {
        if (bytes.Length > AbcLimits.MostBytes)
            return Refuse(
                fileName,
                $"the file is larger than {AbcLimits.MostBytes / 1_000_000} MB",
                "part it into smaller files"
            );
        return AbcText.Decode(bytes) is { } text
            ? Read(text, fileName)
            : Refuse(fileName, "this is no text file", "give a file in ABC notation (.abc)");
    }

    public static AbcReading Read(string text, string fileName)
    {
        if (text.Length > AbcLimits.MostBytes)
            return Refuse(
                fileName,
                $"the text is longer than {AbcLimits.MostBytes / 1_000_000} MB",
                "part it into smaller files"
            );
        if (text.Contains('\0', StringComparison.Ordinal))
            return Refuse(fileName, "this is no text file", "give a file in ABC notation (.abc)");
        if (text.StartsWith('\uFEFF'))
            text = text[1..];
        var log = new MessageLog(fileName);
        var tunes = ImmutableArray.CreateBuilder<Tune>();
        var lines = AbcText.Lines(text).ToList();
        if (lines.TrueForAll(line => line.IsBlank))
            return Refuse(fileName, "the file is empty", "give a file in ABC notation (.abc)");
        if (
            !text.Contains('|', StringComparison.Ordinal)
            && !lines.Exists(line => line.Field is 'X' or 'T' or 'M' or 'L' or 'K')
        )
            return Refuse(
                fileName,
                "this holds no tune: no field and no bar line",
                "give a tune in ABC notation; it begins with X:1, K: and the key"
            );
        foreach (var tuneLines in Split(lines, log))
        {
            if (new TuneReader(log).Read(tuneLines) is { } tune)
                tunes.Add(tune);
        }
        return new(tunes.ToImmutable(), log.Messages);
    }

    private static AbcReading Refuse(string fileName, string what, string remedy) =>
        new([], [new(Severity.Error, fileName, 1, 1, what, remedy)]);

    // A tune goes from its X: line to the next empty line or X:. Fields before the first X: hold for all tunes.
    private static IEnumerable<List<AbcLine>> Split(List<AbcLine> lines, MessageLog log)
    {
        var fileHead = new List<AbcLine>();
        List<AbcLine>? tune = null;
        var count = 0;
        if (!lines.Exists(line => line.Field == 'X'))
        {
            log.Warning(1, 1, "no X: line starts a tune", "put X:1 in front of it; all lines are read as one tune");
            yield return lines;
            yield break;
        }
        foreach (var line in lines)
        {
            if (line.Field == 'X')
            {
                if (tune is not null)
                    yield return tune;
                count++;
                tune = [.. fileHead, line];
            }
            else if (line.IsBlank && !(tune is not null && HasOnlyHead(tune)))
            {
                if (tune is not null)
                    yield return tune;
                tune = null;
            }
            else if (tune is not null)
                tune.Add(line);
            else if (count == 0 && line.Field is 'M' or 'L' or 'Q' or 'C' or 'R')
                fileHead.Add(line);
        }
        if (tune is not null)
            yield return tune;
    }

    // An empty line in the head, before any music, is a slip: the tune goes on behind it.
    private static bool HasOnlyHead(List<AbcLine> tune) =>
        tune.TrueForAll(line => line.Field is not ('K' or '\0') || line.IsComment || line.IsBlank);
}
