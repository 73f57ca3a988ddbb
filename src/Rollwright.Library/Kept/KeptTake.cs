using System.Security.Cryptography;

namespace Rollwright.Library.Kept;

/// <summary>A break as someone played it: a recording, and what was heard in it.</summary>
/// <param name="Id">Its name for ever.</param>
/// <param name="Break">The break's.</param>
/// <param name="At">When it was kept.</param>
/// <param name="Digest">SHA-256 of the recording, 64 hexadecimal digits.</param>
/// <param name="Ending">Of the recording's file name, such as "wav".</param>
/// <param name="Notes">What was heard (JSON); may be empty.</param>
public sealed record KeptTake(Guid Id, Guid Break, DateTimeOffset At, string Digest, string Ending, string Notes)
{
    /// <summary>Half an hour of a mono recording, 16 bits at 44,100 a second, has 159 MB.</summary>
    public const int MostBytes = 200_000_000;

    internal static string DigestOf(ReadOnlySpan<byte> recording) =>
        Convert.ToHexStringLower(SHA256.HashData(recording));

    // It becomes part of a file's name: nothing but letters and digits, and few.
    internal static string PlainEnding(string said)
    {
        var plain = new string([.. said.Where(char.IsAsciiLetterOrDigit).Take(8)]).ToLowerInvariant();
        return plain.Length == 0 ? "bin" : plain;
    }
}
