using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Lessons.Practice;

namespace Rollwright.Web.State;

/// <summary>
/// Keeps it as long as the page is open. Breaks of one title and length are the same piece: a changed note does not make
/// what was practised undone.
/// </summary>
public sealed class VisitLog : IPracticeLog
{
    private readonly Dictionary<(string Title, int Bars), ImmutableArray<PracticeRecord>> kept = [];

    public string Words => "It is kept until you close this page.";

    public Task<ImmutableArray<PracticeRecord>> ReadAsync(Break played) =>
        Task.FromResult(kept.GetValueOrDefault(PieceOf(played), []));

    public Task AddAsync(Break played, PracticeRecord more)
    {
        ArgumentNullException.ThrowIfNull(more);
        var piece = PieceOf(played);
        var records = kept.GetValueOrDefault(piece, []);
        var there = records.FirstOrDefault(record => (record.Day, record.Phrase) == (more.Day, more.Phrase));
        kept[piece] = there is null ? records.Add(more) : records.Replace(there, there.With(more));
        return Task.CompletedTask;
    }

    private static (string Title, int Bars) PieceOf(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        return (played.Title, played.Order.Length);
    }
}
