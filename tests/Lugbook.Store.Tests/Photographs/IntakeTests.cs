using System.Text;
using Lugbook.Store.Photographs;
using SkiaSharp;

namespace Lugbook.Store.Tests.Photographs;

/// <summary>Source: docs/photographs.md, "What is accepted" and "What leaves the store".</summary>
public class IntakeTests
{
    private static byte[] Of(string kind, int orientation) => kind switch { "png" => Pictures.Png(orientation), "webp" => Pictures.Webp(orientation), _ => Pictures.Jpeg(orientation) };

    public static TheoryData<string, int> KindsAndOrientations => [.. from kind in new[] { "jpeg", "png", "webp" } from o in Enumerable.Range(1, 8) select (kind, o)];

    [Theory]
    [MemberData(nameof(KindsAndOrientations))]
    public void However_the_camera_was_held_the_copy_stands_upright(string kind, int orientation)
    {
        var (content, complaint) = PhotoIntake.Check(Of(kind, orientation), "x");
        Assert.Null(complaint);
        Assert.Equal(($"image/{kind}", 120, 80), (content!.MediaType, content.Width, content.Height));
        AssertUpright(PhotoCopy.Make(content.Bytes.Span, 60), 60, 40);
        AssertUpright(PhotoCopy.Make(content.Bytes.Span, 5000), 120, 80);   // never larger than the original
    }

    [Theory]
    [MemberData(nameof(KindsAndOrientations))]
    public void Stripping_takes_out_all_but_the_picture_and_which_way_up_it_is(string kind, int orientation)
    {
        var bytes = Of(kind, orientation);
        Assert.Contains(Pictures.Secret, Encoding.Latin1.GetString(bytes), StringComparison.Ordinal);   // the secret is there to be found
        var content = PhotoIntake.Check(bytes, "x").Content!;
        var stripped = PhotoStripping.Strip(content);
        Assert.DoesNotContain("SECRET", Encoding.Latin1.GetString(stripped), StringComparison.Ordinal);
        Assert.DoesNotContain("xap", Encoding.Latin1.GetString(stripped), StringComparison.Ordinal);
        var again = PhotoIntake.Check(stripped, "x").Content!;
        Assert.Equal((content.Width, content.Height), (again.Width, again.Height));
        AssertUpright(PhotoCopy.Make(stripped, 60), 60, 40);
        using SKBitmap before = SKBitmap.Decode(bytes), after = SKBitmap.Decode(stripped);
        Assert.Equal(before.Bytes, after.Bytes);   // every pixel as it was taken
        Assert.Equal(stripped, PhotoStripping.Strip(again));
    }

    [Fact]
    public void A_copy_carries_nothing_but_pixels()
    {
        foreach (var kind in new[] { "jpeg", "png", "webp" })
        {
            var copy = Encoding.Latin1.GetString(PhotoCopy.Make(Of(kind, 6), 100));
            Assert.DoesNotContain("SECRET", copy, StringComparison.Ordinal);
            Assert.DoesNotContain("Exif", copy, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("empty", "")]
    [InlineData("HEIF", "\0\0\0\u0018ftypheic\0\0\0\0")]
    [InlineData("GIF", "GIF89a\u0001\0\u0001\0")]
    [InlineData("TIFF", "II*\0\u0008\0\0\0")]
    [InlineData("PDF", "%PDF-1.7")]
    [InlineData("SVG", "<svg xmlns='http://www.w3.org/2000/svg'/>")]
    [InlineData("no picture", "MZ\u0090\0")]
    [InlineData("cannot be decoded", "\u00FF\u00D8\u00FF\u00E0nonsense")]
    [InlineData("cannot be decoded", "\u0089PNG\r\n\u001A\nnonsense")]
    public void What_is_no_picture_is_refused_by_its_content_and_told_what_it_is(string says, string bytes)
    {
        var (content, complaint) = PhotoIntake.Check(Encoding.Latin1.GetBytes(bytes), "photo.jpg");
        Assert.Null(content);
        Assert.Contains(says, complaint!.Problem, StringComparison.Ordinal);
        Assert.NotEqual("", complaint.Remedy);
    }

    [Fact]
    public void A_picture_that_is_cut_short_is_refused()
    {
        foreach (var whole in new[] { Pictures.Stored(SKEncodedImageFormat.Jpeg, 1), Pictures.Stored(SKEncodedImageFormat.Png, 1), Pictures.Stored(SKEncodedImageFormat.Webp, 1) })
        {
            Assert.NotNull(PhotoIntake.Check(whole, "x").Content);
            Assert.Null(PhotoIntake.Check(whole.AsMemory(0, whole.Length * 2 / 3), "x").Content);
        }
    }

    [Fact]
    public void Limits_of_bytes_and_pixels_hold_before_anything_is_decoded()
    {
        Assert.Contains("41 MiB", PhotoIntake.Check(new byte[41 * 1024 * 1024], "x").Complaint!.Problem, StringComparison.Ordinal);
        // A PNG whose header promises 15,000 × 15,000 pixels in a few bytes.
        var bomb = Pictures.Stored(SKEncodedImageFormat.Png, 1);
        byte[] header = [0, 0, 0x3A, 0x98, 0, 0, 0x3A, 0x98, .. bomb[24..29]];
        byte[] forged = [.. bomb[..8], .. PngChunks.Of("IHDR", header), .. bomb[33..]];
        Assert.Contains("225 megapixels", PhotoIntake.Check(forged, "x").Complaint!.Problem, StringComparison.Ordinal);
        using var narrow = new SKBitmap(400, 8);
        using var data = narrow.Encode(SKEncodedImageFormat.Png, 90);
        Assert.Contains("400 × 8", PhotoIntake.Check(data.ToArray(), "x").Complaint!.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Random_damage_is_refused_or_read_never_thrown()
    {
        var random = new Random(20);
        foreach (var kind in new[] { "jpeg", "png", "webp" })
            for (var i = 0; i < 60; i++)
            {
                var bytes = Of(kind, 1 + i % 8);
                for (var k = 0; k < 4; k++) bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
                if (PhotoIntake.Check(bytes, "x").Content is not { } content) continue;
                Assert.NotEmpty(PhotoCopy.Make(content.Bytes.Span, 50));
                try { Assert.NotEmpty(PhotoStripping.Strip(content)); }
                catch (InvalidDataException) { }
            }
    }

    internal static void AssertUpright(byte[] jpeg, int width, int height)
    {
        using var bitmap = SKBitmap.Decode(jpeg);
        Assert.Equal((width, height), (bitmap.Width, bitmap.Height));
        bool Red(double x, double y) => bitmap.GetPixel((int)(x * width), (int)(y * height)) is { Red: > 180, Green: < 80 };
        Assert.Equal((true, false, false, false), (Red(0.2, 0.2), Red(0.8, 0.2), Red(0.2, 0.8), Red(0.8, 0.8)));
    }
}
