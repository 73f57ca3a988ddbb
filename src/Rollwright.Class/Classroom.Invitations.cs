using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Rollwright.Class.People;
using Rollwright.Class.Storage;

namespace Rollwright.Class;

// Invitations: the only way in. Nobody is there by default.
public sealed partial class Classroom
{
    /// <summary>How long a link is good. An assumption: a pupil is met once a week.</summary>
    public static readonly TimeSpan InvitationLasts = TimeSpan.FromDays(14);

    /// <summary>Makes a link that is good once.</summary>
    /// <param name="by">A teacher; null for the command line, which is the house's own: the first teacher comes that way.</param>
    /// <param name="name">For whom: the name that they will sign in with, 1 to 60 characters.</param>
    /// <param name="role">As what.</param>
    /// <exception cref="ClassException">The name is none, or a member has it.</exception>
    public Task<MadeInvitation> InviteAsync(Person? by, string name, Role role)
    {
        by?.MustTeach();
        var plain = string.Join(' ', (name ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
            .Normalize();
        if (plain.Length is 0 or > 60 || plain.Any(char.IsControl))
            throw new ClassException("a name has 1 to 60 characters");
        return Change(async context =>
        {
            var folded = plain.ToUpperInvariant();
            if (await context.Users.AnyAsync(row => row.NormalizedUserName == folded))
                throw new ClassException($"'{plain}' is of the class already; choose another name");
            return Invite(context, plain, role, null);
        });
    }

    /// <summary>Makes a link by which a member chooses a new password. For teachers, and the command line.</summary>
    public Task<MadeInvitation> NewPasswordAsync(Person? by, string member)
    {
        by?.MustTeach();
        return Change(async context =>
        {
            var row =
                await context.Users.SingleOrDefaultAsync(row => row.Id == member && row.ClosedAt == null)
                ?? throw new NotForYouException();
            return Invite(context, row.UserName!, row.Role, row.Id);
        });
    }

    /// <summary>The invitation of a link; null where there is none, or it was used, or is too old.</summary>
    public Task<OpenInvitation?> InvitationAsync(string secret)
    {
        var digest = Secret.DigestOf(secret);
        var now = clock.GetUtcNow();
        return Ask(async context =>
            await context.Invitations.AsNoTracking().SingleOrDefaultAsync(row => row.Digest == digest)
                is { UsedAt: null } row
            && row.EndsAt > now
                ? new OpenInvitation(row.Id, row.Name, row.Role, row.Member, row.EndsAt)
                : null
        );
    }

    /// <summary>Takes an invitation up: a new member, or a new password for one that is there. It is good once.</summary>
    /// <param name="context">The one that <paramref name="users"/> works on, so that both are one change.</param>
    /// <param name="users">Of ASP.NET Core Identity; its rules for passwords hold.</param>
    /// <param name="secret">What stands in the link.</param>
    /// <param name="password">What the person chose.</param>
    /// <exception cref="ClassException">The link is good no longer, or the password is not taken: nothing is changed.</exception>
    public Task<Member> AcceptAsync(ClassContext context, UserManager<Member> users, string secret, string password)
    {
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(users);
        return library.ToldAsync(async () =>
        {
            await using var transaction = await context.Database.BeginTransactionAsync();
            var (digest, now) = (Secret.DigestOf(secret), clock.GetUtcNow());
            // The row says who comes first, also of two servers.
            var taken = await context
                .Invitations.Where(row => row.Digest == digest && row.UsedAt == null && row.EndsAt > now)
                .ExecuteUpdateAsync(set => set.SetProperty(row => row.UsedAt, now));
            if (taken == 0)
                throw new ClassException("this link was used, or is too old; ask for a new one");
            var invitation = await context.Invitations.AsNoTracking().SingleAsync(row => row.Digest == digest);
            var member = invitation.Member is { } id ? await users.FindByIdAsync(id) : null;
            var done = member is null
                ? await users.CreateAsync(
                    member = new()
                    {
                        UserName = invitation.Name,
                        Role = invitation.Role,
                        JoinedAt = now,
                        LockoutEnabled = true,
                    },
                    password
                )
                : await Renew(users, member, password);
            if (!done.Succeeded)
                throw new ClassException(string.Join(' ', done.Errors.Select(error => error.Description)));
            await transaction.CommitAsync();
            return member;
        });
    }

    private static async Task<IdentityResult> Renew(UserManager<Member> users, Member member, string password)
    {
        var removed = await users.RemovePasswordAsync(member);
        var added = removed.Succeeded ? await users.AddPasswordAsync(member, password) : removed;
        // Whoever chose a new password has not forgotten it: the lock of wrong ones is off.
        return added.Succeeded ? await users.SetLockoutEndDateAsync(member, null) : added;
    }

    private MadeInvitation Invite(ClassContext context, string name, Role role, string? member)
    {
        var (secret, now) = (Secret.Draw(), clock.GetUtcNow());
        context.Invitations.Add(
            new()
            {
                Id = Guid.CreateVersion7(now),
                Digest = Secret.DigestOf(secret),
                Name = name,
                Role = role,
                Member = member,
                MadeAt = now,
                EndsAt = now + InvitationLasts,
            }
        );
        return new(secret, now + InvitationLasts);
    }
}
