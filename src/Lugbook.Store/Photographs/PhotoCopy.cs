using SkiaSharp;

namespace Lugbook.Store.Photographs;

/// <summary>Sized-down copies: upright, JPEG, with nothing in them but pixels.</summary>
/// <remarks>The camera's orientation is applied to the pixels; time, place, camera and thumbnail are not written, because nothing but pixels is encoded.</remarks>
public static class PhotoCopy
{
    /// <summary>Longest side of the copy for lists, pixels.</summary>
    public const int Small = 360;
    /// <summary>Longest side of the copy for looking and for laying beneath the drawing, pixels.</summary>
    public const int Large = 2400;
    private const int Quality = 88;

    /// <summary>A copy no longer than this many pixels; never larger than the original. Takes up to a second for a large picture: not on a page's own thread.</summary>
    /// <param name="bytes">Content that <see cref="PhotoIntake"/> accepted.</param>
    /// <param name="side">Longest side, pixels.</param>
    /// <returns>JPEG.</returns>
    /// <exception cref="InvalidDataException">The content cannot be decoded any more.</exception>
    public static byte[] Make(ReadOnlySpan<byte> bytes, int side)
    {
        using var data = SKData.CreateCopy(bytes);
        using var codec = SKCodec.Create(data) ?? throw new InvalidDataException("This photograph cannot be decoded.");
        using var decoded = Decode(codec, side) ?? throw new InvalidDataException("This photograph cannot be decoded.");
        using var upright = Upright(decoded, OriginOf(codec, bytes), side);
        using var encoded = upright.Encode(SKEncodedImageFormat.Jpeg, Quality) ?? throw new InvalidDataException("This photograph cannot be encoded.");
        return encoded.ToArray();
    }

    /// <summary>Which way up the picture is. The decoder does not look for it in PNG.</summary>
    internal static SKEncodedOrigin OriginOf(SKCodec codec, ReadOnlySpan<byte> bytes)
    {
        if (codec.EncodedFormat != SKEncodedImageFormat.Png) return codec.EncodedOrigin;
        try { return PngStripping.Find(bytes) is { } value ? (SKEncodedOrigin)value : SKEncodedOrigin.TopLeft; }
        catch (Exception broken) when (broken is InvalidDataException or ArgumentOutOfRangeException) { return SKEncodedOrigin.TopLeft; }
    }

    internal static bool DecodesWhole(SKCodec codec)
    {
        var size = codec.GetScaledDimensions(1 / 8f);
        using var bitmap = new SKBitmap();
        return bitmap.TryAllocPixels(Plain(size)) && codec.GetPixels(bitmap.Info, bitmap.GetPixels()) == SKCodecResult.Success;
    }

    private static SKBitmap? Decode(SKCodec codec, int side)
    {
        // The smallest size that the decoder makes by itself and that is not below what is wanted.
        var wanted = Math.Min(1f, side / (float)Math.Max(codec.Info.Width, codec.Info.Height));
        var size = codec.GetScaledDimensions(wanted);
        for (var eighths = 1; eighths <= 8 && Math.Max(size.Width, size.Height) < side && size != codec.Info.Size; eighths++) size = codec.GetScaledDimensions(Math.Max(wanted, eighths / 8f));
        var bitmap = new SKBitmap();
        if (bitmap.TryAllocPixels(Plain(size)) && codec.GetPixels(bitmap.Info, bitmap.GetPixels()) is SKCodecResult.Success or SKCodecResult.IncompleteInput) return bitmap;
        bitmap.Dispose();
        return null;
    }

    // Whatever lies under transparency is shown on white, as on paper.
    private static SKBitmap Upright(SKBitmap from, SKEncodedOrigin origin, int side)
    {
        var turned = origin is SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightTop or SKEncodedOrigin.RightBottom or SKEncodedOrigin.LeftBottom;
        var scale = Math.Min(1.0, side / (double)Math.Max(from.Width, from.Height));
        int w = Math.Max(1, (int)Math.Round(from.Width * scale)), h = Math.Max(1, (int)Math.Round(from.Height * scale));
        var to = new SKBitmap(new SKImageInfo(turned ? h : w, turned ? w : h, SKColorType.Rgba8888, SKAlphaType.Opaque, SKColorSpace.CreateSrgb()));
        using var canvas = new SKCanvas(to);
        canvas.Clear(SKColors.White);
        canvas.SetMatrix(Matrix(origin, w, h));
        using var image = SKImage.FromBitmap(from);
        canvas.DrawImage(image, new SKRect(0, 0, w, h), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        canvas.Flush();
        return to;
    }

    /// <summary>From the stored picture to the upright one. Source: the eight values of the tag Orientation in the EXIF standard (JEITA CP-3451).</summary>
    private static SKMatrix Matrix(SKEncodedOrigin origin, float w, float h) => origin switch
    {
        SKEncodedOrigin.TopRight => new(-1, 0, w, 0, 1, 0, 0, 0, 1),
        SKEncodedOrigin.BottomRight => new(-1, 0, w, 0, -1, h, 0, 0, 1),
        SKEncodedOrigin.BottomLeft => new(1, 0, 0, 0, -1, h, 0, 0, 1),
        SKEncodedOrigin.LeftTop => new(0, 1, 0, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightTop => new(0, -1, h, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightBottom => new(0, -1, h, -1, 0, w, 0, 0, 1),
        SKEncodedOrigin.LeftBottom => new(0, 1, 0, -1, 0, w, 0, 0, 1),
        _ => SKMatrix.Identity,
    };

    private static SKImageInfo Plain(SKSizeI size) => new(size.Width, size.Height, SKColorType.Rgba8888, SKAlphaType.Premul, SKColorSpace.CreateSrgb());
}
