using System.Collections.Frozen;
using Rollwright.Banjo.Data;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Banjo.Strokes;

/// <summary>The usual slurs of <c>data/slurs.txt</c>.</summary>
public static class SlurTable
{
    private static readonly Lazy<FrozenSet<UsualSlur>> BuiltIn = new(() =>
        Parse("slurs.txt", BuiltInData.Text("slurs.txt"))
    );

    /// <param name="Kind">Slide, hammer-on, pull-off.</param>
    /// <param name="String">1 to 4.</param>
    /// <param name="From">The fret that sounds before.</param>
    /// <param name="To">The fret that sounds then.</param>
    public readonly record struct UsualSlur(SlurKind Kind, int String, int From, int To);

    public static FrozenSet<UsualSlur> All => BuiltIn.Value;

    /// <exception cref="DataException">A row is wrong.</exception>
    public static FrozenSet<UsualSlur> Parse(string file, string text)
    {
        var slurs = new HashSet<UsualSlur>();
        foreach (var row in DataTable.Parse(file, text, "kind", "string", "from", "to", "source").Rows)
        {
            SlurKind[] kinds = [.. Kinds.Where(kind => SlurNames.Word(kind) == row["kind"])];
            if (kinds is not [var named])
                throw row.Wrong($"'{row["kind"]}' is none of slide, hammer-on, pull-off");
            int[] strings = row["string"] == "*" ? [1, 2, 3, 4] : [row.Whole("string")];
            var (from, to) = (row.Whole("from"), row.Whole("to"));
            if (strings[0] is < 1 or > 4 || !Neck.HasFret(1, from) || !Neck.HasFret(1, to))
                throw row.Wrong("a slur is on string 1 to 4, or * for all, between frets of the neck");
            foreach (var s in strings)
                slurs.Add(new(named, s, from, to));
        }
        return slurs.ToFrozenSet();
    }

    private static readonly SlurKind[] Kinds = [SlurKind.Slide, SlurKind.HammerOn, SlurKind.PullOff];
}
