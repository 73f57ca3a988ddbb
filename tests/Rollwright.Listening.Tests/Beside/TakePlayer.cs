using System.Collections.Immutable;
using Rollwright.Listening.Beside.Meanings;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Tests.Beside;

/// <summary>
/// Someone who plays a break with mistakes that are known: at another tempo that drifts, unevenly, in stretches of which each
/// may begin anywhere.
/// </summary>
internal sealed class TakePlayer(Meant meant, int seed)
{
    private const double DriftOver = 12;

    private readonly Random random = new(seed);

    /// <summary>How much faster than marked.</summary>
    public double Speed { get; init; } = 1;

    /// <summary>How far the tempo goes up and down, as a part of it.</summary>
    public double Drift { get; init; }

    /// <summary>Seconds: how far each gesture is from its time, one standard deviation.</summary>
    public double Jitter { get; init; } = 0.008;

    /// <summary>Seconds before the first note, and between stretches.</summary>
    public double Pause { get; init; } = 1.3;

    /// <summary>By note meant, what sounds instead.</summary>
    public Dictionary<int, int> Wrong { get; } = [];

    public HashSet<int> Missing { get; } = [];

    /// <summary>Half way from a note meant to the next gesture.</summary>
    public Dictionary<int, int> AddedAfter { get; } = [];

    /// <summary>By the number of the stretch that they stand in front of.</summary>
    public Dictionary<int, int[]> Fills { get; } = [];

    /// <param name="stretches">From and to, in whole notes of the break; the second is not played itself.</param>
    public ImmutableArray<Sounded> Play(params (double From, double To)[] stretches)
    {
        var sounded = new List<Sounded>();
        var clock = 0.0;
        for (var i = 0; i < stretches.Length; i++)
        {
            var (from, to) = stretches[i];
            clock += Pause;
            foreach (var pitch in Fills.GetValueOrDefault(i, []))
            {
                sounded.Add(new(clock, pitch, null));
                clock += 0.11;
            }
            var gestures = meant.Notes.Where(note => note.At >= from && note.At < to).GroupBy(note => note.At).ToList();
            for (var j = 0; j < gestures.Count; j++)
            {
                var onset = clock + Seconds(from, gestures[j].Key) + (Jitter * Normal());
                foreach (var note in gestures[j])
                {
                    if (!Missing.Contains(note.Id))
                        sounded.Add(new(onset, Wrong.GetValueOrDefault(note.Id, note.Pitch), note.Id));
                    if (AddedAfter.TryGetValue(note.Id, out var added) && j + 1 < gestures.Count)
                        sounded.Add(
                            new(clock + Seconds(from, (gestures[j].Key + gestures[j + 1].Key) / 2), added, null)
                        );
                }
            }
            clock += Seconds(from, to);
        }
        return [.. sounded.OrderBy(note => note.Onset)];
    }

    public static ImmutableArray<HeardNote> AsHeard(IEnumerable<Sounded> notes) =>
        [.. notes.Select(note => new HeardNote(note.Onset, note.Pitch, 1))];

    private double Seconds(double from, double at)
    {
        double Swept(double place) => -Drift * DriftOver / (2 * Math.PI) * Math.Cos(2 * Math.PI * place / DriftOver);
        return meant.WholeNote / Speed * (at - from + Swept(at) - Swept(from));
    }

    private double Normal() =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}

/// <summary>A note as it was played.</summary>
/// <param name="Onset">Seconds.</param>
/// <param name="Pitch">MIDI key.</param>
/// <param name="Id">The note meant; null where it was added.</param>
internal readonly record struct Sounded(double Onset, int Pitch, int? Id);
