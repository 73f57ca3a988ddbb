using System.Collections.Immutable;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Chording;

/// <summary>What the notes of a tune say about its key: rows of <c>data/keys.txt</c>.</summary>
internal static class KeyEvidence
{
    public static ImmutableArray<string> Rows { get; } =
    [
        "a note's share of the tune",
        "its share of the bars' first notes",
        "the last note",
        "the note before the last",
        "the first note of the last bar",
        "the first note",
    ];

    /// <returns>Row, pitch class (0–11), and how loudly it speaks.</returns>
    public static ImmutableArray<(int Row, int Note, double Amount)> Of(ImmutableArray<PlayedNote> notes)
    {
        var evidence = ImmutableArray.CreateBuilder<(int, int, double)>();
        var whole = new double[12];
        var firsts = new double[12];
        foreach (var (i, note) in notes.Index())
        {
            whole[PitchClass(note)] += note.Length.ToDouble();
            if (i == 0 || note.Bar != notes[i - 1].Bar)
                firsts[PitchClass(note)]++;
        }
        AddShares(0, whole, evidence);
        AddShares(1, firsts, evidence);
        evidence.Add((2, PitchClass(notes[^1]), 1));
        if (notes.Length > 1)
            evidence.Add((3, PitchClass(notes[^2]), 1));
        var lastBar = notes.Length - 1;
        while (lastBar > 0 && notes[lastBar - 1].Bar == notes[^1].Bar)
            lastBar--;
        evidence.Add((4, PitchClass(notes[lastBar]), 1));
        evidence.Add((5, PitchClass(notes[0]), 1));
        return evidence.ToImmutable();
    }

    public static int PitchClass(PlayedNote note) => ((note.Pitch.Midi % 12) + 12) % 12;

    // Shares weigh ten, so that a tenth of the tune speaks as loudly as a single note that stands out.
    private static void AddShares(int row, double[] counts, ImmutableArray<(int, int, double)>.Builder evidence)
    {
        var sum = counts.Sum();
        for (var note = 0; note < 12; note++)
            evidence.Add((row, note, 10 * counts[note] / sum));
    }
}
