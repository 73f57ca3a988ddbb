using Microsoft.Playwright;
using Rollwright.Banjo.Tunings;
using Rollwright.TestKit;
using Rollwright.Web.State.Entry;

namespace Rollwright.EndToEnd;

/// <summary>A tune for someone who has no file and no letters: tapped on the drawn neck, or played on a MIDI keyboard.</summary>
public class TuneEntryTests
{
    private static ILocator Box(Visitor visitor) => visitor.Page.GetByLabel("The tune as ABC text");

    private static ILocator Button(Visitor visitor, string name) =>
        visitor.Page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

    private static Task Tap(Visitor visitor, int banjoString, int fret) =>
        visitor.Page.Locator($".neck [data-string='{banjoString}'][data-fret='{fret}']").ClickAsync();

    private static async Task<Visitor> Come(
        int width = 1280,
        int height = 900,
        string? script = null,
        ColorScheme colours = ColorScheme.Light
    )
    {
        var visitor = await Visitor.Arrive(width, height, colours, script: script);
        await visitor.Ready();
        await visitor.Page.GetByText("Type or paste ABC").ClickAsync();
        await visitor.Page.GetByText("Tap it on the neck, or play it in").ClickAsync();
        return visitor;
    }

    private static async Task Begin(Visitor visitor, string key = "G major", string metre = "4/4")
    {
        await visitor.Page.GetByLabel("Key of a new tune").SelectOptionAsync(new SelectOptionValue { Label = key });
        await visitor.Page.GetByLabel("Metre").SelectOptionAsync(new SelectOptionValue { Label = metre });
        await Button(visitor, "Begin a new tune").ClickAsync();
        await Assertions.Expect(visitor.Page.Locator(".neck")).ToBeVisibleAsync();
    }

    // The last line of the box, once it has come.
    private static async Task Holds(Visitor visitor, string music)
    {
        var line = "";
        for (var left = 100; left > 0 && line != music; left--)
        {
            await Task.Delay(50);
            line = (await Box(visitor).InputValueAsync()).Split('\n')[^1];
        }
        line.Should().Be(music);
    }

