using Rollwright.Banjo.Data;

namespace Rollwright.Web.State.Jobs;

/// <summary>How long the line of heavy work may get, and how much of it is under way at once.</summary>
/// <param name="Places">Long jobs under way at once; one short job has a place besides.</param>
/// <param name="Line">Jobs that wait at most.</param>
/// <param name="Person">Jobs of one person that wait at most.</param>
public sealed record JobBounds(int Places, int Line, int Person)
{
    /// <summary>Of this machine, by <c>data/job-line.txt</c>.</summary>
    public static JobBounds Usual { get; } = Read(BuiltInData.Text("job-line.txt"), Environment.ProcessorCount);

    internal static JobBounds Read(string text, int cores)
    {
        var values = DataTable
            .Parse("job-line.txt", text, "name", "value", "unit", "meaning")
            .Rows.ToDictionary(row => row["name"], row => row.Whole("value"), StringComparer.Ordinal);
        return new(Math.Max(1, cores - values["spare"]), values["line"], values["person"]);
    }
}
