using System.Security.Claims;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;
using Rollwright.Class.People;

namespace Rollwright.Web.Hosting.Sharing;

/// <summary>Signing in, by ASP.NET Core Identity: what it asks of passwords, how long a sign-in is good, and who may what.</summary>
internal static class SignIn
{
    /// <summary>The policy of what only teachers may.</summary>
    public const string Teachers = RoleWords.Teacher;

    /// <summary>
    /// Fifteen characters and no other rule, as NIST SP 800-63B-4 asks of passwords that stand alone; a longer text than any
    /// person types costs time to check.
    /// </summary>
    public const int FewestCharacters = 15;
    public const int MostCharacters = 256;

    /// <summary>Wrong passwords one after the other that lock an account, and for how long.</summary>
    public const int Tries = 5;
    public static readonly TimeSpan LockedFor = TimeSpan.FromMinutes(15);

    public static void AddSignIn(this IServiceCollection services, ClassServing serving)
    {
        services.AddScoped(_ => serving.Room.Open());
        // In the database, so that servers beside each other know each other's sign-ins.
        services
            .AddDataProtection()
            .SetApplicationName("rollwright-class")
            .PersistKeysToDbContext<Rollwright.Class.Storage.ClassContext>();
        services
            .AddIdentityCore<Member>(identity =>
            {
                identity.Password.RequiredLength = FewestCharacters;
                identity.Password.RequireDigit = false;
                identity.Password.RequireLowercase = false;
                identity.Password.RequireUppercase = false;
                identity.Password.RequireNonAlphanumeric = false;
                identity.Lockout.MaxFailedAccessAttempts = Tries;
                identity.Lockout.DefaultLockoutTimeSpan = LockedFor;
                // Names of people, in whatever letters.
                identity.User.AllowedUserNameCharacters = "";
            })
            .AddEntityFrameworkStores<Rollwright.Class.Storage.ClassContext>()
            .AddSignInManager()
            .AddClaimsPrincipalFactory<MemberClaims>();
        services.Configure<SecurityStampValidatorOptions>(stamp => stamp.ValidationInterval = TimeSpan.FromMinutes(1));
        services
            .AddAuthentication(IdentityConstants.ApplicationScheme)
            .AddCookie(IdentityConstants.ApplicationScheme, cookie => Keep(cookie, serving));
        services.Configure<AntiforgeryOptions>(form =>
        {
            form.Cookie.Name = "rollwright-form";
            form.Cookie.SecurePolicy = PolicyOf(serving);
        });
        services
            .AddAuthorizationBuilder()
            .AddPolicy(Teachers, policy => policy.RequireAuthenticatedUser().RequireRole(RoleWords.Teacher))
            // What says nothing of itself is for members only, whatever it is: also what is not there.
            .SetFallbackPolicy(
                new AuthorizationPolicyBuilder()
                    .RequireAuthenticatedUser()
                    .RequireRole(RoleWords.Teacher, RoleWords.Pupil)
                    .Build()
            );
    }

    private static void Keep(CookieAuthenticationOptions cookie, ClassServing serving)
    {
        cookie.Cookie.Name = "rollwright";
        cookie.Cookie.HttpOnly = true;
        cookie.Cookie.SameSite = SameSiteMode.Lax;
        cookie.Cookie.SecurePolicy = PolicyOf(serving);
        cookie.ExpireTimeSpan = TimeSpan.FromDays(14);
        cookie.LoginPath = "/sign-in";
        cookie.ReturnUrlParameter = "to";
        cookie.Events.OnValidatePrincipal = SecurityStampValidator.ValidatePrincipalAsync;
        cookie.Events.OnRedirectToLogin = context =>
        {
            // A person is led to the sign-in; a script, a socket, a form are told no.
            if (HttpMethods.IsGet(context.Request.Method) && WantsPage(context.Request))
                context.Response.Redirect(context.RedirectUri);
            else
                context.Response.StatusCode = StatusCodes.Status401Unauthorized;
            return Task.CompletedTask;
        };
        cookie.Events.OnRedirectToAccessDenied = context =>
        {
            context.Response.StatusCode = StatusCodes.Status403Forbidden;
            return context.Response.WriteAsync("That is not for you, or is not there.");
        };
    }

    private static bool WantsPage(HttpRequest request) =>
        request.Headers.Accept.ToString().Contains("text/html", StringComparison.OrdinalIgnoreCase);

    private static CookieSecurePolicy PolicyOf(ClassServing serving) =>
        serving.IsBehindTls ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;

    /// <summary>A member's role goes with their sign-in.</summary>
    private sealed class MemberClaims(UserManager<Member> users, IOptions<IdentityOptions> options)
        : UserClaimsPrincipalFactory<Member>(users, options)
    {
        protected override async Task<ClaimsIdentity> GenerateClaimsAsync(Member user)
        {
            var claims = await base.GenerateClaimsAsync(user);
            claims.AddClaim(new(ClaimTypes.Role, user.Role.Word()));
            return claims;
        }
    }
}
