using System.Collections.Immutable;
using Rollwright.Formats.Abc;
using Rollwright.Music.Tunes;

namespace Rollwright.Web.State;

/// <summary>What lies on one person's bench: the text, which of its tunes, the wishes, and the break made of them.</summary>
public sealed class Bench(Shelf shelf)
{
    /// <summary>Two million characters: some thousand tunes. Larger files are for the command line.</summary>
    public const int MostCharacters = 2_000_000;

    private int asked;

    public string FileName { get; private set; } = "";

    public string Text { get; private set; } = "";

    /// <summary>The tunes read from the text; empty where it holds none.</summary>
    public ImmutableArray<Tune> Tunes { get; private set; } = [];

    /// <summary>Index of the tune that is on the bench.</summary>
    public int Chosen { get; private set; }

    public Wishes Wishes { get; private set; } = new();

    /// <summary>The break; null where none could be made, and then <see cref="Problems"/> says why.</summary>
    public Made? Made { get; private set; }

    /// <summary>The break as it is drawn for the page; null where there is none.</summary>
    public Drawing? Drawing { get; private set; }

    /// <summary>What the text has to answer for.</summary>
    public ImmutableArray<Problem> TextProblems { get; private set; } = [];

    /// <summary>What the wishes have to answer for.</summary>
    public ImmutableArray<Problem> WishProblems { get; private set; } = [];

    /// <summary>A break is being made; what is shown is the one before it.</summary>
    public bool IsMaking { get; private set; }

    /// <summary>Something here is not as it was; called on any thread.</summary>
    public event EventHandler? Changed;

    /// <summary>Puts a text on the bench and makes a break of its first tune.</summary>
    public Task Put(string fileName, string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return Put(fileName, text, AbcReader.Read(text, fileName));
    }

    /// <summary>The same for a file's bytes, in whichever of the encodings of ABC files.</summary>
    public Task Put(string fileName, byte[] bytes)
    {
        var reading = AbcReader.Read(bytes, fileName);
        return Put(fileName, AbcText.Decode(bytes) ?? "", reading);
    }

    private Task Put(string fileName, string text, AbcReading reading)
    {
        FileName = fileName;
        Text = text;
        Chosen = 0;
        (Tunes, TextProblems) = BreakMaker.Read(reading);
        return Make();
    }

    /// <summary>Says why a file could not be put on the bench; what lay there stays.</summary>
    public void Refuse(string fileName, string what, string remedy)
    {
        TextProblems = [new(null, null, $"{fileName}: {what}", remedy, true)];
        Changed?.Invoke(this, EventArgs.Empty);
    }

    public Task Choose(int tune)
    {
        Chosen = Math.Clamp(tune, 0, Math.Max(0, Tunes.Length - 1));
        return Make();
    }

    public Task Wish(Wishes wishes)
    {
        Wishes = wishes;
        return Make();
    }

    // Away from the page's own thread, so that it answers while a long tune is arranged. Where the person has asked for
    // something else meanwhile, the older answer is dropped.
    private async Task Make()
    {
        var mine = ++asked;
        WishProblems = [];
        if (Tunes.IsEmpty)
        {
            Show(null, null, []);
            return;
        }
        IsMaking = true;
        Changed?.Invoke(this, EventArgs.Empty);
        var (tune, wishes) = (Tunes[Chosen], Wishes);
        var (made, drawing, problems) = await Task.Run(() =>
        {
            var (made, problems) = BreakMaker.Make(tune, wishes, shelf);
            return (made, made is null ? null : Drawing.Of(made.Break), problems);
        });
        if (mine == asked)
            Show(made, drawing, problems);
    }

    private void Show(Made? made, Drawing? drawing, ImmutableArray<Problem> problems)
    {
        Made = made;
        Drawing = drawing;
        WishProblems = problems;
        IsMaking = false;
        Changed?.Invoke(this, EventArgs.Empty);
    }
}
