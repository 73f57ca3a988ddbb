using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Lessons.Practice;

namespace Rollwright.Web.State;

/// <summary>What a person has practised of breaks, day by day and phrase by phrase.</summary>
public interface IPracticeLog
{
    /// <summary>Says how long it is kept, in a sentence.</summary>
    string Words { get; }

    /// <summary>What was practised of a break, in order of days.</summary>
    Task<ImmutableArray<PracticeRecord>> ReadAsync(Break played);

    /// <summary>Adds to what is kept of that day and phrase.</summary>
    Task AddAsync(Break played, PracticeRecord more);
}
