using System.Buffers.Binary;

namespace Lugbook.Store.Photographs;

/// <summary>The one tag of EXIF that belongs to the picture: which way up it is.</summary>
internal static class Orientation
{
    /// <summary>The value of tag 0x0112 in the first directory of a TIFF block; null when it says nothing or nothing valid.</summary>
    public static int? Read(ReadOnlySpan<byte> tiff)
    {
        if (tiff.Length < 14) return null;
        var little = tiff[0] == 'I';
        if (!little && tiff[0] != 'M') return null;
        var at = little ? BinaryPrimitives.ReadUInt32LittleEndian(tiff[4..]) : BinaryPrimitives.ReadUInt32BigEndian(tiff[4..]);
        if (at > tiff.Length - 2) return null;
        var count = Short(tiff[(int)at..], little);
        for (var i = 0; i < count; i++)
        {
            var entry = (long)at + 2 + 12L * i;
            if (entry + 12 > tiff.Length) return null;
            if (Short(tiff[(int)entry..], little) == 0x0112) return Short(tiff[((int)entry + 8)..], little) is >= 1 and <= 8 and var value ? value : null;
        }
        return null;
    }

    /// <summary>A TIFF block that says only this.</summary>
    public static byte[] Write(int value) =>
        [(byte)'M', (byte)'M', 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, (byte)value, 0, 0, 0, 0, 0, 0];

    private static int Short(ReadOnlySpan<byte> bytes, bool little) => little ? BinaryPrimitives.ReadUInt16LittleEndian(bytes) : BinaryPrimitives.ReadUInt16BigEndian(bytes);
}
