using System.Collections.Immutable;
using System.Globalization;
using System.IO.Compression;
using System.Text.Json;
using System.Text.Json.Nodes;
using Rollwright.Banjo.Breaks;
using Rollwright.Lessons.Captions;
using Rollwright.Sound.Browser;

namespace Rollwright.Lessons.Page;

/// <summary>
/// What the page's script reads, in JSON: the break's score whole, and of everything else only what is played otherwise, for
/// the same strings, hands and band serve all of it.
/// </summary>
internal sealed class LessonScores
{
    private readonly JsonObject pieces = [];
    private readonly JsonObject score;
    private readonly JsonArray swaps = [];
    private readonly Break played;
    private JsonObject? take;

    public LessonScores(Break played)
    {
        this.played = played;
        score = Read(played);
    }

    /// <summary>Bars of the break played otherwise.</summary>
    public void Add(LickSwap swap)
    {
        var bars = swap.ChangedIn(played);
        swaps.Add(
            new JsonObject
            {
                ["phrase"] = swap.Phrase,
                ["bars"] = new JsonArray([.. bars.Select(bar => (JsonNode)bar)]),
                ["strokes"] = JsonNode.Parse(PlayerScore.WriteBars(swap.Played, bars)),
            }
        );
    }

    /// <summary>Something else to be heard: a drill, a version, a part behind others.</summary>
    public void Add(string piece, Break other)
    {
        var own = Read(other);
        foreach (var shared in score)
        {
            if (JsonNode.DeepEquals(own[shared.Key], shared.Value))
                own.Remove(shared.Key);
        }
        if (own["parts"] is JsonArray parts)
        {
            for (var part = 0; part < parts.Count; part++)
                Share(parts[part]!.AsObject(), score["parts"]![part]!.AsObject());
        }
        pieces[piece] = own;
    }

    /// <summary>A take beside the break.</summary>
    /// <param name="times">Where its bars fall; null for not known.</param>
    /// <param name="words">What is said while a phrase is played, by its number.</param>
    public void Add(BarTimes? times, IReadOnlyDictionary<int, string> words) =>
        take = new JsonObject
        {
            ["bars"] = times is null
                ? null
                : new JsonArray([.. times.Bars.Select(bar => (JsonNode)bar.From), times.Bars[^1].To]),
            ["words"] = new JsonObject(
                words.Select(said =>
                    KeyValuePair.Create(said.Key.ToString(CultureInfo.InvariantCulture), (JsonNode?)said.Value)
                )
            ),
        };

    /// <summary>All of it, as JSON packed by gzip, in base64.</summary>
    /// <param name="drawings">Drawings by name, to travel with it.</param>
    public string Pack(IReadOnlyDictionary<string, string> drawings)
    {
        var told = new JsonObject
        {
            ["score"] = score,
            ["swaps"] = swaps,
            ["pieces"] = pieces,
            ["take"] = take,
            ["drawings"] = new JsonObject(
                drawings.Select(drawn => KeyValuePair.Create(drawn.Key, (JsonNode?)drawn.Value))
            ),
        };
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionLevel.Optimal))
        using (var json = new Utf8JsonWriter(gzip))
            told.WriteTo(json);
        return Convert.ToBase64String(packed.ToArray());
    }

    private static void Share(JsonObject own, JsonObject shared)
    {
        foreach (var (name, value) in shared)
        {
            if (JsonNode.DeepEquals(own[name], value))
                own.Remove(name);
        }
    }

    private static JsonObject Read(Break played) => JsonNode.Parse(PlayerScore.Write(played))!.AsObject();
}
