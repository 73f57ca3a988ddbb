using System.Collections.Immutable;
using CsCheck;
using Rollwright.Arranging.Chording;
using Rollwright.Formats.Abc;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests.Chording;

public class KeyFinderTests(ITestOutputHelper output)
{
    [Fact]
    public void The_keys_of_the_held_out_half_are_found_from_the_notes()
    {
        var (tonic, third, _) = Measure("the other half of Nottingham", SharedTunes.HeldHalf());
        tonic.Should().BeGreaterThanOrEqualTo(0.9);
        third.Should().BeGreaterThanOrEqualTo(0.9);
    }

    // Outside reference: the transcribers' keys of O'Neill's collection, modes included.
    [Fact]
    public void Tonic_and_mode_of_a_collection_never_trained_on_are_found_from_the_notes()
    {
        var (tonic, _, mode) = Measure("O'Neill", SharedTunes.All("collection/oneills-1850.abc"));
        tonic.Should().BeGreaterThanOrEqualTo(LeastTonicElsewhere);
        mode.Should().BeGreaterThanOrEqualTo(LeastModeElsewhere);
    }

    private const double LeastTonicElsewhere = 0.88;
    private const double LeastModeElsewhere = 0.82;

    [Theory]
    [InlineData("G", "GABc d2B2|c2A2 F2D2|GABc d2B2|AFDF G4|", "G major")]
    [InlineData("A mixolydian", "A2AB c2A2|e2ef e2c2|A2AB c2A2|=gece A4|", "A mixolydian")]
    [InlineData("E dorian", "E2EF G2E2|B2Bc B2G2|E2EF G2E2|dBAF E4|", "E dorian")]
    [InlineData("A minor", "ABcd e2A2|=f2d2 B2G2|ABcd e2=f2|edcB A4|", "A minor")]
    public void Plain_tunes_have_their_key_and_mode(string key, string notes, string expected) =>
        KeyFinder.Of(Read($"X:1\nM:4/4\nL:1/8\nK:{key}\n{notes}\n").Played()).ToString().Should().Be(expected);

    [Fact]
    public void A_tune_moved_up_has_its_key_moved_up() =>
        Gen.Select(TuneGenerator.Tunes(8), Gen.Int[1, 11])
            .Sample(
                (tune, up) =>
                {
                    var notes = tune.Played();
                    if (notes.IsEmpty)
                        return true;
                    ImmutableArray<PlayedNote> moved =
                    [
                        .. notes.Select(note => note with { Pitch = Up(note.Pitch, up) }),
                    ];
                    return KeyFinder.Of(moved) == KeyFinder.Of(notes).Transpose(up);
                },
                iter: 300
            );

    [Fact]
    public void A_tune_given_its_key_keeps_its_sound_and_is_spelled_in_it()
    {
        var tune = Read("X:1\nM:4/4\nL:1/8\nK:C\nD^FA^F D2^F2|E2^C2 A,2^C2|D^FA^F D2A2|^FE^CE D4|\n");
        var keyed = KeyFinder.WithKey(tune);
        keyed.Key.Should().Be(new Key(new PitchName(Letter.D)));
        keyed.Bars.Should().OnlyContain(bar => bar.Key == keyed.Key);
        keyed.Played().Select(note => note.Pitch).Should().Equal(tune.Played().Select(note => note.Pitch));
    }

    [Fact]
    public void Without_a_note_there_is_no_key()
    {
        var finding = () => KeyFinder.Of([]);
        finding.Should().Throw<ArgumentException>().WithMessage("*at least one*");
    }

    private (double Tonic, double Third, double Mode) Measure(string name, ImmutableArray<Tune> tunes)
    {
        var (tonics, thirds, modes) = (0, 0, 0);
        foreach (var tune in tunes)
        {
            var found = KeyFinder.Of(tune.Played());
            if (found.Tonic.PitchClass != tune.Key.Tonic.PitchClass)
                continue;
            tonics++;
            thirds += HarmonyRows.KeyOf(found.Mode) == HarmonyRows.KeyOf(tune.Key.Mode) ? 1 : 0;
            modes += found.Mode == tune.Key.Mode ? 1 : 0;
        }
        var all = (double)tunes.Length;
        output.WriteLine(
            $"{name}, {all} tunes: tonic {tonics / all:F3}, and third {thirds / all:F3}, and mode {modes / all:F3}"
        );
        return (tonics / all, thirds / all, modes / all);
    }

    private static Pitch Up(Pitch pitch, int semitones) =>
        Pitch.FromMidi(
            pitch.Midi + semitones,
            new Key(new PitchName(Letter.C)).Spell(pitch.Name.PitchClass + semitones)
        );

    private static Tune Read(string text) => AbcReader.Read(text, "t.abc").Tunes[0];
}
