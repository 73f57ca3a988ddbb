namespace Rollwright.Class.People;

/// <summary>What a member of a class is.</summary>
public enum Role
{
    /// <summary>Sees their own things and what is published.</summary>
    Pupil,

    /// <summary>Invites, publishes, sets practice, hears takes, sees progress.</summary>
    Teacher,
}

/// <summary>Roles as claims and options say them.</summary>
public static class RoleWords
{
    public const string Teacher = "teacher";
    public const string Pupil = "pupil";

    public static string Word(this Role role) => role == Role.Teacher ? Teacher : Pupil;

    /// <summary>Null for a word that is no role.</summary>
    public static Role? Read(string? word) =>
        word switch
        {
            Teacher => Role.Teacher,
            Pupil => Role.Pupil,
            _ => null,
        };
}
