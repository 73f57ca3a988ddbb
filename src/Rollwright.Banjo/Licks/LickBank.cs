using System.Collections.Immutable;
using Rollwright.Banjo.Data;

namespace Rollwright.Banjo.Licks;

/// <summary>The licks at hand: those of the program, then a player's own. No name and no notes come twice.</summary>
public sealed class LickBank
{
    private readonly ImmutableDictionary<string, Lick> byName;
    private readonly ImmutableDictionary<string, Lick> byNotes;

    private LickBank(
        ImmutableArray<Lick> licks,
        ImmutableDictionary<string, Lick> byName,
        ImmutableDictionary<string, Lick> byNotes
    )
    {
        Licks = licks;
        this.byName = byName;
        this.byNotes = byNotes;
    }

    public static LickBank BuiltIn { get; } =
        new(
            LickTable.All,
            LickTable.All.ToImmutableDictionary(lick => lick.Name, StringComparer.OrdinalIgnoreCase),
            LickTable.All.ToImmutableDictionary(NotesOf, StringComparer.Ordinal)
        );

    public ImmutableArray<Lick> Licks { get; }

    /// <summary>A lick's number, counted from 1; built-in ones come first.</summary>
    public int NumberOf(Lick lick) => Licks.IndexOf(lick) + 1;

    /// <summary>The lick of that name, whatever its capitals, or of that number; null where there is none.</summary>
    public Lick? Find(string nameOrNumber) =>
        byName.TryGetValue(nameOrNumber.Trim(), out var named) ? named
        : int.TryParse(nameOrNumber, out var number) && number >= 1 && number <= Licks.Length ? Licks[number - 1]
        : null;

    /// <summary>What keeps a lick out: the rules of <see cref="LickRules"/>, and licks that are there already.</summary>
    public ImmutableArray<LickFault> Faults(Lick lick)
    {
        var faults = LickRules.Find(lick).ToBuilder();
        // A number names a lick by its place; a bar parts cells, and a sharp behind a blank begins a comment.
        if (!lick.Name.Any(char.IsLetter) || lick.Name.Any(c => c is '|' or '#' || char.IsControl(c)))
            faults.Add(new("name", $"'{lick.Name}' cannot be a name", "use letters, without | and #"));
        if (byName.TryGetValue(lick.Name, out var named))
            faults.Add(new("same-name", $"a lick is called '{named.Name}' already", "give it another name"));
        if (byNotes.TryGetValue(NotesOf(lick), out var same))
            faults.Add(new("same-notes", $"'{same.Name}' has the same notes", "use that one, or change a note"));
        return faults.ToImmutable();
    }

    /// <summary>The bank with one more lick, which must have no faults.</summary>
    public LickBank With(Lick lick) =>
        new(Licks.Add(lick), byName.Add(lick.Name, lick), byNotes.Add(NotesOf(lick), lick));

    /// <summary>Adds the licks of a player's file; a wrong line costs no other.</summary>
    /// <param name="file">The name that faults carry.</param>
    /// <param name="text">All of the file.</param>
    public (LickBank Bank, ImmutableArray<DataException> Faults) Read(string file, string text)
    {
        var table = DataTable.ParseAll(file, text, LickRow.Needed);
        var faults = table.Faults.ToBuilder();
        var bank = this;
        foreach (var row in table.Rows)
        {
            try
            {
                var lick = LickRow.Read(row);
                if (bank.Faults(lick) is [var fault, ..])
                    throw row.Wrong(fault.Rule is "same-name" ? "name" : "tab", $"{lick.Name}: {fault}");
                bank = bank.With(lick);
            }
            catch (DataException fault)
            {
                faults.Add(fault);
            }
        }
        faults.Sort((a, b) => a.Line.CompareTo(b.Line));
        return (bank, faults.ToImmutable());
    }

    // Strings, frets and slurs in their tuning; fingers, and rests at the end, make no other lick.
    private static string NotesOf(Lick lick) =>
        lick.Tuning.Id
        + ": "
        + string.Join(
            ' ',
            lick.Steps.Take(lick.SoundingLength)
                .Select(step =>
                    string.Join('+', step.Plucks.Select(note => $"{note.String}.{note.Fret}"))
                    + (step.Slur is { } slur ? $"={slur.Fret}" : "")
                    + (step.HalfSlur is { } half ? $">{half.Fret}" : "")
                )
        );
}
