using System.Globalization;
using System.Text;
using Lugbook.Drawing.Labels;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Parts;

namespace Lugbook.Drawing.Schematic;

/// <summary>Draws symbols and text of a stage diagram as SVG, and remembers what lies where. Millimetres, y down.</summary>
internal sealed class Pen
{
    /// <summary>Height of the type, mm.</summary>
    public const double Type = 3.4;
    /// <summary>Length of a symbol with its leads, mm.</summary>
    public const double Reach = 24;
    private const double Body = 12;
    private readonly StringBuilder _svg = new();
    private readonly List<(string Name, Box Box)> _symbols = [];
    private readonly List<(string Text, Box Box)> _texts = [];

    private readonly List<Box> _lines = [];

    public IReadOnlyList<(string Name, Box Box)> Symbols => _symbols;
    public IReadOnlyList<(string Text, Box Box)> Texts => _texts;
    public string Svg => _svg.ToString();
    public Box Bounds => _symbols.Select(s => s.Box).Concat(_texts.Select(t => t.Box)).Concat(_lines).DefaultIfEmpty(new(-1, -1, 1, 1)).Aggregate((a, b) => a.With(b));

    public void Line(params Pt[] points)
    {
        _lines.Add(Box.Around(points));
        Path(points, "wire");
    }

    public void Dot(Pt at) => _svg.Append(CultureInfo.InvariantCulture, $"<circle class=\"joint\" cx=\"{at.X:0.##}\" cy=\"{at.Y:0.##}\" r=\"0.7\"/>");

    public void Raw(FormattableString svg) => _svg.Append(svg.ToString(CultureInfo.InvariantCulture));

    /// <summary>Text from a point to the right; to the left when asked.</summary>
    public void Text(Pt at, string text, string css = "text", string anchor = "start")
    {
        if (text.Length == 0) return;
        var width = TextWidth.Of(text, Type);
        var left = anchor switch { "end" => at.X - width, "middle" => at.X - width / 2, _ => at.X };
        _texts.Add((text, new(left, at.Y - Type * 0.8, left + width, at.Y + Type * 0.25)));
        _svg.Append(CultureInfo.InvariantCulture, $"<text class=\"{css}\" x=\"{at.X:0.##}\" y=\"{at.Y:0.##}\" text-anchor=\"{anchor}\">{Escape(text)}</text>");
    }

