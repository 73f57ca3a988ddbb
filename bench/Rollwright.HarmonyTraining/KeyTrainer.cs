using Rollwright.Arranging.Chording;
using Rollwright.Music.Tunes;

namespace Rollwright.HarmonyTraining;

/// <summary>Trains the key finder's numbers: gradients of one tune at a time, as <see cref="Trainer"/> does.</summary>
internal static class KeyTrainer
{
    private const int Rounds = 60;
    private const double Rate = 0.1;
    private const double Shrink = 0.005;

    public static KeyTable Train(IReadOnlyList<Tune> tunes)
    {
        var table = KeyTable.Zero;
        var squares = new double[table.Weights.Length];
        var slopes = new double[table.Weights.Length];
        for (var round = 0; round < Rounds; round++)
        {
            foreach (var tune in tunes)
            {
                Array.Clear(slopes);
                var evidence = KeyEvidence.Of(tune.Played());
                var chances = table.Chances(evidence);
                var right = (2 * tune.Key.Tonic.PitchClass) + HarmonyRows.KeyOf(tune.Key.Mode);
                foreach (var (row, note, amount) in evidence)
                {
                    for (var key = 0; key < Triad.Count; key++)
                        slopes[(row * Triad.Count) + Triad.SeenFrom(key, note)] +=
                            amount * ((key == right ? 1 : 0) - chances[key]);
                }
                for (var i = 0; i < slopes.Length; i++)
                {
                    var slope = slopes[i] - (Shrink * table.Weights[i]);
                    squares[i] += slope * slope;
                    table.Weights[i] += Rate * slope / Math.Sqrt(1 + squares[i]);
                }
            }
        }
        return table;
    }
}
