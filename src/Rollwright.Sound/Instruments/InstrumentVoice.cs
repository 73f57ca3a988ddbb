using System.Collections.Immutable;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Sound.Body;
using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Instruments;

/// <summary>An instrument: what the tables of <c>data/</c> say of it, which explain the columns.</summary>
public sealed record InstrumentVoice
{
    public required string Name { get; init; }

    /// <summary>Millimetres that an open string swings.</summary>
    public required double Scale { get; init; }

    /// <summary>Share of an arriving wave that the bridge spreads over every string, 0 to 0.1.</summary>
    public required double Yield { get; init; }

    /// <summary>Strength of the slow polarization beside the fast one.</summary>
    public required double Along { get; init; }

    /// <summary>Share of the bridge's force that is heard beside the modes.</summary>
    public required double Direct { get; init; }

    /// <summary>Lowest fret of a strummed chord.</summary>
    public required int LowestFret { get; init; }

    /// <summary>Highest fret of a strummed chord.</summary>
    public required int HighestFret { get; init; }

    /// <summary>Seconds from one string of a strum to the next.</summary>
    public required double Spread { get; init; }

    /// <summary>Seconds after which a hand stops what was struck, at the latest.</summary>
    public required double Ring { get; init; }

    /// <summary>−1 left to 1 right.</summary>
    public required double Pan { get; init; }

    /// <summary>dB.</summary>
    public required double Level { get; init; }

    /// <summary>From string 1.</summary>
    public required ImmutableArray<StringVoice> Strings { get; init; }

    public required ImmutableArray<BodyMode> Body { get; init; }

    /// <summary>By the name of the finger or pick.</summary>
    public required ImmutableDictionary<string, Touch> Touches { get; init; }

    /// <summary>The open strings as the tables say them.</summary>
    public ImmutableArray<OpenString> OpenStrings =>
        [.. Strings.Select(voice => new OpenString(voice.Open ?? 0, Scale))];

    /// <summary>The open strings of a banjo in a setting: its tuning, capo and short string.</summary>
    public ImmutableArray<OpenString> OpenStringsIn(Setting setting)
    {
        ArgumentNullException.ThrowIfNull(setting);
        return
        [
            .. Strings.Select(voice =>
            {
                var nut = voice.String == Neck.ShortString ? Neck.ShortStringStart : 0;
                return new OpenString(
                    setting.SoundingKeyOf(voice.String, 0),
                    Scale * Math.Pow(2, -(nut + setting.Capo) / 12.0)
                );
            }),
        ];
    }
}
