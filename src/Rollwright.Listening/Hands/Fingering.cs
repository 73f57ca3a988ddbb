using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Hands;

/// <summary>Where hands play the notes heard.</summary>
internal static class Fingering
{
    public static IEnumerable<HeardNote> Find(List<HeardNote> notes) => notes;
}
