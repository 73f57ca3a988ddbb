namespace Rollwright.Web.State.Entry;

/// <summary>A tune typed by someone who knows letters of notes and no fields of ABC: what is missing is put before it.</summary>
public static class TypedTune
{
    /// <summary>The same text where it has a key field; else with a head in front: 4/4 in eighths, in G.</summary>
    public static string Complete(string typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        return
            typed.Trim().Length == 0 || typed.Split('\n').Any(line => line.StartsWith("K:", StringComparison.Ordinal))
            ? typed
            : $"X:1\nT:My tune\nM:4/4\nL:1/8\nK:G\n{typed}";
    }
}
