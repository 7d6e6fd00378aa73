using System.Globalization;
using System.Text;
using QRCoder;

namespace Lugbook.Drawing;

/// <summary>A QR code (ISO/IEC 18004) as the path of an SVG: one square for each run of dark modules.</summary>
/// <param name="Size">Modules along a side, the quiet zone of four included.</param>
/// <param name="Path">The path's data, one unit a module.</param>
internal sealed record QrFigure(int Size, string Path)
{
    /// <summary>The code of a text, with a quarter of the symbol to spare for dirt and folds (level Q).</summary>
    public static QrFigure Of(string text)
    {
        using var code = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.Q);
        var path = new StringBuilder();
        for (var y = 0; y < code.ModuleMatrix.Count; y++)
        {
            var row = code.ModuleMatrix[y];
            for (var x = 0; x < row.Count; x++)
            {
                if (!row[x]) continue;
                var from = x;
                while (x + 1 < row.Count && row[x + 1]) x++;
                path.Append(CultureInfo.InvariantCulture, $"M{from} {y}h{x - from + 1}v1h-{x - from + 1}z");
            }
        }
        return new(code.ModuleMatrix.Count, path.ToString());
    }
}
