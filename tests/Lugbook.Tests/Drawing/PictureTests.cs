using System.Xml.Linq;
using Lugbook.Drawing;
using Lugbook.Drawing.Raster;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Square;
using Lugbook.Trade.Photographs;
using Lugbook.Web;
using SkiaSharp;

namespace Lugbook.Tests.Drawing;

/// <summary>The picture is the SVG: every rule of the style sheets is understood, and colours come out as they are written.</summary>
public class PictureTests
{
    [Fact]
    public void Every_option_of_every_demo_can_be_painted()
    {
        foreach (var name in new[] { "radio", "amp" })
            foreach (var options in new[] { DrawingOptions.Default with { ShowWork = true }, DrawingOptions.Default with { Mirror = true, Rotate = Turn.Quarter, Stage = "V1" } })
                Assert.Null(PictureWriter.Png(new DrawnSvg(DemoBooks.Read(name), options).Text, 24).Refusal);
    }

    [Theory]
    [InlineData("<rect class=\"a\" x=\"0\" y=\"0\" width=\"10\" height=\"10\"/>", 0x11, 0x22, 0x33)]
    [InlineData("<g class=\"b\"><rect class=\"c\" x=\"0\" y=\"0\" width=\"10\" height=\"10\"/></g>", 0xAA, 0xBB, 0xCC)]                       // a descendant
    [InlineData("<g class=\"b\"><g><rect class=\"d\" x=\"0\" y=\"0\" width=\"10\" height=\"10\"/></g></g>", 0, 0, 0)]                            // not a child
    [InlineData("<g class=\"b\"><rect class=\"d\" x=\"0\" y=\"0\" width=\"10\" height=\"10\"/></g>", 0x44, 0x55, 0x66)]                          // a child
    [InlineData("<rect class=\"a\" style=\"fill:#778899\" x=\"0\" y=\"0\" width=\"10\" height=\"10\"/>", 0x77, 0x88, 0x99)]                      // its own style wins
    [InlineData("<g data-k=\"v\"><rect class=\"e\" x=\"0\" y=\"0\" width=\"10\" height=\"10\"/></g>", 0x0F, 0x0E, 0x0D)]                        // an attribute, and :not
    [InlineData("<g data-k=\"v\"><rect class=\"e hl\" x=\"0\" y=\"0\" width=\"10\" height=\"10\"/></g>", 0, 0, 0)]
    [InlineData("<g style=\"fill:#123456\"><path d=\"M0 0L10 0L10 10L0 10Z\"/></g>", 0x12, 0x34, 0x56)]                                         // inherited
    public void Rules_hold_as_they_do_in_a_browser(string element, int red, int green, int blue)
    {
        const string css = "svg{--x:var(--unknown,#112233)}.a{fill:var(--x)}.b .c{fill:#aabbcc}.b>.d{fill:#445566}[data-k=v] .e:not(.hl){fill:#0f0e0d}.a:hover{fill:#ffffff}@media print{.a{fill:#ffffff}}";
        using var picture = SKBitmap.Decode(PictureWriter.Png($"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 10 10\"><style>{css}</style>{element}</svg>", 100).Png);
        Assert.Equal(new SKColor((byte)red, (byte)green, (byte)blue), picture.GetPixel(picture.Width / 2, picture.Height / 2));
    }

    [Fact]
    public void A_rule_that_is_not_understood_is_told_and_not_lost()
    {
        Assert.Throws<NotSupportedException>(() => new StyleRules(".a::before{fill:#000}"));
        Assert.Throws<NotSupportedException>(() => PictureWriter.Png("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1 1\"><ellipse/></svg>", 24));
        Assert.NotNull(new StyleRules(SvgStyle.Css).Of(XElement.Parse("<path class='wire'/>")));
    }

    [Fact]
    public void A_photograph_comes_to_lie_where_the_drawing_puts_its_lugs_however_the_sheet_is_turned()
    {
        // A photograph straight from beneath, ten pixels a millimetre, y down.
        Pick[] picks = [.. new[] { ("A", 0.0, 0.0), ("B", 100.0, 0.0), ("C", 0.0, 80.0), ("D", 90.0, 70.0) }.Select(p => new Pick(p.Item1, p.Item2 * 10, 800 - p.Item3 * 10, p.Item2, p.Item3))];
        var square = new PhotoSquare(new Photograph { Name = "P1", Content = "", MediaType = "", Width = 1000, Height = 800 }, [], SquareStage.Run(picks));
        foreach (var mirror in new[] { false, true })
            foreach (var turn in Enum.GetValues<Turn>())
            {
                var h = square.OnSheet(mirror, turn).Split(' ').Select(n => double.Parse(n, System.Globalization.CultureInfo.InvariantCulture)).ToArray();
                var map = new Homography(h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7], h[8]);
                foreach (var p in picks)
                {
                    var (x, y) = map.Map(p.PixelX, p.PixelY);
                    var drawn = new View(mirror, turn).To(new Pt(p.X, p.Y));
                    Assert.Equal(drawn.X, x, 1e-6);
                    Assert.Equal(drawn.Y, y, 1e-6);
                }
            }
    }

    [Fact]
    public void A_drawing_says_its_size_in_millimetres()
    {
        var svg = new DrawnSvg(DemoBooks.Read("radio")).Text;
        var (width, height) = PaperSize.Sides(svg);
        Assert.Contains(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"width=\"{width / 2:0.##}mm\" height=\"{height / 2:0.##}mm\""), PaperSize.Of(svg, 0.5), StringComparison.Ordinal);
    }
}
