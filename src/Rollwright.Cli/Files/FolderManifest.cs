using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text.Json;

namespace Rollwright.Cli.Files;

/// <summary>What the program wrote into a folder, kept beside it: whatever else is there, or was changed since, is a person's.</summary>
/// <param name="Files">By path within the folder.</param>
internal sealed record FolderManifest(ImmutableSortedDictionary<string, FolderManifest.Entry> Files)
{
    public const string Name = ".rollwright-lesson.json";

    private const string Format = "rollwright lesson folder";

    private static readonly JsonSerializerOptions Json = new()
    {
        WriteIndented = true,
        PropertyNameCaseInsensitive = true,
    };

    /// <param name="Output">The document that it belongs to.</param>
    /// <param name="Sha256">Of the bytes that were written.</param>
    internal sealed record Entry(string Output, string Sha256);

    private sealed record Written(string? Format, int Version, Dictionary<string, Entry>? Files);

    public static string DigestOf(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    /// <exception cref="RequestException">It is there and cannot be read.</exception>
    public static FolderManifest Read(string folder)
    {
        var path = Path.Combine(folder, Name);
        if (!File.Exists(path))
            return new(ImmutableSortedDictionary.Create<string, Entry>(StringComparer.Ordinal));
        Written? written = null;
        try
        {
            written = JsonSerializer.Deserialize<Written>(File.ReadAllText(path), Json);
        }
        catch (JsonException)
        {
            // Said below.
        }
        // A path that leads out of the folder was not written by the program, and must not be deleted for it.
        return
            written is { Format: Format, Version: 1, Files: { } files }
            && files.All(file => IsWithin(file.Key) && file.Value is { Output: not null, Sha256: not null })
            ? new(files.ToImmutableSortedDictionary(StringComparer.Ordinal))
            : throw new RequestException(
                $"{path}: this is no list of what was written here; delete it, and every file here counts as yours"
            );
    }

    public void Write(string folder) =>
        OutputFile.Write(
            Path.Combine(folder, Name),
            JsonSerializer.SerializeToUtf8Bytes(
                new
                {
                    format = Format,
                    version = 1,
                    files = Files.ToDictionary(
                        file => file.Key,
                        file => new { output = file.Value.Output, sha256 = file.Value.Sha256 }
                    ),
                },
                Json
            )
        );

    private static bool IsWithin(string path) =>
        path.Length > 0
        && !Path.IsPathRooted(path)
        && !path.Contains('\\', StringComparison.Ordinal)
        && !path.Contains(':', StringComparison.Ordinal)
        && path.Split('/').All(name => name is not ("" or "." or ".."));
}
