using System.Security.Claims;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;
using Rollwright.Class.People;
using Rollwright.Web.Hosting.Sharing;
using Rollwright.Web.State.Sharing;

namespace Rollwright.Class.Tests;

/// <summary>A page that stays open: it is its member's, and ends when they are of the class no longer.</summary>
public class CircuitTests
{
    [Fact]
    public async Task An_open_page_ends_when_its_account_is_closed_and_when_its_password_is_another()
    {
        var clock = new MovableClock();
        await using var shared = await SharedClass.OpenAsync();
        var (_, ada) = await shared.Enter("Ada", Role.Teacher);
        var (_, ben) = await shared.Enter("Ben", Role.Pupil);
        var page = await Opened(shared, ben, clock);
        (await page.Touch()).Should().BeTrue();
        clock.Now += TimeSpan.FromMinutes(1);
        (await page.Touch()).Should().BeTrue("he is of the class still");

        await shared.Room.CloseAsync(ada, ben.Id, isClosed: true);
        clock.Now += TimeSpan.FromMinutes(1);
        (await page.Touch()).Should().BeFalse();
        (await page.Touch()).Should().BeFalse("and stays so");
        await shared.Room.CloseAsync(ada, ben.Id, isClosed: false);
        (await page.Touch()).Should().BeFalse("what he was signed in with is good no longer");

        var fresh = await Opened(shared, ben, clock);
        (await fresh.Touch()).Should().BeTrue();
        var path = $"/invitation/{(await shared.Room.NewPasswordAsync(ada, ben.Id)).Secret}";
        const string Password = "the gatepost has a wren";
        using (await shared.Nobody.Post(path, path, ("password", Password), ("again", Password))) { }
        clock.Now += TimeSpan.FromMinutes(1);
        (await fresh.Touch()).Should().BeFalse("whoever has the old password is out");
    }

    [Fact]
    public async Task A_page_that_nobody_is_signed_in_on_has_no_library()
    {
        await using var shared = await SharedClass.OpenAsync();
        var visit = new Visit(shared.Room, shared.Library);
        var ask = () => visit.Library;
        ask.Should().Throw<NotForYouException>();
        visit.Is(new(new ClaimsIdentity([new(ClaimTypes.Name, "Ada"), new(ClaimTypes.NameIdentifier, "1")])));
        ask.Should().Throw<NotForYouException>("a name that nobody vouched for is none");
        visit.Is(
            new(new ClaimsIdentity([new(ClaimTypes.Name, "Ada"), new(ClaimTypes.NameIdentifier, "1")], "a scheme"))
        );
        ask.Should().Throw<NotForYouException>("who has no role is no member");
    }

    private static async Task<Page> Opened(SharedClass shared, Person person, TimeProvider clock)
    {
        await using var context = shared.Room.Open();
        var stamp = (await context.Users.SingleAsync(row => row.Id == person.Id)).SecurityStamp!;
        var identity = new IdentityOptions();
        var user = new ClaimsPrincipal(
            new ClaimsIdentity(
                [
                    new(ClaimTypes.NameIdentifier, person.Id),
                    new(ClaimTypes.Name, person.Name),
                    new(ClaimTypes.Role, person.Role.Word()),
                    new(identity.ClaimsIdentity.SecurityStampClaimType, stamp),
                ],
                IdentityConstants.ApplicationScheme
            )
        );
        var circuit = new MemberCircuit(
            new Signed(user),
            new Visit(shared.Room, shared.Library),
            clock,
            Options.Create(identity)
        );
        await circuit.OnCircuitOpenedAsync(null!, CancellationToken.None);
        return new(circuit);
    }

    private sealed class Page(MemberCircuit circuit)
    {
        /// <summary>A key, a click: whether it arrives.</summary>
        public async Task<bool> Touch()
        {
            var arrived = false;
            try
            {
                await circuit.CreateInboundActivityHandler(_ =>
                {
                    arrived = true;
                    return Task.CompletedTask;
                })(null!);
            }
            catch (NotForYouException)
            {
                // The line is cut.
            }
            return arrived;
        }
    }

    private sealed class Signed(ClaimsPrincipal user) : AuthenticationStateProvider
    {
        public override Task<AuthenticationState> GetAuthenticationStateAsync() =>
            Task.FromResult(new AuthenticationState(user));
    }
}
