using System.Collections.Immutable;

namespace Rollwright.Listening.Rhythm;

/// <summary>
/// What a banjo does at each step of a take, as far as it tells where bars begin: pinches, slurs and low notes lean on beats,
/// the short string and silence keep off them.
/// </summary>
internal static class TakeEvidence
{
    /// <summary>Indices of <see cref="MetreTable.TakeKinds"/>.</summary>
    private const int None = 0;
    private const int Pinch = 1;
    private const int Drone = 2;
    private const int Slur = 3;
    private const int Slurred = 4;
    private const int Low = 5;
    private const int Other = 6;

    /// <summary>What begins at a half step.</summary>
    /// <param name="At">Half steps from the first beginning.</param>
    /// <param name="Keys">MIDI keys, ascending.</param>
    /// <param name="IsSoft">It has hardly an attack.</param>
    public readonly record struct Begun(int At, ImmutableArray<int> Keys, bool IsSoft);

    /// <summary>The kind of each step from the first beginning on.</summary>
    /// <param name="take">By time; at least one.</param>
    /// <param name="drone">The key of the open short string.</param>
    public static int[] Of(IReadOnlyList<Begun> take, int drone)
    {
        var kinds = new int[(take[^1].At / 2) + 1];
        for (var i = 0; i < take.Count; i++)
        {
            var (at, keys, isSoft) = take[i];
            if (at % 2 != 0 || keys.IsEmpty)
                continue;
            kinds[at / 2] =
                keys.Length > 1 ? Pinch
                : isSoft ? Slur
                : i + 1 < take.Count && take[i + 1].At == at + 1 && take[i + 1].IsSoft ? Slurred
                : keys[0] == drone ? Drone
                : IsLow(i) ? Low
                : Other;
        }
        return kinds;

        bool IsLow(int i) => Below(i, i - 1) && Below(i, i + 1);

        bool Below(int i, int other) =>
            other < 0 || other >= take.Count || take[other].Keys.IsEmpty || take[i].Keys[0] < take[other].Keys[0];
    }

    /// <summary>What begins at each step as one number, so that the same is known again; 0 for nothing.</summary>
    public static int[] Line(IReadOnlyList<Begun> take)
    {
        var line = new int[(take[^1].At / 2) + 1];
        foreach (var (at, keys, _) in take)
            if (at % 2 == 0)
                line[at / 2] = keys.Aggregate(0, (sum, key) => (sum * 128) + key);
        return line;
    }
}
