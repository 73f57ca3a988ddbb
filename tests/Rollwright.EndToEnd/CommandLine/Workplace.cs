namespace Rollwright.EndToEnd.CommandLine;

/// <summary>A folder of one test's own, gone when the test is over.</summary>
internal sealed class Workplace : IDisposable
{
    public string Folder { get; } = Directory.CreateTempSubdirectory("rollwright").FullName;

    public string Put(string name, string text)
    {
        File.WriteAllText(Path.Combine(Folder, name), text);
        return name;
    }

    public string Put(string name, byte[] bytes)
    {
        File.WriteAllBytes(Path.Combine(Folder, name), bytes);
        return name;
    }

    public string[] Files =>
        [
            .. Directory
                .GetFiles(Folder, "*", SearchOption.AllDirectories)
                .Select(file => Path.GetRelativePath(Folder, file))
                .Order(StringComparer.Ordinal),
        ];

    public (int Code, string Out, string Err) Run(params IEnumerable<string> arguments) =>
        Program.Run(Folder, arguments);

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
