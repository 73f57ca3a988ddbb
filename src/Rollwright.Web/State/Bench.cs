using System.Collections.Immutable;
using Rollwright.Formats.Abc;
using Rollwright.Music.Tunes;

namespace Rollwright.Web.State;

/// <summary>What lies on one person's bench: the text, which of its tunes, the wishes, and the break made of them.</summary>
public sealed class Bench(Shelf shelf)
{
    /// <summary>Two million characters: some thousand tunes. Larger files are for the command line.</summary>
    public const int MostCharacters = 2_000_000;

    public string FileName { get; private set; } = "";

    public string Text { get; private set; } = "";

    /// <summary>The tunes read from the text; empty where it holds none.</summary>
    public ImmutableArray<Tune> Tunes { get; private set; } = [];

    /// <summary>Index of the tune that is on the bench.</summary>
    public int Chosen { get; private set; }

    public Wishes Wishes { get; private set; } = new();

    /// <summary>The break; null where none could be made, and then <see cref="Problems"/> says why.</summary>
    public Made? Made { get; private set; }

    /// <summary>The break's drawing as SVG, empty where there is none.</summary>
    public string Drawing { get; private set; } = "";

    /// <summary>What the text has to answer for.</summary>
    public ImmutableArray<Problem> TextProblems { get; private set; } = [];

    /// <summary>What the wishes have to answer for.</summary>
    public ImmutableArray<Problem> WishProblems { get; private set; } = [];

    /// <summary>Puts a text on the bench and makes a break of its first tune.</summary>
    public void Put(string fileName, string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        Put(fileName, text, AbcReader.Read(text, fileName));
    }

    /// <summary>The same for a file's bytes, in whichever of the encodings of ABC files.</summary>
    public void Put(string fileName, byte[] bytes)
    {
        var reading = AbcReader.Read(bytes, fileName);
        Put(fileName, AbcText.Decode(bytes) ?? "", reading);
    }

    private void Put(string fileName, string text, AbcReading reading)
    {
        FileName = fileName;
        Text = text;
        Chosen = 0;
        (Tunes, TextProblems) = BreakMaker.Read(reading);
        Make();
    }

    /// <summary>Says why a file could not be put on the bench; what lay there stays.</summary>
    public void Refuse(string fileName, string what, string remedy) =>
        TextProblems = [new(null, null, $"{fileName}: {what}", remedy, true)];

    public void Choose(int tune)
    {
        Chosen = Math.Clamp(tune, 0, Math.Max(0, Tunes.Length - 1));
        Make();
    }

    public void Wish(Wishes wishes)
    {
        Wishes = wishes;
        Make();
    }

    private void Make()
    {
        Made = null;
        Drawing = "";
        WishProblems = [];
        if (Tunes.IsEmpty)
            return;
        var (made, problems) = BreakMaker.Make(Tunes[Chosen], Wishes);
        WishProblems = problems;
        if (made is null)
            return;
        shelf.Put(made);
        Made = made;
        Drawing = BreakMaker.Draw(made.Break);
    }
}
