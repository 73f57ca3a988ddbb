using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Abc;
using Rollwright.Music.Tunes;

namespace Rollwright.Bench.Tunes;

/// <summary>The demo reel: 16 written bars and pickups, 32 bars as it is played, AABB.</summary>
internal static class DemoTune
{
    public static Tune Read()
    {
        using var stream = typeof(DemoTune).Assembly.GetManifestResourceStream("demo.abc")!;
        using var reader = new StreamReader(stream);
        return AbcReader.Read(reader.ReadToEnd(), "demo.abc").Tunes.Single();
    }

    public static Break Arrange() => Arranger.Arrange(Read()).Break;
}
