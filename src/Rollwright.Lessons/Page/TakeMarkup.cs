using Rollwright.Lessons.Player;

namespace Rollwright.Lessons.Page;

/// <summary>What stands about a recorded take: the recording, its speed, its chapters, and marking where its bars fall.</summary>
internal static class TakeMarkup
{
    public static string Of(LessonVideo video)
    {
        var address = PageFile.Escaped(video.Address);
        var recording = video.IsSound
            ? $"<audio controls preload=\"metadata\" src=\"{address}\"></audio>"
            : $"<video controls playsinline preload=\"metadata\" src=\"{address}\"></video>";
        return $"""
            <div class="screen">{recording}</div>
            <section class="sheet take" aria-labelledby="take">
            <h2 id="take">{(video.IsSound ? "The recording" : "The video")}</h2>
            <p class="trouble" data-part="trouble" role="alert" hidden></p>
            <div class="speeds"><label for="take-speed">Speed</label>
            <select id="take-speed" data-part="speed">
            <option value="0.5">half</option><option value="0.6">60 %</option><option value="0.7">70 %</option>
            <option value="0.8">80 %</option><option value="0.9">90 %</option><option value="1" selected>as played</option>
            </select>
            <label class="check"><input type="checkbox" data-part="again"> Again and again</label></div>
            <div data-part="follow" hidden><p>The tab follows it. Go to:</p>
            <div class="chapters" data-part="chapters" role="group" aria-label="Phrases in order of play"></div></div>
            <p data-part="unmarked">Nobody has marked yet where its bars fall.</p>
            <details><summary>Mark the bars</summary>
            <p>Start it, and press at the beginning of every bar, repeats too; once more at the end. Save the times beside the lesson, and make the page again with them.</p>
            <p><button type="button" data-part="start">Start</button> <button type="button" data-part="mark">A bar begins</button>
            <button type="button" data-part="back">Take the last back</button> <button type="button" data-part="save">Save the times</button></p>
            <p data-part="marked" role="status"></p></details>
            </section>

            """;
    }
}
