using Rollwright.Arranging.Chording;
using Rollwright.HarmonyTraining;
using Rollwright.Music.Tunes;

if (args.Length < (args is ["train", ..] ? 4 : 3) || args[0] is not ("validate" or "train" or "measure"))
{
    Console.Error.WriteLine("usage: validate|train|measure COLLECTION.abc TUNES-FOLDER [DATA-FOLDER]");
    return 2;
}
var collection = Collection.Read(args[1], args[2]);
var taught = collection.Taught.Select(TaughtTune.Of).ToArray();
Console.WriteLine(
    $"{taught.Length} tunes to learn from ({collection.LeftOut} near others left out), "
        + $"{collection.Held.Length} and {collection.Others.Length} to measure on"
);
switch (args[0])
{
    case "validate":
        Validation.Run(taught);
        break;
    case "train":
        DataFiles.Write(args[3], new Trainer(new()).Train(taught), KeyTrainer.Train(collection.Taught));
        break;
    default:
        Measuring.Run(taught, collection);
        break;
}
return 0;
