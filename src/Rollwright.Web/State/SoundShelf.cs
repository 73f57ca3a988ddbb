using Rollwright.Audio.Wave;
using Rollwright.Music.Tunes;
using Rollwright.Sound;

namespace Rollwright.Web.State;

/// <summary>The last sounds that were rendered: a browser asks for one sound in several ranges.</summary>
public sealed class SoundShelf
{
    private const int Most = 4;

    private readonly Lock gate = new();
    private readonly LinkedList<(string Name, Lazy<byte[]> Bytes)> kept = [];

    /// <summary>The break as a WAV file at a tempo.</summary>
    public byte[] Wav(Made made, Tempo tempo)
    {
        ArgumentNullException.ThrowIfNull(made);
        var name = $"{made.Id} {tempo.Unit} {tempo.PerMinute:R}";
        Lazy<byte[]> bytes;
        lock (gate)
        {
            var node = kept.First;
            while (node is not null && node.Value.Name != name)
                node = node.Next;
            bytes = node?.Value.Bytes ?? new(() => Render(made, tempo));
            if (node is not null)
                kept.Remove(node);
            kept.AddFirst((name, bytes));
            if (kept.Count > Most)
                kept.RemoveLast();
        }
        return bytes.Value;
    }

    private static byte[] Render(Made made, Tempo tempo) =>
        WavWriter.ToBytes(Synth.Render(made.Break, new() { Tempo = tempo }));
}
