using Rollwright.SideBySide;

if (args is not [var folder, var picture, _, ..])
{
    Console.Error.WriteLine(
        "Say a folder for the pictures, the number of the tune to be pictured, and files of tunes: "
            + "/tmp/pictures 0 ../shared/tunes/*.abc"
    );
    return 2;
}
return await Comparison.Run(folder, int.Parse(picture), args[2..]);
