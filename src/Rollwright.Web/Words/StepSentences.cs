using Rollwright.Arranging;
using Rollwright.Arranging.Reasons;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Web.Words;

/// <summary>Why a step is as it is, in sentences.</summary>
public static class StepSentences
{
    /// <summary>"T on string 3, open", with a capital.</summary>
    public static string Done(StepReason reason) => PlaceWords.Capital(StepWords.Of(reason.Done));

    /// <summary>What the step does for the tune: "It is the tune's note, G."</summary>
    public static string Tune(Arrangement made, StepReason reason)
    {
        var place = made.Grid.Steps[reason.Step];
        var position = made.Break.Setting.Position;
        if (place.Onset is { } key)
        {
            var name = position.Spell(key % 12);
            var tuning = made.Break.Setting.Tuning;
            if (reason.Done.Sounds(key, tuning))
                return $"It is the tune's note, {name}.";
            return SoundsOctaveOf(key, reason, tuning)
                ? $"It is the tune's note, {name}, an octave off."
                : $"The tune's note, {name}, is left out here.";
        }
        return reason.Done.Sound == 0 ? "The tune has no note here, and the hands rest."
            : place.Sounding is { } rings ? $"It fills the time while the tune's {position.Spell(rings % 12)} rings."
            : "It fills the time where the tune rests.";
    }

    /// <summary>"It belongs to the lick …"; empty where it does not.</summary>
    public static string Lick(StepReason reason) =>
        reason.Lick is not { } within ? ""
        : within.Step == reason.Step ? $"With it the lick “{within.Lick.Name}” begins; its price stands here."
        : $"It belongs to the lick “{within.Lick.Name}”; its price stands at its first step.";

    private static bool SoundsOctaveOf(int key, StepReason reason, Tuning tuning)
    {
        for (var other = key % 12; other < 128; other += 12)
        {
            if (other != key && reason.Done.Sounds(other, tuning))
                return true;
        }
        return false;
    }
}
