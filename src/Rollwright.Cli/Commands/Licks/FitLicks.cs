using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rollwright.Arranging;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Spots;
using Rollwright.Banjo.Licks;
using Rollwright.Cli.Asking;
using Rollwright.Cli.Files;

namespace Rollwright.Cli.Commands.Licks;

/// <summary><c>rollwright licks fit TUNE</c>: where the tune leaves the player free, and what fits there.</summary>
internal static class FitLicks
{
    private static readonly Argument<string> Tune = new("tune")
    {
        Description = "A tune in ABC notation; - is standard input.",
    };
    private static readonly Option<double> Within = new("--within")
    {
        Description = "How much dearer the break may get, in plain notes of the tune left out.",
        DefaultValueFactory = _ => Arrangement.UsualSpotPrice / 1000.0,
    };
    private static readonly Option<bool> Json = LickOptions.Json();
    private static readonly SettingOptions Setting = new();

    public static Command Build()
    {
        var command = new Command("fit", "Says which licks fit where in a tune; exit code 1 where none does.")
        {
            Tune,
            Within,
            Json,
        };
        Setting.AddTo(command);
        command.SetAction(Run);
        return command;
    }

    private static int Run(ParseResult parsed)
    {
        var file = BankFile.Open(parsed);
        if (parsed.GetValue(Within) is not (>= 0 and <= 100))
            throw new RequestException("--within is 0 to 100 notes of the tune");
        var path = parsed.GetRequiredValue(Tune);
        var tune = TuneInput.ReadOne(path, "give a file with one tune");
        var made = RequestException.Naming(
            path,
            () => Arranger.Arrange(tune, Setting.Read(parsed) with { Licks = IndexOf(file) })
        );
        var spots = made.Spots((int)(1000 * parsed.GetValue(Within)));
        if (parsed.GetValue(Json))
            Console.WriteLine(JsonOf(made, spots));
        else
            Print(made, spots);
        Exit.Say(
            $"{InputFile.NameOf(path)}: {tune.Title}: {SettingWords.OfTune(made.Break.Setting)}; {spots.Length} spots, {spots.Sum(spot => spot.Count)} licks fit"
        );
        return spots.IsEmpty ? Math.Max(Exit.No, file.Done) : file.Done;
    }

    /// <summary>The licks at hand for the arranger; those of the program alone are indexed already.</summary>
    public static LickIndex IndexOf(BankFile file) =>
        ReferenceEquals(file.Bank, LickBank.BuiltIn) ? LickIndex.BuiltIn : new(file.Bank.Licks);

    private static void Print(Arrangement made, IEnumerable<Spot> spots)
    {
        foreach (var spot in spots)
        {
            Console.WriteLine(
                $"{Place(made, spot)}, {spot.Chord}: {spot.Count} {(spot.Count == 1 ? "lick fits" : "licks fit")}"
            );
            foreach (var fit in spot.Best)
            {
                var price = made.Has(fit.Place) ? "stands there" : Notes(fit.Price);
                Console.WriteLine($"  {price, 12}  {fit.Place.Lick.Name}: {LickTabWriter.Write(fit.Place.Lick.Steps)}");
            }
        }
    }

    private static string Place(Arrangement made, Spot spot)
    {
        var beat = made.Grid.CountedOf(spot.Bar);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{made.Grid.Numbering.Place(spot.Bar, spot.At)}, {(spot.Length / beat).ToDouble():0.##} beats"
        );
    }

    private static string Notes(int thousandths) =>
        (thousandths / 1000.0).ToString("+0.00;-0.00;0.00", CultureInfo.InvariantCulture);

    private static string JsonOf(Arrangement made, IEnumerable<Spot> spots) =>
        JsonSerializer.Serialize(
            spots.Select(spot => new
            {
                bar = made.Grid.Numbering[spot.Bar].Number,
                written = spot.Bar,
                beat = Math.Round(made.Grid.Numbering.Beat(spot.Bar, spot.At), 3),
                beats = Math.Round((spot.Length / made.Grid.CountedOf(spot.Bar)).ToDouble(), 3),
                chord = spot.Chord?.ToString(),
                fits = spot.Count,
                best = spot.Best.Select(fit => new
                {
                    lick = fit.Place.Lick.Name,
                    price = fit.Price,
                    tab = LickTabWriter.Write(fit.Place.Lick.Steps),
                }),
            })
        );
}
