using Rollwright.Arranging.Styles;
using Rollwright.Waits;

if (
    args is not [var name, var level, _, ..]
    || StyleTable.Find(name) is not { } style
    || !int.TryParse(level, out var asked)
)
{
    Console.Error.WriteLine("Say a style, a level and files of tunes: roll 3 ../shared/tunes/*.abc");
    return 2;
}
Survey.Run(style, asked, args[2..]);
return 0;
