using System.Buffers.Binary;
using System.Globalization;
using System.Xml.Linq;
using SkiaSharp;

namespace Lugbook.Drawing.Raster;

/// <summary>Makes a PNG of one of our own drawings from the very SVG that is written, so that both show the same.</summary>
/// <remarks>Text is set in DejaVu Sans, which is in the program: the picture is the same on every machine. The file says its resolution, so that it prints to scale.</remarks>
internal static class PictureWriter
{
    private const double MillimetresPerInch = 25.4;
    /// <summary>Sides and area of a picture, pixels.</summary>
    private const int LongestSide = 20_000;
    private const long MostPixels = 100_000_000;

    /// <summary>The drawing as PNG, or why it would be too large.</summary>
    /// <param name="svg">What <see cref="SvgWriter"/> or the stage diagram wrote; a unit is a millimetre.</param>
    /// <param name="dotsPerInch">Pixels an inch of paper, 24 to 1200.</param>
    public static (byte[] Png, string? Refusal) Png(string svg, int dotsPerInch)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(dotsPerInch, 24);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(dotsPerInch, 1200);
        var root = XDocument.Parse(svg).Root!;
        var box = SvgValues.Numbers((string)root.Attribute("viewBox")!);
        var scale = dotsPerInch / MillimetresPerInch;
        var (width, height) = ((int)Math.Ceiling(box[2] * scale), (int)Math.Ceiling(box[3] * scale));
        if (Math.Max(width, height) > LongestSide || (long)width * height > MostPixels)
            return ([], string.Create(CultureInfo.InvariantCulture, $"at {dotsPerInch} dots an inch this picture would have {width} × {height} pixels, and {MostPixels / 1_000_000} million are the limit. Choose fewer with --dpi."));
        using var surface = SKSurface.Create(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Premul, SKColorSpace.CreateSrgb()));
        var canvas = surface.Canvas;
        canvas.Clear(SKColors.White);
        canvas.Scale((float)scale);
        canvas.Translate((float)-box[0], (float)-box[1]);
        new SvgPainter(root).Paint(canvas);
        using var image = surface.Snapshot();
        using var data = image.Encode(SKEncodedImageFormat.Png, 100);
        return (WithResolution(data.ToArray(), scale * 1000), null);
    }

    /// <summary>Puts the chunk pHYs behind the header. Source: W3C PNG, 11.3.4.3: pixels a metre, both ways, unit 1.</summary>
    private static byte[] WithResolution(byte[] png, double pixelsPerMetre)
    {
        const int afterHeader = 8 + 25;
        var body = new byte[9];
        BinaryPrimitives.WriteInt32BigEndian(body, (int)Math.Round(pixelsPerMetre));
        BinaryPrimitives.WriteInt32BigEndian(body.AsSpan(4), (int)Math.Round(pixelsPerMetre));
        body[8] = 1;
        return [.. png[..afterHeader], .. Lugbook.Store.Photographs.PngChunks.Of("pHYs", body), .. png[afterHeader..]];
    }
}
