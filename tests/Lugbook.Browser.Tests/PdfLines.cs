using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;

namespace Lugbook.Browser.Tests;

/// <summary>Lengths of level straight lines that a PDF draws, in millimetres of paper. Source: ISO 32000-1, 8.3 (coordinates, cm), 8.5 (m, l), 7.4.4 (Flate).</summary>
internal static partial class PdfLines
{
    public static IEnumerable<double> Millimetres(byte[] pdf)
    {
        var text = Encoding.Latin1.GetString(pdf);
        foreach (Match stream in Streams().Matches(text))
        {
            var start = stream.Index + stream.Length;
            var end = text.IndexOf("endstream", start, StringComparison.Ordinal);
            string content;
            try
            {
                using var packed = new ZLibStream(new MemoryStream(pdf, start, end - start), CompressionMode.Decompress);
                using var reader = new StreamReader(packed, Encoding.Latin1);
                content = reader.ReadToEnd();
            }
            catch (InvalidDataException) { continue; }
            foreach (var length in Lines(content)) yield return length;
        }
    }

    private static IEnumerable<double> Lines(string content)
    {
        var numbers = new List<double>();
        var stack = new Stack<double[]>();
        double[] m = [1, 0, 0, 1, 0, 0];
        (double X, double Y) at = default;
        foreach (var word in content.Split([' ', '\n', '\r', '\t'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (double.TryParse(word, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)) { numbers.Add(number); continue; }
            switch (word)
            {
                case "q": stack.Push(m); break;
                case "Q" when stack.Count > 0: m = stack.Pop(); break;
                case "cm" when numbers.Count >= 6:
                    var n = numbers[^6..];
                    m = [n[0] * m[0] + n[1] * m[2], n[0] * m[1] + n[1] * m[3], n[2] * m[0] + n[3] * m[2], n[2] * m[1] + n[3] * m[3], n[4] * m[0] + n[5] * m[2] + m[4], n[4] * m[1] + n[5] * m[3] + m[5]];
                    break;
                case "m" when numbers.Count >= 2: at = To(m, numbers); break;
                case "l" when numbers.Count >= 2:
                    var next = To(m, numbers);
                    if (Math.Abs(next.Y - at.Y) < 0.01) yield return Math.Abs(next.X - at.X) * 25.4 / 72;   // a PDF's unit is 1/72 inch
                    at = next;
                    break;
            }
            numbers.Clear();
        }
    }

    private static (double X, double Y) To(double[] m, List<double> n) => (n[^2] * m[0] + n[^1] * m[2] + m[4], n[^2] * m[1] + n[^1] * m[3] + m[5]);

    [GeneratedRegex(@"(?<!end)stream\r?\n")] private static partial Regex Streams();
}
