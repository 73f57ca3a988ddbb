using System.CommandLine;
using Rollwright.Cli.Commands;
using Rollwright.Cli.Commands.Class;
using Rollwright.Cli.Commands.Library;

var root = new RootCommand("From the melody that fiddlers play to a break for the five-string banjo.")
{
    ArrangeCommand.Build(),
    AdviseCommand.Build(),
    FingerCommand.Build(),
    CheckCommand.Build(),
    LicksCommand.Build(),
    RenderCommand.Build(),
    PracticeCommand.Build(),
    LessonCommand.Build(),
    SeriesCommand.Build(),
    FigureCommand.Build(),
    ListenCommand.Build(),
    SlowCommand.Build(),
    LibraryCommand.Build(),
    ClassCommand.Build(),
    ServeCommand.Build(),
};
return await Exit.GuardedAsync(root, args);
