using System.Security.Cryptography;
using System.Text;

namespace Rollwright.Class;

/// <summary>What nobody can guess: it stands in a link, and only its digest is kept.</summary>
internal static class Secret
{
    // 256 bits, as OWASP's advice on session identifiers asks for at least 64.
    private const int Bytes = 32;

    public static string Draw() =>
        Convert.ToBase64String(RandomNumberGenerator.GetBytes(Bytes)).TrimEnd('=').Replace('+', '-').Replace('/', '_');

    public static string DigestOf(string secret) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));
}
