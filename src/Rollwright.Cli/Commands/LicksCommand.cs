using System.CommandLine;
using Rollwright.Cli.Commands.Licks;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright licks list|show|find|add|fit</c>: the licks of the program and a player's own.</summary>
internal static class LicksCommand
{
    public static Command Build() =>
        new("licks", "Lists, shows, finds and adds licks, and says where they fit in a tune.")
        {
            ListLicks.Build(),
            ShowLick.Build(),
            FindLicks.Build(),
            AddLick.Build(),
            FitLicks.Build(),
            BankFile.Option,
        };
}
