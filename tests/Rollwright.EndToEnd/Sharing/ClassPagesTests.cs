using Microsoft.Playwright;
using Rollwright.Class;
using Rollwright.Class.People;
using Rollwright.Library;
using Rollwright.Library.Tests;
using Rollwright.TestKit;
using Rollwright.Web.Hosting;
using Rollwright.Web.Hosting.Sharing;

namespace Rollwright.EndToEnd.Sharing;

/// <summary>A lesson's way through a class, in two browsers: published, set, opened, practised, handed in, heard, answered.</summary>
public class ClassPagesTests
{
    [Fact]
    public async Task A_lesson_goes_from_the_teacher_s_bench_to_a_pupil_s_and_comes_back_as_a_take()
    {
        await Visitor.Browser();
        var database = await Server.CreateDatabase();
        try
        {
            var library = await TuneLibrary.OpenAsync(new(null, database), TimeProvider.System);
            var room = await Classroom.OpenAsync(library, TimeProvider.System);
            await using var workbench = await Workbench.StartAsync(0, library, new ClassServing(room));
            await using (var stranger = await Visitor.Arrive(at: workbench.Address))
                await Look(stranger, "sign-in");
            await using var teacher = await ClassDoor.Enter(room, workbench.Address, "Ada Holm", Role.Teacher);
            await using var pupil = await ClassDoor.Enter(room, workbench.Address, "Ben", Role.Pupil, 390, 844);

            // The teacher puts a tune on the bench, and publishes its lesson.
            var (desk, phone) = (teacher.Page, pupil.Page);
            await desk.GetByRole(AriaRole.Link, new() { Name = "Workbench" }).ClickAsync();
            await teacher.Open("Wren on the Gatepost");
            await Assertions.Expect(desk.Locator(".keep-line")).ToHaveTextAsync("Kept.");
            await desk.GetByRole(AriaRole.Link, new() { Name = "Teach it" }).ClickAsync();
            await desk.GetByRole(AriaRole.Button, new() { Name = "Publish this lesson" }).ClickAsync();
            await Assertions.Expect(desk.GetByText("Published.")).ToBeVisibleAsync();
            await Look(teacher, "teacher-desk");
            await desk.GetByRole(AriaRole.Link, new() { Name = "See it as the class does" }).ClickAsync();
            await Assertions.Expect(desk.Locator("h1")).ToHaveTextAsync("Wren on the Gatepost");
            await desk.GetByLabel("What is to be done").FillAsync("The first part, every phrase four times clean");
            await desk.GetByLabel("For whom").SelectOptionAsync(new SelectOptionValue { Label = "Ben" });
            await desk.GetByLabel("Up to tempo (as the lesson counts it, may be empty)").FillAsync("70");
            await desk.GetByRole(AriaRole.Button, new() { Name = "Set it" }).ClickAsync();
            await Assertions
                .Expect(desk.GetByText("four times clean. Up to tempo 70, as the lesson counts it."))
                .ToBeVisibleAsync();
            await Look(teacher, "teacher-lesson");

            // The pupil finds both, opens the page that plays, and the bench.
            await phone.ReloadAsync();
            await Look(pupil, "pupil-lessons");
            await phone.GetByRole(AriaRole.Link, new() { Name = "Wren on the Gatepost" }).First.ClickAsync();
            await phone.GetByRole(AriaRole.Link, new() { Name = "The page that plays" }).ClickAsync();
            await Assertions.Expect(phone.Locator("h1").First).ToContainTextAsync("Wren");
            await phone.GoBackAsync();
            await phone.GetByRole(AriaRole.Button, new() { Name = "Practise it on the workbench" }).ClickAsync();
            await pupil.Ready();
            await Assertions.Expect(phone.Locator("#break-title")).ToHaveTextAsync("Wren on the Gatepost");
            await Look(pupil, "pupil-bench");
            await phone.GetByRole(AriaRole.Link, new() { Name = "The class" }).ClickAsync();

            // A take comes, is heard and answered.
            await phone.GetByRole(AriaRole.Link, new() { Name = "Wren on the Gatepost" }).First.ClickAsync();
            await phone
                .Locator("#take-file")
                .SetInputFilesAsync(
                    new FilePayload
                    {
                        Name = "Ben.wav",
                        MimeType = "audio/wav",
                        Buffer = Audio.Wave.WavWriter.ToBytes(new(22_050, 1, new float[22_050])),
                    }
                );
            await phone.Locator("#take-words").FillAsync("Bar 3 is hard.");
            await phone.GetByRole(AriaRole.Button, new() { Name = "Hand it in" }).ClickAsync();
            await Assertions.Expect(phone.Locator("audio")).ToHaveCountAsync(1);
            await desk.GetByRole(AriaRole.Link, new() { Name = "Takes" }).ClickAsync();
            await Assertions.Expect(desk.GetByText("Bar 3 is hard.")).ToBeVisibleAsync();
            (
                await desk.EvaluateAsync<double>(
                    """
                    () => new Promise((done, gone) => {
                      const sound = document.querySelector("audio");
                      sound.onloadedmetadata = () => done(sound.duration);
                      sound.onerror = () => gone(new Error("the browser cannot play it"));
                      sound.preload = "auto";
                      sound.load();
                    })
                    """
                )
            ).Should().BeApproximately(1, 0.01, "the browser plays the second that was handed in");
            await desk.GetByLabel("Answer Ben about Wren on the Gatepost").FillAsync("Alone, at 50, then with bar 2.");
            await Look(teacher, "teacher-takes");
            await desk.GetByRole(AriaRole.Button, new() { Name = "Answer" }).ClickAsync();
            await phone.ReloadAsync();
            await Assertions.Expect(phone.GetByText("Ada Holm: Alone, at 50, then with bar 2.")).ToBeVisibleAsync();
            await Look(pupil, "pupil-lesson");

            await desk.GetByRole(AriaRole.Link, new() { Name = "Members" }).ClickAsync();
            await desk.GetByLabel("The name that they will sign in with").FillAsync("Cleo");
            await desk.GetByRole(AriaRole.Button, new() { Name = "Make a link" }).ClickAsync();
            await Look(teacher, "teacher-members");
            var ben = (await room.FindMemberAsync("Ben"))!;
            var played = (await library.For(ben.Id).BreaksAsync()).Single();
            await library.For(ben.Id).PractiseAsync(played.Id, new(new(2026, 3, 3), 1, 62, 4, 2));
            await library.For(ben.Id).PractiseAsync(played.Id, new(new(2026, 3, 4), 2, 48, 3, 3));
            await desk.GetByRole(AriaRole.Link, new() { Name = "Ben", Exact = true }).ClickAsync();
            await Look(teacher, "teacher-progress");
            await phone.GetByRole(AriaRole.Link, new() { Name = "My progress" }).ClickAsync();
            await Look(pupil, "pupil-progress");

            await phone.GetByRole(AriaRole.Button, new() { Name = "Sign out" }).ClickAsync();
            await Assertions.Expect(phone.Locator("h1")).ToHaveTextAsync("Sign in");
        }
        finally
        {
            await Server.Drop(database);
        }
    }

    // A picture for people to look at, and the outside judge of what a machine can see; nothing is wider than the screen.
    private static async Task Look(Visitor visitor, string name)
    {
        await visitor.Page.EvaluateAsync("() => document.fonts.ready.then(() => true)");
        await visitor.Page.ScreenshotAsync(
            new() { Path = Path.Combine(Places.Pictures, $"class-{name}.png"), FullPage = true }
        );
        (await Axe.Findings(visitor.Page)).Should().BeEmpty(name);
        (await visitor.Page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= window.innerWidth"))
            .Should()
            .BeTrue($"{name} fits the screen");
    }
}