    /// <summary>A part from one point to another, upright or level, with its label.</summary>
    public void Part(Part part, char lead, Pt from, Pt to, string href)
    {
        var upright = Math.Abs(from.X - to.X) < 0.01;
        var (dx, dy) = ((to.X - from.X) / Reach, (to.Y - from.Y) / Reach);
        Pt At(double along, double across) => new(from.X + dx * along - dy * across, from.Y + dy * along + dx * across);
        const double a = (Reach - Body) / 2, b = a + Body, m = Reach / 2;
        _svg.Append(CultureInfo.InvariantCulture, $"<a href=\"{Escape(href)}\" data-part=\"{Escape(part.Name)}\"><title>{Escape(part.Name)} {Escape(StageReader.Label(part).Value)} {Escape(part.KindAsWritten)}</title>");
        switch (part.Kind)
        {
            case PartKind.Resistor or PartKind.Thermistor:
                Path([At(0, 0), At(a, 0), At(a + 1, 2), At(a + 3, -2), At(a + 5, 2), At(a + 7, -2), At(a + 9, 2), At(a + 11, -2), At(b, 0), At(Reach, 0)], "symbol");
                break;
            case PartKind.Control:
                Path([At(0, 0), At(a, 0), At(a + 1, 2), At(a + 3, -2), At(a + 5, 2), At(a + 7, -2), At(a + 9, 2), At(a + 11, -2), At(b, 0), At(Reach, 0)], "symbol");
                Path([At(m, 5.5), At(m, 2.4)], "symbol");
                Path([At(m - 1, 3.6), At(m, 2.3), At(m + 1, 3.6)], "symbol");
                break;
            case var k when k.IsCapacitor():
                Path([At(0, 0), At(m - 1, 0)], "symbol");
                Path([At(m - 1, -4), At(m - 1, 4)], "plate");
                // The curved plate is the outer foil or the minus side.
                var plusFirst = part.PlusLead is null || part.PlusLead == lead;
                Path(plusFirst ? [At(m + 2, -4), At(m + 1.2, -2), At(m + 1, 0), At(m + 1.2, 2), At(m + 2, 4)] : [At(m + 1, -4), At(m + 1, 4)], "plate");
                Path([At(m + 1, 0), At(Reach, 0)], "symbol");
                if (part.PlusLead is not null) Text(At(part.PlusLead == lead ? m - 4 : m + 4, upright ? 3.5 : -2.5), "+", "text", "middle");
                if (part.Kind is PartKind.VariableCapacitor or PartKind.Trimmer) Path([At(m - 4, 4), At(m + 4, -4)], "symbol");
                break;
            case PartKind.Winding:
                Path([At(0, 0), At(a, 0)], "symbol");
                for (var k = 0; k < 4; k++) Arc(At(a + 3 * k, 0), At(a + 3 * k + 3, 0));
                Path([At(b, 0), At(Reach, 0)], "symbol");
                break;
            case PartKind.SiliconRectifier or PartKind.SeleniumRectifier or PartKind.SeleniumDiode or PartKind.CrystalDiode:
                var forward = part.PlusLead is null || part.PlusLead != lead;
                Path([At(0, 0), At(Reach, 0)], "symbol");
                Path(forward ? [At(m - 3, -3), At(m - 3, 3), At(m + 2, 0), At(m - 3, -3)] : [At(m + 3, -3), At(m + 3, 3), At(m - 2, 0), At(m + 3, -3)], "filled");
                Path(forward ? [At(m + 2, -3), At(m + 2, 3)] : [At(m - 2, -3), At(m - 2, 3)], "plate");
                break;
            default:
                Path([At(0, 0), At(a, 0)], "symbol");
                Path([At(a, -3), At(b, -3), At(b, 3), At(a, 3), At(a, -3)], "symbol");
                Path([At(b, 0), At(Reach, 0)], "symbol");
                break;
        }
        _symbols.Add((part.Name, Box.Around([At(a - 0.5, -3.5), At(b + 0.5, 3.5)])));
        var (name, value) = StageReader.Label(part);
        if (upright)
        {
            var middle = At(m, 0);
            Text(new(middle.X + 5.5, middle.Y - 0.4), name, "name");
            Text(new(middle.X + 5.5, middle.Y + Type + 0.4), value);
        }
        else
        {
            var middle = At(m, 0);
            Text(new(middle.X, middle.Y - 6 - Type), name, "name", "middle");
            Text(new(middle.X, middle.Y - 5.6), value, "text", "middle");
        }
        _svg.Append("</a>");
    }

    /// <summary>The sign of common beneath a point.</summary>
    public void Common(Pt at)
    {
        Path([new(at.X - 3, at.Y), new(at.X + 3, at.Y)], "plate");
        Path([new(at.X - 2, at.Y + 1.2), new(at.X + 2, at.Y + 1.2)], "symbol");
        Path([new(at.X - 1, at.Y + 2.4), new(at.X + 1, at.Y + 2.4)], "symbol");
    }

    /// <summary>A supply above a point.</summary>
    public void Supply(Pt at, string name)
    {
        Path([new(at.X - 3, at.Y), new(at.X + 3, at.Y)], "plate");
        Text(new(at.X, at.Y - 1.4), name, "name", "middle");
    }

    /// <summary>How wide a part's label is, mm.</summary>
    public static double LabelWidth(Part part)
    {
        var (name, value) = StageReader.Label(part);
        return Math.Max(TextWidth.Of(name, Type), TextWidth.Of(value, Type));
    }

    private void Path(Pt[] points, string css)
    {
        _svg.Append("<path class=\"").Append(css).Append("\" d=\"M");
        foreach (var p in points) _svg.Append(CultureInfo.InvariantCulture, $" {p.X:0.##} {p.Y:0.##}");
        _svg.Append("\"/>");
    }

    private void Arc(Pt from, Pt to) => _svg.Append(CultureInfo.InvariantCulture, $"<path class=\"symbol\" d=\"M {from.X:0.##} {from.Y:0.##} A 1.5 1.5 0 0 1 {to.X:0.##} {to.Y:0.##}\"/>");

    private static string Escape(string text) => System.Security.SecurityElement.Escape(text);
}
