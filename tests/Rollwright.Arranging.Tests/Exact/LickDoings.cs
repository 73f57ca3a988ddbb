using Google.OrTools.Sat;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Licks;
using Term = Rollwright.Arranging.Costs.Term;

namespace Rollwright.Arranging.Tests.Exact;

/// <summary>The licks on offer: a variable each; where it is chosen, the hands do what it says from its first step to its last.</summary>
public sealed class LickDoings
{
    private readonly Dictionary<int, List<Part>> parts = [];

    /// <param name="Place">The lick where it stands.</param>
    /// <param name="Index">Which of its steps.</param>
    /// <param name="Chosen">Whether the lick is played: one variable for all its parts.</param>
    public sealed record Part(LickPlace Place, int Index, BoolVar Chosen)
    {
        public PathStep Done => Place.Path[Index];

        public bool IsFirst => Index == 0;

        public bool IsLast => Index + 1 == Place.Path.Length;

        public bool IsTag => Place.Lick.Role == LickRole.Tag;
    }

    public LickDoings(ExactModel model)
    {
        foreach (var place in model.Lattice.Licks.SelectMany(places => places).Where(place => IsPlayable(model, place)))
        {
            var chosen = model.Choice();
            // Licks belong to the style's first way of playing.
            model.Require(chosen <= model.Manners[model.Grid.Steps[place.Step].Bar][0]);
            model.Price(chosen, -Worth(model, place));
            for (var i = 0; i < place.Path.Length; i++)
            {
                if (!parts.TryGetValue(place.Step + i, out var here))
                    parts[place.Step + i] = here = [];
                here.Add(new(place, i, chosen));
            }
        }
    }

    public IReadOnlyList<Part> At(int step) => parts.GetValueOrDefault(step, []);

    private static bool IsPlayable(ExactModel model, LickPlace place) =>
        model.Overlay.Allows(place)
        && place.Path.Zip(place.Path.Skip(1)).All(pair => MovePrice.IsPossible(pair.First.After, pair.Second.Shape));

    private static int Worth(ExactModel model, LickPlace place) =>
        place.Path.Length * model.Lattice.Style.Weights[place.Lick.Role == LickRole.Tag ? Term.Tag : Term.Lick];
}
