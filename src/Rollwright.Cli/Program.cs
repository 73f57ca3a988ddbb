using System.CommandLine;
using Rollwright.Cli.Commands;

var root = new RootCommand("From the melody that fiddlers play to a break for the five-string banjo.")
{
    ArrangeCommand.Build(),
    AdviseCommand.Build(),
    FingerCommand.Build(),
    CheckCommand.Build(),
    LicksCommand.Build(),
    RenderCommand.Build(),
    PracticeCommand.Build(),
    FigureCommand.Build(),
    ServeCommand.Build(),
};
return await Exit.GuardedAsync(root, args);
