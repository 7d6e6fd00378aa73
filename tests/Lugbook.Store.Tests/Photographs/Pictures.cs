using System.Buffers.Binary;
using System.Text;
using SkiaSharp;

namespace Lugbook.Store.Tests.Photographs;

/// <summary>Small pictures whose content is known: a red corner at the upper left as one looks at it, and secrets in the file around it.</summary>
internal static class Pictures
{
    public const string Secret = "SECRET-N51.4778-OWNER";

    /// <summary>Upright: wide × high, grey with a red rectangle in the upper left quarter.</summary>
    public static SKBitmap Upright(int wide = 120, int high = 80)
    {
        var bitmap = new SKBitmap(new SKImageInfo(wide, high, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using var canvas = new SKCanvas(bitmap);
        canvas.Clear(new SKColor(120, 120, 120));
        using var red = new SKPaint { Color = new(220, 20, 20) };
        canvas.DrawRect(0, 0, wide / 2f, high / 2f, red);
        return bitmap;
    }

    /// <summary>The picture as a camera held otherwise stores it, so that the orientation leads back to the upright one. Source: EXIF JEITA CP-3451, tag Orientation.</summary>
    public static byte[] Stored(SKEncodedImageFormat format, int orientation)
    {
        using var upright = Upright();
        var (w, h) = (upright.Width, upright.Height);
        var turned = orientation >= 5;
        using var stored = new SKBitmap(new SKImageInfo(turned ? h : w, turned ? w : h, SKColorType.Rgba8888, SKAlphaType.Opaque));
        for (var y = 0; y < stored.Height; y++)
            for (var x = 0; x < stored.Width; x++)
            {
                // Row 0 and column 0 of the stored picture are, upright: 1 top left, 2 top right, 3 bottom right, 4 bottom left, 5 left top, 6 right top, 7 right bottom, 8 left bottom.
                var (ux, uy) = orientation switch
                {
                    2 => (w - 1 - x, y), 3 => (w - 1 - x, h - 1 - y), 4 => (x, h - 1 - y), 5 => (y, x), 6 => (w - 1 - y, x), 7 => (w - 1 - y, h - 1 - x), 8 => (y, h - 1 - x), _ => (x, y),
                };
                stored.SetPixel(x, y, upright.GetPixel(ux, uy));
            }
        using var data = stored.Encode(format, 95);
        return data.ToArray();
    }

    /// <summary>A JPEG with EXIF (orientation, and a text that is nobody's business), XMP, IPTC, a comment, and something behind its end.</summary>
    public static byte[] Jpeg(int orientation = 1)
    {
        var plain = Stored(SKEncodedImageFormat.Jpeg, orientation);
        byte[] secret = Encoding.ASCII.GetBytes(Secret);
        return [.. plain[..2], .. Segment(0xE1, [.. "Exif\0\0"u8, .. Tiff(orientation)]), .. Segment(0xE1, [.. "http://ns.adobe.com/xap/1.0/\0"u8, .. secret]), .. Segment(0xED, [.. "Photoshop 3.0\0"u8, .. secret]), .. Segment(0xFE, secret), .. plain[2..], .. secret];
    }

    public static byte[] Png(int orientation = 1)
    {
        var plain = Stored(SKEncodedImageFormat.Png, orientation);
        const int afterHeader = 8 + 25;
        return [.. plain[..afterHeader], .. Lugbook.Store.Photographs.PngChunks.Of("eXIf", Tiff(orientation)), .. Lugbook.Store.Photographs.PngChunks.Of("tEXt", [.. "Comment\0"u8, .. Encoding.ASCII.GetBytes(Secret)]), .. plain[afterHeader..], .. Encoding.ASCII.GetBytes(Secret)];
    }

    /// <summary>A WebP in its extended form with EXIF and XMP.</summary>
    public static byte[] Webp(int orientation = 1)
    {
        var plain = Stored(SKEncodedImageFormat.Webp, orientation);
        var (w, h) = orientation >= 5 ? (80, 120) : (120, 80);
        byte[] header = [0x0C, 0, 0, 0, (byte)(w - 1), 0, 0, (byte)(h - 1), 0, 0];
        byte[] body = [.. "WEBP"u8, .. Chunk("VP8X", header), .. plain[12..], .. Chunk("EXIF", Tiff(orientation)), .. Chunk("XMP ", Encoding.ASCII.GetBytes(Secret))];
        var size = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(size, body.Length);
        return [.. "RIFF"u8, .. size, .. body];
    }

    /// <summary>Little-endian TIFF: an image description that is a secret, and the orientation.</summary>
    private static byte[] Tiff(int orientation)
    {
        byte[] text = [.. Encoding.ASCII.GetBytes(Secret), 0];
        byte[] head = [(byte)'I', (byte)'I', 42, 0, 8, 0, 0, 0, 2, 0, 0x0E, 0x01, 2, 0, (byte)text.Length, 0, 0, 0, 38, 0, 0, 0, 0x12, 0x01, 3, 0, 1, 0, 0, 0, (byte)orientation, 0, 0, 0, 0, 0, 0, 0];
        return [.. head, .. text];
    }

    private static byte[] Segment(byte marker, byte[] body) => [0xFF, marker, (byte)((body.Length + 2) >> 8), (byte)((body.Length + 2) & 0xFF), .. body];

    private static byte[] Chunk(string type, byte[] body)
    {
        var size = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(size, body.Length);
        return [.. Encoding.ASCII.GetBytes(type), .. size, .. body, .. (body.Length & 1) != 0 ? new byte[] { 0 } : []];
    }
}
