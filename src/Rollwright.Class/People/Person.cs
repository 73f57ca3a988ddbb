namespace Rollwright.Class.People;

/// <summary>Who asks.</summary>
/// <param name="Id">The member's.</param>
/// <param name="Name">As they sign in.</param>
/// <param name="Role">What they may.</param>
public sealed record Person(string Id, string Name, Role Role)
{
    public bool IsTeacher => Role == Role.Teacher;

    /// <exception cref="NotForYouException">They are no teacher.</exception>
    internal void MustTeach()
    {
        if (!IsTeacher)
            throw new NotForYouException();
    }
}

/// <summary>Somebody asked for what is not theirs. Whether it is there is not said.</summary>
public sealed class NotForYouException() : Exception("That is not for you, or is not there.");

/// <summary>A member as the class sees them.</summary>
/// <param name="Id">For ever.</param>
/// <param name="Name">As they sign in.</param>
/// <param name="Role">What they may.</param>
/// <param name="JoinedAt">When they took up their invitation.</param>
/// <param name="IsClosed">No longer of the class.</param>
public sealed record MemberLine(string Id, string Name, Role Role, DateTimeOffset JoinedAt, bool IsClosed);

/// <summary>A link that lets somebody in, or lets a member choose a new password; shown once, kept only as a digest.</summary>
/// <param name="Secret">What stands in the link: letters, digits, '-' and '_'.</param>
/// <param name="EndsAt">It is good until then.</param>
public sealed record MadeInvitation(string Secret, DateTimeOffset EndsAt);

/// <summary>An invitation that is open.</summary>
/// <param name="Id">For ever.</param>
/// <param name="Name">For whom.</param>
/// <param name="Role">As what.</param>
/// <param name="Member">Whose new password it is for; null where it makes a member.</param>
/// <param name="EndsAt">It is good until then.</param>
public sealed record OpenInvitation(Guid Id, string Name, Role Role, string? Member, DateTimeOffset EndsAt);
