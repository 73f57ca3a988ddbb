using NAudio.Midi;

namespace Rollwright.Recognition;

/// <summary>What is heard of a break: which pitch classes start at each step. Read from its MIDI file and nothing else.</summary>
/// <param name="Name">File name without ending.</param>
/// <param name="Steps">A step each; bit p is set where pitch class p starts.</param>
/// <param name="StepsInBar">Of the first metre.</param>
internal sealed record Heard(string Name, int[] Steps, int StepsInBar)
{
    public static Heard Read(string path)
    {
        var file = new MidiFile(path, strictChecking: false);
        var events = file.Events.SelectMany(track => track).ToList();
        var time = events.OfType<TimeSignatureEvent>().FirstOrDefault();
        var (beats, unit) = time is null ? (4, 4) : (time.Numerator, 1 << time.Denominator);
        // As the grid of the tunes: sixteenths in 2/4, otherwise eighths.
        var step = file.DeltaTicksPerQuarterNote / (unit >= 16 || (unit == 4 && beats == 2) ? 4.0 : 2.0);
        var notes = events.OfType<NoteOnEvent>().Where(on => on.Velocity > 0).ToList();
        // A swung off-beat comes late but before the next step, so that rounding down keeps its place.
        int StepOf(NoteOnEvent on) => (int)Math.Floor((on.AbsoluteTime / step) + 0.02);
        var steps = new int[notes.Select(StepOf).DefaultIfEmpty(0).Max() + 1];
        foreach (var note in notes)
            steps[StepOf(note)] |= 1 << (note.NoteNumber % 12);
        var stepsInBar = (int)Math.Round(beats * 4.0 / unit * file.DeltaTicksPerQuarterNote / step);
        return new(Path.GetFileNameWithoutExtension(path), steps, Math.Max(1, stepsInBar));
    }

    /// <summary>A tune as if it were heard itself: what its own notes alone would sound.</summary>
    public static Heard Of(string name, Onset[] onsets, int stepsInBar)
    {
        var steps = new int[onsets.Select(onset => onset.Step).DefaultIfEmpty(0).Max() + 1];
        foreach (var onset in onsets)
            steps[onset.Step] |= 1 << onset.PitchClass;
        return new(name, steps, stepsInBar);
    }
}
