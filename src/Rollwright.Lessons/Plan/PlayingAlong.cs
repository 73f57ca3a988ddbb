using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;
using Rollwright.Music.Pitches;

namespace Rollwright.Lessons.Plan;

/// <summary>How the banjo is set up, and what the others play in.</summary>
/// <param name="Sentences">Tuning, capo, keys, chords.</param>
/// <param name="TunesUp">Whether a string is tuned up from open G: a caution is due.</param>
public sealed record PlayingAlong(ImmutableArray<string> Sentences, bool TunesUp)
{
    public static PlayingAlong Of(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var (setting, chords) = (played.Setting, ChordsOf(played));
        var tuning =
            $"Tuning: {setting.Tuning.Name}, {setting.Tuning.Spelling} from string 5 to string 1.{Retuning(setting.Tuning)}";
        var up = Enumerable.Range(1, Neck.Strings).Any(s => setting.Tuning.OpenOf(s) > TuningTable.OpenG.OpenOf(s));
        if (setting.Capo == 0)
            return new(
                [
                    tuning,
                    $"No capo. You and the others play in {setting.SoundingKey}{(chords.IsEmpty ? "" : $", with the chords {Words.Counting.Listed([.. chords.Select(chord => $"{chord}")])}")}.",
                ],
                up
            );
        var fifths = setting.SoundingKey.Tonic.Fifths - setting.Position.Tonic.Fifths;
        var fifth = PitchOf(setting.SoundingKeyOf(Neck.ShortString, 0), setting.SoundingKey);
        return new(
            [
                tuning,
                $"Capo at fret {setting.Capo}. String 5 goes up {(setting.Capo == 1 ? "one fret" : $"{setting.Capo} frets")} too, to {fifth}. Frets are counted from the capo.",
                $"You finger it as {setting.Position}; it sounds in {setting.SoundingKey}, and that is what the others play in.",
                .. chords.IsEmpty
                    ? Array.Empty<string>()
                    :
                    [
                        $"Note and chord names here are those of your hands: for the others {Words.Counting.Listed([.. chords.Select(chord => $"{chord} is {chord.TransposeFifths(fifths)}")])}.",
                    ],
            ],
            true
        );
    }

    // From the tuning that most banjos stand in.
    private static string Retuning(Tuning tuning)
    {
        var turned = Enumerable
            .Range(1, Neck.Strings)
            .Reverse()
            .Where(s => tuning.OpenOf(s) != TuningTable.OpenG.OpenOf(s))
            .Select(s =>
                $"string {s} {(tuning.OpenOf(s) > TuningTable.OpenG.OpenOf(s) ? "up" : "down")} to {tuning.Spelling.Split(' ')[Neck.Strings - s]}"
            )
            .ToList();
        return turned.Count == 0 ? "" : $" From open G turn {Words.Counting.Listed(turned)}.";
    }

    private static PitchName PitchOf(int midi, Music.Keys.Key key) => key.Spell(midi);

    private static ImmutableArray<Chord> ChordsOf(Break played) =>
        [.. played.Bars.SelectMany(bar => bar.Chords).Select(chord => chord.Chord).Distinct()];
}
