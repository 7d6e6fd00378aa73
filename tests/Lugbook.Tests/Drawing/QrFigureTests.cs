using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Drawing;

namespace Lugbook.Tests.Drawing;

/// <summary>Source: ISO/IEC 18004: finder patterns of 7 by 7 in three corners, timing patterns between them, a quiet zone of four modules, side of 17 + 4 × version.</summary>
public class QrFigureTests
{
    private static readonly string[] Finder = ["#######", "#     #", "# ### #", "# ### #", "# ### #", "#     #", "#######"];

    [Theory]
    [InlineData("http://localhost:5117/book/radio/position/C5")]
    [InlineData("http://192.168.178.20:5117/book/marlpit-kitchen-receiver-of-the-neighbours/position/C10A")]
    public void The_drawing_has_the_marks_of_the_standard(string text)
    {
        var qr = QrFigure.Of(text);
        var dark = new bool[qr.Size, qr.Size];
        foreach (Match run in Regex.Matches(qr.Path, @"M(\d+) (\d+)h(\d+)v1h-\3z"))
            for (var x = 0; x < int.Parse(run.Groups[3].Value, CultureInfo.InvariantCulture); x++) dark[int.Parse(run.Groups[2].Value, CultureInfo.InvariantCulture), int.Parse(run.Groups[1].Value, CultureInfo.InvariantCulture) + x] = true;
        var side = qr.Size - 8;
        Assert.Equal(0, (side - 17) % 4);
        for (var y = 0; y < 7; y++)
            for (var x = 0; x < 7; x++)
            {
                var expected = Finder[y][x] == '#';
                Assert.Equal((expected, expected, expected), (dark[4 + y, 4 + x], dark[4 + y, qr.Size - 11 + x], dark[qr.Size - 11 + y, 4 + x]));
            }
        for (var i = 8; i < side - 8; i++) Assert.Equal((i % 2 == 0, i % 2 == 0), (dark[10, 4 + i], dark[4 + i, 10]));
        for (var i = 0; i < qr.Size; i++)
            for (var k = 0; k < 4; k++) Assert.False(dark[i, k] || dark[k, i] || dark[i, qr.Size - 1 - k] || dark[qr.Size - 1 - k, i]);
    }
}
