using System.Text;

namespace Rollwright.TestKit;

/// <summary>
/// Makes a bad file of a good one: bytes changed, cut out, doubled, moved; numbers replaced by unlikely ones; pieces of the
/// format put in anywhere; a piece repeated until it is long. The same seed makes the same file.
/// </summary>
public sealed class Mutation(int seed, IReadOnlyList<string> pieces)
{
    private static readonly string[] Numbers =
    [
        "0",
        "-1",
        "1",
        "7",
        "64",
        "127",
        "128",
        "255",
        "65536",
        "2147483647",
        "-2147483648",
        "9223372036854775807",
        "99999999999999999999",
        "1e308",
        "0.0001",
        "NaN",
        "1/0",
        "",
    ];

    private readonly Random random = new(seed);

    public byte[] Of(byte[] good)
    {
        var bytes = good.ToList();
        for (var left = random.Next(1, 6); left > 0; left--)
            Change(bytes);
        return [.. bytes];
    }

    private void Change(List<byte> bytes)
    {
        var at = random.Next(bytes.Count + 1);
        var length = Math.Min(bytes.Count - at, random.Next(4) == 0 ? random.Next(2000) : random.Next(20));
        switch (random.Next(9))
        {
            case 0:
                bytes.RemoveRange(at, length);
                break;
            case 1:
                bytes.InsertRange(at, bytes.GetRange(at, length));
                break;
            case 2:
                var piece = bytes.GetRange(at, length);
                bytes.RemoveRange(at, length);
                bytes.InsertRange(random.Next(bytes.Count + 1), piece);
                break;
            case 3:
                for (var i = 0; i < Math.Min(length, 4); i++)
                    bytes[at + random.Next(length)] = (byte)random.Next(256);
                break;
            case 4 when at < bytes.Count:
                bytes[at] ^= (byte)(1 << random.Next(8));
                break;
            case 5:
                Number(bytes, at);
                break;
            case 6 when random.Next(20) == 0:
                var again = bytes.GetRange(at, length);
                for (var i = random.Next(400); i > 0; i--)
                    bytes.InsertRange(at, again);
                break;
            case 7 when random.Next(10) == 0:
                bytes.RemoveRange(at, bytes.Count - at);
                break;
            default:
                bytes.InsertRange(at, Encoding.UTF8.GetBytes(pieces[random.Next(pieces.Count)]));
                break;
        }
    }

    // The next number behind the place becomes another.
    private void Number(List<byte> bytes, int at)
    {
        while (at < bytes.Count && !char.IsAsciiDigit((char)bytes[at]))
            at++;
        var end = at;
        while (end < bytes.Count && char.IsAsciiDigit((char)bytes[end]))
            end++;
        bytes.RemoveRange(at, end - at);
        bytes.InsertRange(at, Encoding.UTF8.GetBytes(Numbers[random.Next(Numbers.Length)]));
    }
}
