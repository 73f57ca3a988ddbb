namespace Rollwright.Banjo.Data;

/// <summary>The data files that travel inside the program; their readable form is the folder data/.</summary>
public static class BuiltInData
{
    /// <param name="name">File name, such as "rolls.txt".</param>
    public static string Text(string name)
    {
        using var stream =
            typeof(BuiltInData).Assembly.GetManifestResourceStream(name)
            ?? throw new ArgumentException($"There is no built-in data file '{name}'.", nameof(name));
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
