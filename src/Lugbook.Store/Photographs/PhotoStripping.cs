namespace Lugbook.Store.Photographs;

/// <summary>Takes out of a picture's file everything that is not the picture, without touching its pixels.</summary>
/// <remarks>
/// Kept: pixels, colour profile, what is needed to decode, and the orientation (written anew, alone). Gone: place, time, camera, owner, comments, thumbnails,
/// and whatever hangs behind the picture's end. Sources: JPEG ISO/IEC 10918-1 annex B; PNG W3C recommendation, chunk specifications; WebP container RFC 9649; EXIF JEITA CP-3451 (tag 0x0112).
/// </remarks>
public static class PhotoStripping
{
    /// <summary>The file without what is not the picture.</summary>
    /// <exception cref="InvalidDataException">The file's own structure is broken.</exception>
    public static byte[] Strip(PhotoContent content)
    {
        ArgumentNullException.ThrowIfNull(content);
        try
        {
            return content.MediaType switch { "image/png" => PngStripping.Strip(content.Bytes.Span), "image/webp" => WebpStripping.Strip(content.Bytes.Span), _ => JpegStripping.Strip(content.Bytes.Span) };
        }
        catch (ArgumentOutOfRangeException broken)
        {
            throw new InvalidDataException("The file's own structure is broken.", broken);
        }
    }
}
