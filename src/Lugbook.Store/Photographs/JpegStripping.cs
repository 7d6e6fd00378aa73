using System.Buffers.Binary;

namespace Lugbook.Store.Photographs;

/// <summary>JPEG: of the application segments only JFIF, the colour profile and the colour transform stay.</summary>
internal static class JpegStripping
{
    public static byte[] Strip(ReadOnlySpan<byte> bytes)
    {
        using var to = new MemoryStream(bytes.Length);
        to.Write(bytes[..2]);
        int? orientation = null;
        var at = 2;
        var wroteOrientation = false;
        while (true)
        {
            while (at < bytes.Length && bytes[at] != 0xFF) at++;           // stray bytes between segments
            while (at + 1 < bytes.Length && bytes[at + 1] == 0xFF) at++;    // fill bytes
            if (at + 1 >= bytes.Length) throw new InvalidDataException("This JPEG has no end.");
            var marker = bytes[at + 1];
            if (marker == 0xD9) break;
            if (marker is 0x01 or (>= 0xD0 and <= 0xD7)) { to.Write(bytes.Slice(at, 2)); at += 2; continue; }
            var length = BinaryPrimitives.ReadUInt16BigEndian(bytes.Slice(at + 2, 2));
            var segment = bytes.Slice(at, 2 + length);
            var body = segment[4..];
            at += segment.Length;
            if (marker == 0xE1 && orientation is null && body.StartsWith("Exif\0\0"u8)) orientation = Orientation.Read(body[6..]);
            if (IsPicture(marker, body))
            {
                // JFIF, where there is one, must come first; the orientation comes before everything else.
                if (marker != 0xE0 && !wroteOrientation && marker is not (0xE2 or 0xEE)) WriteOrientation(to, orientation, ref wroteOrientation);
                to.Write(segment);
            }
            if (marker != 0xDA) continue;
            var end = at;
            while (end + 1 < bytes.Length && !(bytes[end] == 0xFF && bytes[end + 1] is not (0x00 or 0xFF or (>= 0xD0 and <= 0xD7)))) end++;
            if (end + 1 >= bytes.Length) throw new InvalidDataException("This JPEG has no end.");
            to.Write(bytes[at..end]);
            at = end;
        }
        to.Write([0xFF, 0xD9]);
        return to.ToArray();
    }

    private static bool IsPicture(byte marker, ReadOnlySpan<byte> body) => marker switch
    {
        0xE0 => body.StartsWith("JFIF\0"u8),
        0xE2 => body.StartsWith("ICC_PROFILE\0"u8),
        0xEE => body.StartsWith("Adobe"u8),
        >= 0xE0 and <= 0xEF or 0xFE => false,
        _ => true,
    };

    private static void WriteOrientation(MemoryStream to, int? value, ref bool written)
    {
        written = true;
        if (value is not (> 1 and var turn)) return;
        byte[] body = [.. "Exif\0\0"u8, .. Orientation.Write(turn)];
        to.Write([0xFF, 0xE1, 0, (byte)(body.Length + 2), .. body]);
    }
}