    [Fact]
    public async Task A_tune_tapped_on_the_neck_stands_on_the_staff_and_is_arranged()
    {
        await using var visitor = await Come();
        await Begin(visitor);
        // Open G: string 3 is G, its fret 2 A, string 2 B, its fret 1 c, string 1 d; string 1 fret 4 is f sharp, of the key.
        foreach (var (on, fret) in new[] { (3, 0), (3, 2), (2, 0), (2, 1), (1, 0), (1, 4), (1, 5), (5, 0), (1, 0) })
            await Tap(visitor, on, fret);
        await Holds(visitor, "GABc dfgg|d");
        await visitor.Page.GetByLabel("dotted quarter", new() { Exact = true }).CheckAsync();
        await Tap(visitor, 2, 0);
        await Button(visitor, "Rest").ClickAsync();
        await Button(visitor, "Bar line").ClickAsync();
        await Holds(visitor, "GABc dfgg|dB3 z3|");
        await Button(visitor, "Undo the last").ClickAsync();
        await Button(visitor, "Undo the last").ClickAsync();
        await visitor.Page.GetByLabel("half", new() { Exact = true }).CheckAsync();
        await Tap(visitor, 3, 0);
        await Holds(visitor, "GABc dfgg|dB3 G4");
        await Assertions.Expect(visitor.Page.GetByText("2 bars, 11 notes in G")).ToBeVisibleAsync();
        await Assertions.Expect(visitor.Page.Locator(".growing .note-head")).ToHaveCountAsync(11);
        await Button(visitor, "Make the break").ClickAsync();
        await Assertions.Expect(visitor.Page.Locator("h1")).ToHaveTextAsync("My tune");
        await Assertions.Expect(visitor.Page.Locator("#drawing .wide svg.engraving")).ToBeVisibleAsync();
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task The_neck_is_worked_from_the_keyboard_alone()
    {
        await using var visitor = await Come();
        await Begin(visitor, "D major", "6/8");
        var neck = visitor.Page.GetByRole(AriaRole.Application);
        await neck.FocusAsync();
        // From string 3 open: up the neck to fret 2, then up to string 2 at the same fret, then back to open.
        foreach (
            var key in new[] { "Enter", "ArrowRight", "ArrowRight", "Enter", "ArrowUp", "Enter", "3", "ArrowLeft" }
        )
            await visitor.Page.Keyboard.PressAsync(key);
        await Assertions.Expect(visitor.Page.Locator("#neck-place")).ToContainTextAsync("String 2, fret 1: C");
        foreach (var key in new[] { "ArrowLeft", "Enter", "2", "r", "b" })
            await visitor.Page.Keyboard.PressAsync(key);
        await Holds(visitor, "GAc B2z|");
        await visitor.Page.Keyboard.PressAsync("Backspace");
        await Holds(visitor, "GAc B2");
        await Assertions.Expect(neck).ToBeFocusedAsync();
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Every_place_of_the_neck_gives_its_own_note_an_octave_above_its_sound()
    {
        var open = TuningTable.OpenG;
        new NeckPlace(3, 0).KeyIn(open).Should().Be(67, "string 3 is written as the G above middle C");
        new NeckPlace(5, 0).KeyIn(open).Should().Be(79);
        new NeckPlace(5, 7).KeyIn(open).Should().Be(81, "two frets above where the short string begins");
        NeckPlace.At(5, 3).Should().Be(new NeckPlace(5, 0));
        NeckPlace.At(4, 12).Moved(1, 0).Should().Be(new NeckPlace(5, 12));
        new NeckPlace(5, 0).Moved(-1, 0).Should().Be(new NeckPlace(4, 5));
        new NeckPlace(1, 0).Moved(-1, -1).Should().Be(new NeckPlace(1, 0));
        await Task.CompletedTask;
    }

    // A device that plays what the test tells it: no browser has one in a test.
    private const string FakeKeyboard = """
        navigator.requestMIDIAccess = async () => {
          const input = { name: "Test keys", state: "connected", onmidimessage: null };
          window.midi = { inputs: new Map([["1", input]]), onstatechange: null };
          window.key = (...data) => input.onmidimessage?.({ data: new Uint8Array(data) });
          return window.midi;
        };
        """;

    [Fact]
    public async Task Keys_of_a_midi_keyboard_become_notes_until_it_is_told_to_stop()
    {
        await using var visitor = await Come(script: FakeKeyboard);
        await Begin(visitor, "A dorian", "2/2");
        await Button(visitor, "Listen to a MIDI keyboard").ClickAsync();
        await Assertions.Expect(visitor.Page.Locator("#midi-state")).ToContainTextAsync("Listening to Test keys");
        foreach (var key in new[] { 57, 60, 64, 66, 67, 73 })
            await visitor.Page.EvaluateAsync("(key) => { window.key(0x90, key, 80); window.key(0x80, key, 0); }", key);
        // A velocity of 0 lets a key go, whatever the channel; a pedal is no note.
        await visitor.Page.EvaluateAsync("() => { window.key(0x93, 60, 0); window.key(0xb0, 64, 127); }");
        await visitor.Page.GetByLabel("quarter", new() { Exact = true }).CheckAsync();
        await visitor.Page.EvaluateAsync("() => window.key(0x93, 69, 1)");
        await Holds(visitor, "A,CEF G^cA2");
        await Button(visitor, "Stop listening").ClickAsync();
        await Assertions.Expect(Button(visitor, "Listen to a MIDI keyboard")).ToBeVisibleAsync();
        await visitor.Page.EvaluateAsync("() => window.key(0x90, 69, 80)");
        await Tap(visitor, 3, 0);
        await Holds(visitor, "A,CEF G^cA2|G2");
        visitor.Complaints.Should().BeEmpty();
    }

    [Theory]
    [InlineData("Object.defineProperty(navigator, 'requestMIDIAccess', { value: undefined });", "has no Web MIDI")]
    [InlineData(
        "navigator.requestMIDIAccess = async () => { throw new DOMException('no', 'SecurityError'); };",
        "did not allow it"
    )]
    [InlineData(
        "navigator.requestMIDIAccess = async () => ({ inputs: new Map(), onstatechange: null });",
        "No MIDI keyboard is connected"
    )]
    public async Task Why_no_midi_keyboard_is_heard_is_said_plainly(string script, string words)
    {
        await using var visitor = await Come(script: script);
        await Begin(visitor);
        await Button(visitor, "Listen to a MIDI keyboard").ClickAsync();
        await Assertions.Expect(visitor.Page.Locator("#midi-state")).ToContainTextAsync(words);
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task The_text_in_the_box_can_be_gone_on_with()
    {
        await using var visitor = await Come();
        await Box(visitor).FillAsync("GABc d");
        await Button(visitor, "Go on with the text in the box").ClickAsync();
        await Tap(visitor, 2, 0);
        await Holds(visitor, "GABc dB");
        await Box(visitor).FillAsync("");
        await Tap(visitor, 2, 0);
        await Assertions.Expect(visitor.Page.Locator("#neck-place")).ToContainTextAsync("begin a new one");
        visitor.Complaints.Should().BeEmpty();
    }

    [Theory]
    [InlineData("entry-desktop", 1280, 900, ColorScheme.Light)]
    [InlineData("entry-desktop-dark", 1280, 900, ColorScheme.Dark)]
    [InlineData("entry-phone", 390, 844, ColorScheme.Light)]
    public async Task The_entry_is_whole_and_its_picture_is_kept(
        string name,
        int width,
        int height,
        ColorScheme colours
    )
    {
        await using var visitor = await Come(width, height, colours: colours);
        await Begin(visitor);
        foreach (var fret in new[] { 0, 2, 4, 5 })
            await Tap(visitor, 3, fret);
        await Assertions.Expect(visitor.Page.Locator(".growing .note-head")).ToHaveCountAsync(4);
        (await visitor.Page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth"))
            .Should()
            .BeLessThanOrEqualTo(0);
        await visitor
            .Page.GetByRole(AriaRole.Region, new() { Name = "Tune", Exact = true })
            .ScreenshotAsync(new() { Path = Path.Combine(Places.Pictures, $"{name}.png") });
        visitor.Complaints.Should().BeEmpty();
    }
}
