using System.Security.Claims;
using Rollwright.Class;
using Rollwright.Class.People;
using Rollwright.Library;

namespace Rollwright.Web.State.Sharing;

/// <summary>
/// Whose page or request this is. Without a class it is the one person's, and the library is as it was given; with one, nothing is
/// had of it before it is said who is there.
/// </summary>
/// <param name="room">The class; null where one person has the workbench to themselves.</param>
/// <param name="library">Where the work is kept; null keeps nothing.</param>
public sealed class Visit(Classroom? room, TuneLibrary? library)
{
    /// <summary>The class; null where there is none.</summary>
    public Classroom? Room => room;

    /// <summary>Who is there; null where there is no class, or nobody signed in.</summary>
    public Person? Person { get; private set; }

    /// <exception cref="NotForYouException">Nobody is signed in.</exception>
    public Person Someone => Person ?? throw new NotForYouException();

    /// <summary>What this person keeps; null keeps nothing.</summary>
    public TuneLibrary? Library => room is null ? library : room.LibraryOf(Someone);

    /// <summary>It is this user's, from now on.</summary>
    public void Is(ClaimsPrincipal user) => Person = PersonOf(user);

    /// <summary>Null for whoever is not signed in as a member.</summary>
    public static Person? PersonOf(ClaimsPrincipal user)
    {
        ArgumentNullException.ThrowIfNull(user);
        return
            user.Identity is { IsAuthenticated: true, Name: { } name }
            && user.FindFirstValue(ClaimTypes.NameIdentifier) is { } id
            && RoleWords.Read(user.FindFirstValue(ClaimTypes.Role)) is { } role
            ? new(id, name, role)
            : null;
    }
}
