using System.Security.Claims;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Server.Circuits;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using Rollwright.Class.People;
using Rollwright.Library;
using Rollwright.Web.State.Sharing;

namespace Rollwright.Web.Hosting.Sharing;

/// <summary>
/// A page that is open knows whose it is from its first moment, and asks again while it is used: it may stay open for weeks after
/// an account was closed or a password changed.
/// </summary>
internal sealed class MemberCircuit(
    AuthenticationStateProvider state,
    Visit visit,
    TimeProvider clock,
    IOptions<IdentityOptions> identity
) : CircuitHandler
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(30);

    private string stamp = "";
    private DateTimeOffset askAgain;

    public override async Task OnCircuitOpenedAsync(Circuit circuit, CancellationToken cancellationToken)
    {
        var user = (await state.GetAuthenticationStateAsync()).User;
        visit.Is(user);
        stamp = user.FindFirstValue(identity.Value.ClaimsIdentity.SecurityStampClaimType) ?? "";
    }

    public override Func<CircuitInboundActivityContext, Task> CreateInboundActivityHandler(
        Func<CircuitInboundActivityContext, Task> next
    ) =>
        async context =>
        {
            if (!await IsStillOfTheClass())
                throw new NotForYouException();
            await next(context);
        };

    private async Task<bool> IsStillOfTheClass()
    {
        var now = clock.GetUtcNow();
        if (now < askAgain)
            return true;
        try
        {
            var isOf = await visit.Room!.IsOfTheClassAsync(visit.Someone, stamp);
            askAgain = isOf ? now + Every : now;
            return isOf;
        }
        catch (LibraryException)
        {
            // The database does not answer: the page goes on with what it has, and nothing more can be had of it meanwhile.
            return true;
        }
    }
}
