using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Rollwright.Class;
using Rollwright.Class.People;
using Rollwright.Class.Storage;
using Rollwright.Web.Pages.Sharing;

namespace Rollwright.Web.Hosting.Sharing;

/// <summary>The door: /sign-in, /sign-out, and /invitation/{secret}, the only way to become a member.</summary>
internal static class DoorEndpoints
{
    /// <summary>The rate limit of the door.</summary>
    public const string Limit = "door";

    // Somebody who is not there, or is locked out, takes as long as somebody who is: the time says nothing of who is of the class.
    private static readonly string NobodysHash = new PasswordHasher<Member>().HashPassword(new(), "nobody's");

    public static void MapDoor(this IEndpointRouteBuilder routes)
    {
        routes
            .MapGet("/sign-in", (string? to) => Page<SignInPage>(new { To = Within(to), Wrong = false }))
            .AllowAnonymous();
        routes.MapPost("/sign-in", In).AllowAnonymous().RequireRateLimiting(Limit);
        routes.MapPost("/sign-out", Out);
        routes.MapGet("/invitation/{secret}", Invited).AllowAnonymous().RequireRateLimiting(Limit);
        routes.MapPost("/invitation/{secret}", Accept).AllowAnonymous().RequireRateLimiting(Limit);
    }

    private static async Task<IResult> In(
        [FromForm] string? name,
        [FromForm] string? password,
        [FromForm] string? stay,
        [FromForm] string? to,
        SignInManager<Member> door,
        UserManager<Member> users,
        IPasswordHasher<Member> hasher
    )
    {
        if (password is { Length: > 0 and <= SignIn.MostCharacters } said)
        {
            var member = await users.FindByNameAsync((name ?? "").Trim());
            if (member is null or { ClosedAt: not null } || await users.IsLockedOutAsync(member))
                hasher.VerifyHashedPassword(new(), NobodysHash, said);
            else if ((await door.PasswordSignInAsync(member, said, stay is not null, lockoutOnFailure: true)).Succeeded)
                return Results.LocalRedirect(Within(to));
        }
        return Page<SignInPage>(new { To = Within(to), Wrong = true }, StatusCodes.Status401Unauthorized);
    }

    // The form is bound so that its token is asked for.
    private static async Task<IResult> Out([FromForm] string? from, HttpContext context)
    {
        await context.SignOutAsync(IdentityConstants.ApplicationScheme);
        return Results.LocalRedirect("/sign-in");
    }

    private static async Task<IResult> Invited(string secret, Classroom room) =>
        await room.InvitationAsync(secret) is { } invitation
            ? Page<InvitationPage>(new { Invitation = invitation, Trouble = "" })
            : Page<NoInvitationPage>(new { }, StatusCodes.Status404NotFound);

    private static async Task<IResult> Accept(
        string secret,
        [FromForm] string? password,
        [FromForm] string? again,
        Classroom room,
        ClassContext context,
        UserManager<Member> users,
        SignInManager<Member> door
    )
    {
        if (await room.InvitationAsync(secret) is not { } invitation)
            return Page<NoInvitationPage>(new { }, StatusCodes.Status404NotFound);
        if (password != again)
            return Again("the two passwords differ; type the same in both boxes");
        if (password is not { Length: >= SignIn.FewestCharacters and <= SignIn.MostCharacters })
            return Again($"a password has {SignIn.FewestCharacters} to {SignIn.MostCharacters} characters");
        try
        {
            var member = await room.AcceptAsync(context, users, secret, password);
            await door.SignInAsync(member, isPersistent: false);
            return Results.LocalRedirect("/class");
        }
        catch (ClassException no)
        {
            return Again(no.Message);
        }

        IResult Again(string trouble) =>
            Page<InvitationPage>(
                new { Invitation = invitation, Trouble = trouble },
                StatusCodes.Status422UnprocessableEntity
            );
    }

    /// <summary>A page without a script, drawn once.</summary>
    public static IResult Page<T>(object parameters, int status = StatusCodes.Status200OK)
        where T : Microsoft.AspNetCore.Components.IComponent =>
        new RazorComponentResult<T>(parameters) { StatusCode = status };

    // Never to another's address, whatever a link says.
    private static string Within(string? to) =>
        to is ['/', ..]
        && !to.StartsWith("//", StringComparison.Ordinal)
        && !to.StartsWith("/\\", StringComparison.Ordinal)
            ? to
            : "/class";
}
