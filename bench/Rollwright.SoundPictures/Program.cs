using Rollwright.SoundPictures;

// Draws the pictures of docs/sound.md into a folder: a roll at two tempos, and how notes die away.
if (args.Length != 1)
{
    Console.Error.WriteLine("usage: Rollwright.SoundPictures FOLDER, such as docs/pictures");
    return 2;
}
File.WriteAllBytes(Path.Combine(args[0], "roll-60.png"), RollPicture.Draw(60));
File.WriteAllBytes(Path.Combine(args[0], "roll-160.png"), RollPicture.Draw(160));
File.WriteAllBytes(Path.Combine(args[0], "decay.png"), DecayPicture.Draw());
return 0;
