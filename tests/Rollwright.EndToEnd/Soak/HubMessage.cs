using System.Buffers;
using MessagePack;

namespace Rollwright.EndToEnd.Soak;

/// <summary>
/// A message of Blazor's line in SignalR's hub protocol in MessagePack, as ASP.NET Core's repository describes it (HubProtocol.md): as many as
/// a frame has, each behind its length in groups of seven bits.
/// </summary>
/// <param name="Kind">1 a call, 3 the end of one, 6 a sign of life, 7 the end of the line.</param>
/// <param name="Id">Of a call that is to be answered, or was; empty for none.</param>
/// <param name="Target">What is called; empty for no call.</param>
/// <param name="Arguments">Texts, whole numbers, bytes, yes or no, null; of a call's end its result, of the line's end its error.</param>
internal sealed record HubMessage(int Kind, string Id, string Target, IReadOnlyList<object?> Arguments)
{
    public static readonly byte[] SignOfLife = Framed(
        (ref MessagePackWriter writer) =>
        {
            writer.WriteArrayHeader(1);
            writer.Write(6);
        }
    );

    private delegate void Writing(ref MessagePackWriter writer);

    /// <summary>A call, framed.</summary>
    public static byte[] Call(string? id, string target, params object?[] arguments) =>
        Framed(
            (ref MessagePackWriter writer) =>
            {
                writer.WriteArrayHeader(6);
                writer.Write(1);
                writer.WriteMapHeader(0);
                writer.Write(id);
                writer.Write(target);
                writer.WriteArrayHeader(arguments.Length);
                foreach (var argument in arguments)
                    Write(ref writer, argument);
                writer.WriteArrayHeader(0);
            }
        );

    /// <summary>The messages of a frame.</summary>
    public static IEnumerable<HubMessage> Read(ReadOnlyMemory<byte> frame)
    {
        while (!frame.IsEmpty)
        {
            var (length, at, shift) = (0, 0, 0);
            byte group;
            do
            {
                group = frame.Span[at++];
                length |= (group & 0x7f) << shift;
                shift += 7;
            } while ((group & 0x80) != 0);
            yield return One(frame.Slice(at, length));
            frame = frame[(at + length)..];
        }
    }

    private static HubMessage One(ReadOnlyMemory<byte> bytes)
    {
        var reader = new MessagePackReader(bytes);
        var count = reader.ReadArrayHeader();
        var kind = reader.ReadInt32();
        switch (kind)
        {
            case 1:
                reader.Skip();
                var id = reader.ReadString() ?? "";
                var target = reader.ReadString()!;
                return new(kind, id, target, All(ref reader));
            case 3:
                reader.Skip();
                var ended = reader.ReadString()!;
                // 2 is a call without a result.
                return new(kind, ended, "", reader.ReadInt32() == 2 ? [] : [Value(ref reader)]);
            case 7:
                return new(kind, "", "", count > 1 ? [Value(ref reader)] : []);
            default:
                return new(kind, "", "", []);
        }
    }

    private static object?[] All(ref MessagePackReader reader)
    {
        var all = new object?[reader.ReadArrayHeader()];
        for (var i = 0; i < all.Length; i++)
            all[i] = Value(ref reader);
        return all;
    }

    private static object? Value(ref MessagePackReader reader)
    {
        switch (reader.NextMessagePackType)
        {
            case MessagePackType.Integer:
                return reader.ReadInt64();
            case MessagePackType.String:
                return reader.ReadString();
            case MessagePackType.Boolean:
                return reader.ReadBoolean();
            case MessagePackType.Binary:
                return reader.ReadBytes()?.ToArray();
            case MessagePackType.Float:
                return reader.ReadDouble();
            default:
                reader.Skip();
                return null;
        }
    }

    private static void Write(ref MessagePackWriter writer, object? value)
    {
        switch (value)
        {
            case null:
                writer.WriteNil();
                break;
            case bool yes:
                writer.Write(yes);
                break;
            case long number:
                writer.Write(number);
                break;
            default:
                writer.Write((string)value);
                break;
        }
    }

    private static byte[] Framed(Writing write)
    {
        var buffer = new ArrayBufferWriter<byte>();
        var writer = new MessagePackWriter(buffer);
        write(ref writer);
        writer.Flush();
        var framed = new List<byte>();
        for (var left = buffer.WrittenCount; ; left >>= 7)
        {
            framed.Add((byte)((left & 0x7f) | (left > 0x7f ? 0x80 : 0)));
            if (left <= 0x7f)
                break;
        }
        return [.. framed, .. buffer.WrittenSpan];
    }
}
