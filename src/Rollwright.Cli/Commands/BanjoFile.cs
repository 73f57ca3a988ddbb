using System.Text;
using Rollwright.Audio.Reading;
using Rollwright.Banjo.Data;
using Rollwright.Banjo.Tunings;
using Rollwright.Cli.Files;
using Rollwright.Listening.Banjos;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright listen ROLL --learn FILE</c>, and the file read again: what a player's own banjo sounds like.</summary>
internal static class BanjoFile
{
    public static int Learn(
        string[] takes,
        string path,
        (double From, double Until) part,
        Tuning? tuning,
        CancellationToken stop
    )
    {
        if (takes is not [var take])
            throw new RequestException("--learn listens to one recording: give one");
        using var recording = new Recording(take, part.From, part.Until);
        var sound = recording.Sound.ReadAll(int.MaxValue);
        recording.SayWhatWasAmiss();
        if (BanjoLearner.Learn(sound, tuning ?? TuningTable.OpenG, stop) is not { } banjo)
        {
            Exit.Say(
                $"{InputFile.NameOf(take)}: the five open strings were not all heard twice, one by one; play a slow roll over all of them, near and alone (--tuning, if it is not open G)"
            );
            return Exit.No;
        }
        OutputFile.Write(path, Encoding.UTF8.GetBytes(OwnBanjoText.Write(banjo)));
        if (!banjo.KnowsStops)
            Exit.Say(
                $"{InputFile.NameOf(take)}: learnt from open strings alone; frets 1 and 2 of each long string after them would also tell how notes stop"
            );
        return Exit.Done;
    }

    /// <exception cref="RequestException">The file is not there, or no banjo.</exception>
    public static OwnBanjo Read(string path)
    {
        try
        {
            return OwnBanjoText.Parse(Path.GetFileName(path), File.ReadAllText(path));
        }
        catch (DataException fault)
        {
            throw new RequestException(fault.Message);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new RequestException(
                $"{path}: cannot be read ({fault.Message}); write one with 'listen ROLL --learn {path}'"
            );
        }
    }
}
