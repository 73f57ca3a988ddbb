using Rollwright.Arranging;
using Rollwright.Arranging.Backup;
using Version = Rollwright.Arranging.Variations.Version;

namespace Rollwright.Web.State;

/// <summary>What may be played instead of the break: another version of it, or a part behind someone else.</summary>
public abstract record Instead
{
    /// <summary>"up the neck", "a vamp behind someone else".</summary>
    public abstract string Words { get; }

    /// <summary>Made from a break; with the share of the steps that sound otherwise where it is a version.</summary>
    /// <exception cref="ArrangeException">It cannot be played so.</exception>
    public abstract (Arrangement Made, double? Differs) MakeOf(Arrangement made, int level);
}

/// <summary>A version of a kind; the second differs from the break and the first, and so on.</summary>
/// <param name="Name">As the data has it: "up-the-neck".</param>
/// <param name="Nth">From 1.</param>
public sealed record OtherVersion(string Name, int Nth = 1) : Instead
{
    /// <summary>Versions are counted up to this: each costs as much time as all before it.</summary>
    public const int Most = 6;

    public override string Words => Nth == 1 ? NameOf(Name) : $"{NameOf(Name)}, the {Ordinals[Nth - 1]}";

    public static string NameOf(string version) => version.Replace('-', ' ');

    public override (Arrangement Made, double? Differs) MakeOf(Arrangement made, int level)
    {
        var (version, share) = made.Versions(Version.Find(Name)!, Nth)[^1];
        return share > 0
            ? (version, share)
            : throw new ArrangeException(
                $"There is no other way to play it {NameOf(Name)}; choose another kind of version, or take locks off."
            );
    }

    private static readonly string[] Ordinals = ["first", "second", "third", "fourth", "fifth", "sixth"];
}

/// <summary>A part to play behind someone who plays or sings the tune.</summary>
public sealed record BehindSomeone(BackupKind Kind) : Instead
{
    public override string Words =>
        Kind == BackupKind.Vamp ? "a vamp behind someone else" : "rolls behind someone else";

    public override (Arrangement Made, double? Differs) MakeOf(Arrangement made, int level) =>
        (made.BackupPart(Kind, level), null);
}
