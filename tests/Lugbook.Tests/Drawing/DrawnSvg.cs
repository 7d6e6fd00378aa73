using System.Globalization;
using System.Xml.Linq;
using Lugbook.Drawing;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Map;
using Lugbook.Trade;

namespace Lugbook.Tests.Drawing;

/// <summary>A drawing as its reader gets it: the tests look at the SVG, not at the program's own idea of it.</summary>
internal sealed class DrawnSvg
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";
    private readonly XDocument _document;

    public DrawnSvg(Book book, DrawingOptions? options = null, MapResult? map = null)
    {
        Scene = ChassisDrawing.Draw(book, map, options ?? DrawingOptions.Default);
        Text = SvgWriter.Write(Scene);
        _document = XDocument.Parse(Text);
    }

    public Scene Scene { get; }
    public string Text { get; }

    public IEnumerable<XElement> Layer(string name) => _document.Root!.Elements(Svg + "g").Single(g => (string?)g.Attribute("data-layer") == name).Elements();

    public ILookup<string, XElement> Groups(string kind) => _document.Descendants(Svg + "g").Where(g => g.Attribute("data-" + kind) is not null)
        .ToLookup(g => (string)g.Attribute("data-" + kind)!, StringComparer.OrdinalIgnoreCase);

    /// <summary>Middle and radius of every lug, by name.</summary>
    public Dictionary<string, (Pt At, double Radius)> Lugs() => Groups("lug").ToDictionary(g => g.Key, g =>
    {
        var c = g.First().Elements(Svg + "circle").Single(c => (string?)c.Attribute("class") == "lug");
        return (new Pt(Number(c, "cx"), Number(c, "cy")), Number(c, "r"));
    }, StringComparer.OrdinalIgnoreCase);

    /// <summary>Where each lead of each part ends.</summary>
    public IEnumerable<(string Part, char Lead, Pt End)> LeadEnds() =>
        from part in Groups("part")
        from path in part.Elements(Svg + "path")
        let lead = (string?)path.Attribute("data-lead")
        where lead is not null
        select (part.Key, lead[0], Points((string)path.Attribute("d")!)[^1]);

    /// <summary>Boxes of the labels, by the widths that the drawing reckons with.</summary>
    public IEnumerable<(string Text, Box Box)> Labels() =>
        from label in Layer(LayerNames.Labels).Descendants(Svg + "text")
        let size = Number(label, "font-size")
        let width = Lugbook.Drawing.Labels.TextWidth.Of(label.Value, size)
        select (label.Value, Box.Of(new Pt(Number(label, "x"), Number(label, "y") - 0.35 * size), width, size * 0.7));

    public IEnumerable<XElement> Paths(string part) => Groups("part")[part].Single().Elements(Svg + "path");

    public static List<Pt> Points(string d)
    {
        double[] numbers = [.. d.Split(['M', 'L', 'C', 'Z', ' '], StringSplitOptions.RemoveEmptyEntries).Select(n => double.Parse(n, CultureInfo.InvariantCulture))];
        return [.. Enumerable.Range(0, numbers.Length / 2).Select(i => new Pt(numbers[2 * i], numbers[2 * i + 1]))];
    }

    private static double Number(XElement e, string name) => double.Parse((string)e.Attribute(name)!, CultureInfo.InvariantCulture);
}
