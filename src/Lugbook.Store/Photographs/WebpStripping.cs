using System.Buffers.Binary;
using System.Text;

namespace Lugbook.Store.Photographs;

/// <summary>WebP: EXIF, XMP and unknown chunks go, and the header's flags say so; the orientation stays alone.</summary>
internal static class WebpStripping
{
    private const byte ExifFlag = 0x08, XmpFlag = 0x04;

    public static byte[] Strip(ReadOnlySpan<byte> bytes)
    {
        var end = Math.Min(bytes.Length, 8L + BinaryPrimitives.ReadUInt32LittleEndian(bytes.Slice(4, 4)));
        using var to = new MemoryStream(bytes.Length);
        to.Write(bytes[..12]);
        int? orientation = null;
        var header = -1L;
        for (long at = 12; at + 8 <= end;)
        {
            var type = Encoding.ASCII.GetString(bytes.Slice((int)at, 4));
            var length = BinaryPrimitives.ReadUInt32LittleEndian(bytes.Slice((int)at + 4, 4));
            var whole = 8 + length + (length & 1);
            if (at + 8 + length > end) throw new InvalidDataException("This WebP is cut short.");
            var chunk = bytes.Slice((int)at, (int)Math.Min(whole, end - at));
            if (type == "EXIF") orientation ??= Read(chunk.Slice(8, (int)length));
            else if (type is "VP8X" or "ICCP" or "ANIM" or "ANMF" or "ALPH" or "VP8 " or "VP8L")
            {
                if (type == "VP8X") header = to.Position;
                to.Write(chunk);
                if ((to.Position & 1) != 0) to.WriteByte(0);
            }
            at += whole;
        }
        var kept = orientation is > 1 && header >= 0;
        if (kept)
        {
            var block = Orientation.Write(orientation!.Value);
            Span<byte> head = [(byte)'E', (byte)'X', (byte)'I', (byte)'F', (byte)block.Length, 0, 0, 0];
            to.Write(head);
            to.Write(block);
        }
        var result = to.ToArray();
        BinaryPrimitives.WriteUInt32LittleEndian(result.AsSpan(4), (uint)(result.Length - 8));
        if (header >= 0) result[header + 8] = (byte)(result[header + 8] & ~(ExifFlag | XmpFlag) | (kept ? ExifFlag : 0));
        return result;
    }

    // Some writers put JPEG's own prefix before the block.
    private static int? Read(ReadOnlySpan<byte> exif) => Orientation.Read(exif.StartsWith("Exif\0\0"u8) ? exif[6..] : exif);
}
