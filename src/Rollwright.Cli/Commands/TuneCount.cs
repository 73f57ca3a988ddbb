namespace Rollwright.Cli.Commands;

/// <summary>
/// How many tunes of a batch are done, and of how many. Files are read one by one while others' tunes are arranged: one that
/// is still unread counts as one tune until it is known how many it holds. For several threads.
/// </summary>
/// <param name="files">Files of the batch, all unread.</param>
/// <param name="tell">Called with what is done and the whole, whenever one of them changes.</param>
internal sealed class TuneCount(int files, Action<int, int> tell)
{
    private readonly Lock gate = new();
    private int whole = files;
    private int done;

    /// <summary>A file was read.</summary>
    /// <param name="tunes">That it holds; 0 where it could not be read.</param>
    public void Read(int tunes)
    {
        lock (gate)
        {
            whole += tunes - 1;
            tell(done, whole);
        }
    }

    /// <summary>A tune is made, or could not be.</summary>
    public void Done()
    {
        lock (gate)
            tell(++done, whole);
    }
}
