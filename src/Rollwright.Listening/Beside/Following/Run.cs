namespace Rollwright.Listening.Beside.Following;

/// <summary>A stretch of the take in which the break is followed without going elsewhere.</summary>
/// <param name="Pairs">In order of both; at least one.</param>
internal sealed record Run(IReadOnlyList<Pair> Pairs)
{
    public Pair First => Pairs[0];

    public Pair Last => Pairs[^1];

    public static List<Run> Of(IReadOnlyList<Pair> pairs)
    {
        var runs = new List<Run>();
        for (var from = 0; from < pairs.Count; )
        {
            var to = from + 1;
            while (to < pairs.Count && !pairs[to].IsJump)
                to++;
            runs.Add(new([.. pairs.Skip(from).Take(to - from)]));
            from = to;
        }
        return runs;
    }
}
