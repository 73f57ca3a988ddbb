using Microsoft.EntityFrameworkCore;
using Rollwright.Class.People;

namespace Rollwright.Class;

// Members: who is of the class.
public sealed partial class Classroom
{
    /// <summary>All, teachers first, then by name. For teachers.</summary>
    public Task<IReadOnlyList<MemberLine>> MembersAsync(Person by)
    {
        ArgumentNullException.ThrowIfNull(by);
        by.MustTeach();
        return Ask<IReadOnlyList<MemberLine>>(async context =>
            [
                .. (
                    await context
                        .Users.AsNoTracking()
                        .OrderByDescending(row => row.Role)
                        .ThenBy(row => row.NormalizedUserName)
                        .ToListAsync()
                ).Select(LineOf),
            ]
        );
    }

    /// <summary>By their name, for the command line, which is the house's own; null where there is none.</summary>
    public Task<MemberLine?> FindMemberAsync(string name) =>
        Ask(async context =>
        {
            var folded = name.Trim().ToUpperInvariant();
            return
                await context.Users.AsNoTracking().SingleOrDefaultAsync(row => row.NormalizedUserName == folded)
                    is { } row
                ? LineOf(row)
                : null;
        });

    /// <summary>
    /// Closes a member's account, or opens it again. Their pages end within a minute; what they have stays. For teachers, who
    /// cannot close their own: the last teacher would shut everybody out.
    /// </summary>
    public Task CloseAsync(Person by, string member, bool isClosed)
    {
        ArgumentNullException.ThrowIfNull(by);
        by.MustTeach();
        if (member == by.Id)
            throw new NotForYouException();
        return Change(async context =>
        {
            var row =
                await context.Users.SingleOrDefaultAsync(row => row.Id == member) ?? throw new NotForYouException();
            row.ClosedAt = isClosed ? clock.GetUtcNow() : null;
            // What they are signed in with is good no longer.
            row.SecurityStamp = Secret.Draw();
            return true;
        });
    }

    /// <summary>
    /// Whether a person is of the class still, as what they say and with the stamp that their sign-in carries: it changes with
    /// the password, and when the account is closed.
    /// </summary>
    public Task<bool> IsOfTheClassAsync(Person person, string stamp) =>
        Ask(context =>
            context.Users.AnyAsync(row =>
                row.Id == person.Id && row.Role == person.Role && row.ClosedAt == null && row.SecurityStamp == stamp
            )
        );

    private static MemberLine LineOf(Member row) =>
        new(row.Id, row.UserName!, row.Role, row.JoinedAt, row.ClosedAt is not null);
}
