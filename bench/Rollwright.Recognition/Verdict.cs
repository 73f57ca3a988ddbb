namespace Rollwright.Recognition;

/// <summary>What became of one break.</summary>
/// <param name="Name">Of the break.</param>
/// <param name="Rank">1 where no other tune is likelier than the right one.</param>
/// <param name="Score">Log likelihood ratio of the right tune, natural logarithm.</param>
/// <param name="Rival">The likeliest tune that is not the right one.</param>
/// <param name="RivalScore">Its log likelihood ratio.</param>
/// <param name="InCollection">How many tunes of the collection are the same as the right one.</param>
internal sealed record Verdict(
    string Name,
    int Rank,
    double Score,
    Candidate Rival,
    double RivalScore,
    int InCollection
)
{
    public static Verdict Of(Heard heard, Candidate own, Candidate[] collection)
    {
        var likelihood = Likelihood.Of(heard);
        var sameness = Sameness.Of(own.Onsets, own.StepsInBar);
        var score = likelihood.Best(own.Onsets);
        var wrong = new List<(Candidate Tune, double Score)>();
        var same = 0;
        foreach (var candidate in collection)
        {
            var other = likelihood.Best(candidate.Onsets);
            if (Sameness.Share(sameness, own.Onsets, candidate.Onsets) < Sameness.Least)
            {
                wrong.Add((candidate, other));
                continue;
            }
            same++;
            score = Math.Max(score, other);
        }
        var rival = wrong.MaxBy(item => item.Score);
        return new(heard.Name, 1 + wrong.Count(item => item.Score >= score), score, rival.Tune, rival.Score, same);
    }
}
