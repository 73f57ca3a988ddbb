using System.CommandLine;
using Rollwright.Cli.Commands.Licks;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright licks list|show|find|add</c>: the licks of the program and a player's own.</summary>
internal static class LicksCommand
{
    public static Command Build() =>
        new("licks", "Lists, shows, finds and adds licks.")
        {
            ListLicks.Build(),
            ShowLick.Build(),
            FindLicks.Build(),
            AddLick.Build(),
            BankFile.Option,
        };
}
