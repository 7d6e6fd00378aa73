using System.Buffers.Binary;
using System.Text;

namespace Lugbook.Store.Photographs;

/// <summary>PNG: the chunks that make the picture and its colours stay; of eXIf the orientation alone.</summary>
internal static class PngStripping
{
    private static readonly HashSet<string> Picture = ["IHDR", "PLTE", "IDAT", "IEND", "tRNS", "cHRM", "gAMA", "iCCP", "sBIT", "sRGB", "cICP", "bKGD", "pHYs"];

    public static byte[] Strip(ReadOnlySpan<byte> bytes)
    {
        using var to = new MemoryStream(bytes.Length);
        to.Write(bytes[..8]);
        // The chunk of the orientation may stand behind the pixels; it is written before them.
        var orientation = Find(bytes);
        for (var at = 8; at < bytes.Length;)
        {
            var (type, chunk) = Next(bytes, at);
            if (Picture.Contains(type)) to.Write(chunk);
            if (type == "IHDR" && orientation is > 1 and { } turn) to.Write(PngChunks.Of("eXIf", Orientation.Write(turn)));
            if (type == "IEND") return to.ToArray();
            at += chunk.Length;
        }
        throw new InvalidDataException("This PNG has no end.");
    }

    /// <summary>What its eXIf chunk says of the orientation; null when it says nothing.</summary>
    public static int? Find(ReadOnlySpan<byte> bytes)
    {
        for (var at = 8; at < bytes.Length;)
        {
            var (type, chunk) = Next(bytes, at);
            if (type == "eXIf") return Orientation.Read(chunk[8..^4]);
            if (type == "IEND") return null;
            at += chunk.Length;
        }
        return null;
    }

    private static Named Next(ReadOnlySpan<byte> bytes, int at)
    {
        var length = BinaryPrimitives.ReadInt32BigEndian(bytes.Slice(at, 4));
        return length < 0 || length > bytes.Length - at - 12 ? throw new InvalidDataException("This PNG is cut short.") : new(Encoding.ASCII.GetString(bytes.Slice(at + 4, 4)), bytes.Slice(at, 12 + length));
    }

    private readonly ref struct Named(string type, ReadOnlySpan<byte> chunk)
    {
        private readonly ReadOnlySpan<byte> _chunk = chunk;
        public void Deconstruct(out string name, out ReadOnlySpan<byte> all)
        {
            name = type;
            all = _chunk;
        }
    }
}
