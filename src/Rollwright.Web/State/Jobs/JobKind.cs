using System.Collections.Immutable;
using Rollwright.Banjo.Data;

namespace Rollwright.Web.State.Jobs;

/// <summary>A kind of heavy work, with its bounds: a row of <c>data/jobs.txt</c>, which says what each column means.</summary>
/// <param name="Words">What is under way: "arranging".</param>
/// <param name="IsLong">It leaves room for those that are short.</param>
/// <param name="Time">What takes longer is broken off.</param>
/// <param name="Most">What is larger is refused, in <paramref name="Unit"/>.</param>
/// <param name="Unit">Of sizes, in the plural.</param>
/// <param name="AtOnce">Up to this size it is no heavy work.</param>
/// <param name="Remedy">What to do where it is too large or takes too long.</param>
public sealed record JobKind(
    string Words,
    bool IsLong,
    TimeSpan Time,
    long Most,
    string Unit,
    long AtOnce,
    string Remedy
)
{
    private static readonly ImmutableDictionary<string, JobKind> All = Parse("jobs.txt", BuiltInData.Text("jobs.txt"));

    /// <summary>The tunes of a text.</summary>
    public static JobKind Reading { get; } = All["reading"];

    public static JobKind Arranging { get; } = All["arranging"];

    public static JobKind Lesson { get; } = All["lesson"];

    /// <summary>A break in a form that does not sound.</summary>
    public static JobKind File { get; } = All["file"];

    /// <summary>A recording that a page has sent.</summary>
    public static JobKind Recording { get; } = All["recording"];

    public static JobKind Advice { get; } = All["advice"];

    public static JobKind Versions { get; } = All["versions"];

    public static JobKind Sound { get; } = All["sound"];

    public static JobKind Documents { get; } = All["documents"];

    public static JobKind Listening { get; } = All["listening"];

    /// <summary>Kinds by name.</summary>
    /// <exception cref="DataException">A row is wrong.</exception>
    internal static ImmutableDictionary<string, JobKind> Parse(string file, string text) =>
        DataTable
            .Parse(file, text, "kind", "words", "length", "seconds", "most", "unit", "at-once", "remedy")
            .Rows.ToImmutableDictionary(row => row["kind"], Of);

    /// <exception cref="JobException">A job of this size is too large.</exception>
    public void Bound(long size)
    {
        if (size > Most)
            throw new JobException($"{Words}: {size} {Unit} are more than the server takes ({Most})", Remedy);
    }

    private static JobKind Of(DataTable.Row row) =>
        new(
            row["words"],
            row["length"] switch
            {
                "long" => true,
                "short" => false,
                _ => throw row.Wrong("length", "a job is long or short"),
            },
            TimeSpan.FromSeconds(Positive(row, "seconds")),
            Positive(row, "most"),
            row["unit"],
            row.Whole("at-once"),
            row["remedy"]
        );

    private static int Positive(DataTable.Row row, string column) =>
        row.Whole(column) is > 0 and var value ? value : throw row.Wrong(column, $"{column} is at least 1");
}
