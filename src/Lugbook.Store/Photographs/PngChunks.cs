using System.Buffers.Binary;
using System.Text;

namespace Lugbook.Store.Photographs;

/// <summary>Writes the chunks of which a PNG consists. Source: W3C PNG, 5.3 and annex D.</summary>
public static class PngChunks
{
    /// <summary>A chunk with its length and check sum, ready to stand in a file.</summary>
    public static byte[] Of(string type, ReadOnlySpan<byte> body)
    {
        var chunk = new byte[12 + body.Length];
        BinaryPrimitives.WriteInt32BigEndian(chunk, body.Length);
        Encoding.ASCII.GetBytes(type, chunk.AsSpan(4));
        body.CopyTo(chunk.AsSpan(8));
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(8 + body.Length), Crc(chunk.AsSpan(4, 4 + body.Length)));
        return chunk;
    }

    private static uint Crc(ReadOnlySpan<byte> bytes)
    {
        var crc = 0xFFFFFFFFu;
        foreach (var b in bytes)
        {
            crc ^= b;
            for (var i = 0; i < 8; i++) crc = (crc & 1) != 0 ? 0xEDB88320u ^ (crc >> 1) : crc >> 1;
        }
        return ~crc;
    }
}
