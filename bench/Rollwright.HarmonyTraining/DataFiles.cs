using Rollwright.Arranging.Chording;

namespace Rollwright.HarmonyTraining;

/// <summary>Writes the trained numbers as data files, the heads that say what they are in front.</summary>
internal static class DataFiles
{
    private const string ChordsHead = """
        # How much what is so at a beat speaks for each triad: natural logarithms of odds, trained (docs/chords.md) on people's
        # chords for one half of an open collection of tunes of England, Ireland and America, by bench/Rollwright.HarmonyTraining.
        # Columns: triads by the degree of the root, capitals major, small letters minor. Rows "from a note …" and "from a …
        # chord before" see that note or root as I. Rows of keys and of chords before ("after …") are seen from the tonic.
        # Notes are semitones above the tonic. Rows and cells that say nothing are left out or 0.

        """;

    private const string ChangesHead = """
        # How much speaks for a new chord at a beat, whichever it is: natural logarithms of odds, trained together with
        # harmony.txt, which see.

        """;

    private const string KeysHead = """
        # How much a note in a tune speaks for each key, as seen from that note: natural logarithms of odds, trained
        # (docs/chords.md) on the keys of one half of an open collection, by bench/Rollwright.HarmonyTraining. Columns: degree of
        # the key's tonic above the note, capitals keys with a major third, small letters with a minor one.

        """;

    public static void Write(string folder, HarmonyTable table, KeyTable keys)
    {
        var (chords, changes) = table.Write();
        File.WriteAllText(Path.Combine(folder, "harmony.txt"), ChordsHead + chords);
        File.WriteAllText(Path.Combine(folder, "harmony-changes.txt"), ChangesHead + changes);
        File.WriteAllText(Path.Combine(folder, "keys.txt"), KeysHead + keys.Write());
    }
}
