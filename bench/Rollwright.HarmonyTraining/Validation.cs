using Rollwright.Arranging.Chording;

namespace Rollwright.HarmonyTraining;

/// <summary>Chooses what training does not: each third of the taught tunes is measured by what the others taught.</summary>
internal static class Validation
{
    private const int Parts = 3;

    private static readonly TrainingPlan[] Plans = [new(), new(Shrink: 0.01), new(Shrink: 0.05), new(Rounds: 12)];

    private static readonly ChangePrices[] Prices =
    [
        new(0, 0, 0),
        new(0.05, 0.1, 0.2),
        new(0.05, 0.15, 0.4),
        new(0.1, 0.2, 0.4),
        new(0.2, 0.4, 0.8),
    ];

    public static void Run(IReadOnlyList<TaughtTune> taught)
    {
        foreach (var plan in Plans)
        {
            var models = new ChordModel[Parts];
            Parallel.For(
                0,
                Parts,
                part => models[part] = new(new Trainer(plan).Train([.. taught.Where((_, i) => i % Parts != part)]))
            );
            Console.WriteLine(plan);
            foreach (var prices in Prices)
            {
                var score = new Score();
                foreach (var (i, tune) in taught.Index())
                    score.Add(tune.Tune, ChordFinder.WithChords(tune.Tune, models[i % Parts], prices));
                Console.WriteLine($"  {prices}: {score}");
            }
        }
    }
}
