using Microsoft.Playwright;
using Rollwright.Class;
using Rollwright.Class.People;

namespace Rollwright.EndToEnd.Sharing;

/// <summary>How a member comes into a class in a browser.</summary>
internal static class ClassDoor
{
    public const string Password = "wren on the gatepost";

    /// <summary>Takes up an invitation as a person does, and is at the class's first page.</summary>
    public static async Task<Visitor> Enter(
        Classroom room,
        string address,
        string name,
        Role role,
        int width = 1280,
        int height = 900
    )
    {
        var made = await room.InviteAsync(null, name, role);
        var visitor = await Visitor.Arrive(width, height, at: $"{address}/invitation/{made.Secret}");
        var page = visitor.Page;
        await page.Locator("#password").FillAsync(Password);
        await page.Locator("#again").FillAsync(Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Come in" }).ClickAsync();
        // What is on the page is waited for, not the browser's word that it has loaded, which can be given too soon to be heard.
        await Assertions.Expect(page).ToHaveURLAsync($"{address}/class");
        await Assertions.Expect(page.Locator("main h1")).ToBeVisibleAsync();
        return visitor;
    }
}
