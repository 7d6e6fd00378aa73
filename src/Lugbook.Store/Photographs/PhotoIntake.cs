using Lugbook.Trade.Text;
using SkiaSharp;

namespace Lugbook.Store.Photographs;

/// <summary>Looks at what claims to be a photograph and accepts it by its content alone.</summary>
/// <remarks>
/// Accepted: JPEG, PNG and WebP, at most 40 MiB, sides from 16 to 20,000 pixels; JPEG up to 120 megapixels, which are decoded scaled down,
/// the others up to 40 megapixels, which must be decoded whole. The whole file must decode: one that is cut short is refused.
/// </remarks>
public static class PhotoIntake
{
    /// <summary>Bytes that a photograph may have: 40 MiB.</summary>
    public const int MostBytes = 40 * 1024 * 1024;
    private const int ShortestSide = 16, LongestSide = 20_000;
    private const long JpegPixels = 120_000_000, OtherPixels = 40_000_000;

    /// <summary>The content, or why it is refused. Decodes it once: call it off a page's own thread.</summary>
    /// <param name="bytes">The file.</param>
    /// <param name="place">What to call it in a complaint.</param>
    public static (PhotoContent? Content, Complaint? Complaint) Check(ReadOnlyMemory<byte> bytes, string place)
    {
        if (bytes.Length == 0) return Refused("this file is empty.", "Choose the photograph again.");
        if (bytes.Length > MostBytes) return Refused($"this file has {bytes.Length / (1024 * 1024)} MiB; {MostBytes / (1024 * 1024)} MiB is the limit.", "Save it smaller: 12 megapixels as JPEG show every lug.");
        if (MediaTypeOf(bytes.Span) is not { } type) return Refused(Other(bytes.Span), "Send a JPEG, PNG or WebP picture.");
        using var data = SKData.CreateCopy(bytes.Span);
        using var codec = SKCodec.Create(data);
        if (codec is null || codec.EncodedFormat != FormatOf(type)) return Refused($"this begins like a {NameOf(type)} picture and cannot be decoded as one.", "Take another copy of the file, or take the photograph again.");
        var (across, down) = (codec.Info.Width, codec.Info.Height);
        if (Math.Min(across, down) < ShortestSide || Math.Max(across, down) > LongestSide) return Refused($"this picture has {across} × {down} pixels; each side must have from {ShortestSide} to {LongestSide}.", "Scale it, or take the photograph again.");
        var most = type == "image/jpeg" ? JpegPixels : OtherPixels;
        if ((long)across * down > most) return Refused($"this picture has {(long)across * down / 1_000_000} megapixels; {most / 1_000_000} is the limit for {NameOf(type)}.", "Scale it down: 12 megapixels show every lug.");
        if (!PhotoCopy.DecodesWhole(codec)) return Refused($"this {NameOf(type)} picture is cut short or damaged.", "Send it again, or take another copy of the file.");
        var turned = PhotoCopy.OriginOf(codec, bytes.Span) is SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightTop or SKEncodedOrigin.RightBottom or SKEncodedOrigin.LeftBottom;
        return (new(PhotoContent.SumOf(bytes.Span), type, turned ? down : across, turned ? across : down, bytes), null);

        (PhotoContent?, Complaint?) Refused(string problem, string remedy) => (null, new(place, "", 0, problem, remedy));
    }

    /// <summary>The kind of picture by its first bytes; null when it is none of the three.</summary>
    internal static string? MediaTypeOf(ReadOnlySpan<byte> bytes) => bytes switch
    {
        [0xFF, 0xD8, 0xFF, ..] => "image/jpeg",
        [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A, ..] => "image/png",
        [(byte)'R', (byte)'I', (byte)'F', (byte)'F', _, _, _, _, (byte)'W', (byte)'E', (byte)'B', (byte)'P', ..] => "image/webp",
        _ => null,
    };

    private static SKEncodedImageFormat FormatOf(string type) => type switch { "image/png" => SKEncodedImageFormat.Png, "image/webp" => SKEncodedImageFormat.Webp, _ => SKEncodedImageFormat.Jpeg };

    private static string NameOf(string type) => type switch { "image/png" => "PNG", "image/webp" => "WebP", _ => "JPEG" };

    private static string Other(ReadOnlySpan<byte> bytes) => bytes switch
    {
        [_, _, _, _, (byte)'f', (byte)'t', (byte)'y', (byte)'p', (byte)'h' or (byte)'m', ..] => "this is a HEIF picture, as some telephones take them, or a film. Set the camera to its most compatible form, which is JPEG.",
        [_, _, _, _, (byte)'f', (byte)'t', (byte)'y', (byte)'p', ..] => "this is a film or an AVIF picture.",
        [(byte)'G', (byte)'I', (byte)'F', (byte)'8', ..] => "this is a GIF picture, which has too few colours for bands and insulation.",
        [(byte)'I', (byte)'I', (byte)'*', 0, ..] or [(byte)'M', (byte)'M', 0, (byte)'*', ..] => "this is a TIFF or a camera's raw picture.",
        [(byte)'%', (byte)'P', (byte)'D', (byte)'F', ..] => "this is a PDF.",
        [(byte)'B', (byte)'M', ..] => "this is a BMP picture.",
        [(byte)'<', ..] => "this is a drawing (SVG) or a web page, not a photograph.",
        _ => "this is no picture that Lugbook knows.",
    };
}
