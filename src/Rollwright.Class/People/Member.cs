using Microsoft.AspNetCore.Identity;

namespace Rollwright.Class.People;

/// <summary>An account of the class. Its id is the name under which the library keeps what is theirs.</summary>
public sealed class Member : IdentityUser
{
    public Role Role { get; set; }

    public DateTimeOffset JoinedAt { get; set; }

    /// <summary>No longer of the class: cannot sign in, and what they have stays. Lock-out after wrong passwords is another thing.</summary>
    public DateTimeOffset? ClosedAt { get; set; }
}
