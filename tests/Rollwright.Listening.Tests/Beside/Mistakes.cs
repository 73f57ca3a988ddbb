using Rollwright.Listening.Beside;
using Rollwright.Listening.Beside.Meanings;

namespace Rollwright.Listening.Tests.Beside;

/// <summary>Puts mistakes into a player's hands: apart from each other, and none that sounds like its neighbours.</summary>
internal static class Mistakes
{
    private const int Apart = 6;

    /// <returns>The labels that are to be found, by note meant.</returns>
    public static NoteLabel[] Put(TakePlayer player, Meant meant, int seed)
    {
        var random = new Random(seed);
        var labels = meant.Notes.Select(_ => NoteLabel.Ok).ToArray();
        for (var id = random.Next(2, Apart); id < meant.Notes.Length - 2; id += Apart + random.Next(4))
        {
            var around = meant.Notes.Where(note => Math.Abs(note.Id - id) <= 3).Select(note => note.Pitch).ToHashSet();
            int Other(params int[] away) => meant.Notes[id].Pitch + away[random.Next(away.Length)];
            var pitch = Other(-2, -1, 1, 2);
            var isAlone = meant.Notes.Count(note => note.At == meant.Notes[id].At) == 1;
            switch (random.Next(3))
            {
                case 0 when !around.Contains(pitch):
                    player.Wrong[id] = pitch;
                    labels[id] = NoteLabel.Wrong;
                    break;
                case 1:
                    player.Missing.Add(id);
                    labels[id] = NoteLabel.Missing;
                    break;
                case 2 when isAlone && !around.Contains(pitch):
                    player.AddedAfter[id] = pitch;
                    break;
            }
        }
        return labels;
    }
}
