using System.Text.Json;
using Rollwright.Library.Kept;

namespace Rollwright.Cli.Commands.Library;

/// <summary>Tunes of a library as a person or a machine reads them.</summary>
internal static class TuneTable
{
    public static void Print(IReadOnlyList<KeptTune> tunes, bool asJson)
    {
        if (asJson)
        {
            Console.WriteLine(
                JsonSerializer.Serialize(
                    tunes.Select(tune => new
                    {
                        id = tune.Id,
                        title = tune.Title,
                        key = tune.Key,
                        metre = tune.Metre,
                        composer = tune.Composer,
                        source = tune.Source,
                        tags = tune.Tags,
                    })
                )
            );
            return;
        }
        foreach (var tune in tunes)
        {
            var tags = tune.Tags.IsEmpty ? "" : $"  [{string.Join(", ", tune.Tags)}]";
            Console.WriteLine($"{tune.Id}  {tune.Title}, {tune.Key}, {tune.Metre}, {tune.Source}{tags}");
        }
    }
}
