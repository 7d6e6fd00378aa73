using System.Globalization;
using System.Net;
using System.Text;

namespace Lugbook.Drawing.Plots;

/// <summary>Writes valve curves as SVG that needs nothing else; on a page it takes the page's colours, light or dim.</summary>
internal static class PlotWriter
{
    private const double Width = 760;
    private const double Height = 520;
    private const double Left = 74;
    private const double Right = 690;
    private const double Top = 58;
    private const double Bottom = 420;

    private const string Css = """
        .valve-plot{--p:var(--sheet,#fcf9f1);--i:var(--ink,#2b2620);--f:var(--faint,#63594a);--r:var(--rule,#cdc1a9);--o:var(--oxide,#96301f);--b:var(--blue,#234b75);font-family:"Source Sans 3","Segoe UI","Noto Sans","DejaVu Sans",Arial,sans-serif;font-size:15px}
        .valve-plot .paper{fill:var(--p)}.valve-plot path{fill:none}.valve-plot .grid{stroke:var(--r);stroke-width:1}.valve-plot .axis{stroke:var(--i);stroke-width:1.5}
        .valve-plot .curve{stroke:var(--i);stroke-width:1.8;stroke-linejoin:round}.valve-plot .limit{stroke:var(--o);stroke-width:2;stroke-dasharray:8 5}
        .valve-plot .point{fill:var(--b);stroke:var(--p);stroke-width:1.2}.valve-plot .point.other{fill:var(--p);stroke:var(--b);stroke-width:2}
        .valve-plot text{fill:var(--i);stroke:none}.valve-plot .title{font-size:19px;font-weight:600}.valve-plot .quiet{fill:var(--f)}.valve-plot .watts{fill:var(--o);font-weight:600}
        .valve-plot .mid{text-anchor:middle}.valve-plot .end{text-anchor:end}.valve-plot .halo{paint-order:stroke;stroke:var(--p);stroke-width:4px;stroke-linejoin:round}
        @media print{.valve-plot{--p:#fff}}
        """;

    /// <summary>All plots, one under another.</summary>
    public static string Write(IReadOnlyList<ValvePlot> plots)
    {
        var svg = new StringBuilder();
        var title = plots.Count == 1 ? Words(plots[0]) : $"Curves of {string.Join("; ", plots.Select(p => p.Title))}";
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"valve-plot\" viewBox=\"0 0 {Width} {Height * plots.Count}\" role=\"img\" aria-label=\"{Text(title)}\">\n<title>{Text(title)}</title>\n<style>{Css}</style>\n");
        for (var k = 0; k < plots.Count; k++)
        {
            svg.Append(CultureInfo.InvariantCulture, $"<g transform=\"translate(0 {Height * k})\">\n<rect class=\"paper\" width=\"{Width}\" height=\"{Height}\"/>\n");
            Plot(svg, plots[k], $"inside-{k.ToString(CultureInfo.InvariantCulture)}");
            svg.Append("</g>\n");
        }
        return svg.Append("</svg>\n").ToString();
    }

    private static string Words(ValvePlot plot) =>
        $"{plot.Title}: {(plot.Curves[0].GridVolts is null ? "current" : "plate current")} from 0 to {N(plot.AmperesTop * 1e3)} mA against {(plot.Curves[0].GridVolts is null ? "voltage" : "plate voltage")} from 0 to {N(plot.VoltsTop)} V{(plot.Conditions.Length > 0 ? $". {plot.Conditions}" : "")}";

    private static void Plot(StringBuilder svg, ValvePlot plot, string clip)
    {
        double X(double volts) => Left + (Right - Left) * volts / plot.VoltsTop;
        double Y(double amperes) => Bottom - (Bottom - Top) * amperes / plot.AmperesTop;
        Label(svg, "title", Left, 28, plot.Title);
        Axes(svg, plot, X, Y);
        svg.Append(CultureInfo.InvariantCulture, $"<clipPath id=\"{clip}\"><rect x=\"{Left}\" y=\"{Top}\" width=\"{Right - Left}\" height=\"{Bottom - Top}\"/></clipPath>\n<g clip-path=\"url(#{clip})\">\n");
        foreach (var curve in plot.Curves)
            Path(svg, "curve", curve.Amperes.Select((a, i) => (X(plot.VoltsTop * i / (curve.Amperes.Length - 1)), Y(Math.Min(a, 3 * plot.AmperesTop)))), curve.GridVolts is { } g ? $"grid {N(g)} V" : null);
        if (plot.PlateWatts is { } watts)
        {
            var from = watts / plot.AmperesTop;
            if (from < plot.VoltsTop) Path(svg, "limit", Enumerable.Range(0, 81).Select(i => from + (plot.VoltsTop - from) * i / 80).Select(v => (X(v), Y(watts / v))), $"{N(watts)} W at the plate");
        }
        svg.Append("</g>\n");
        GridLabels(svg, plot, X, Y);
        foreach (var point in plot.Points)
            svg.Append(CultureInfo.InvariantCulture, $"<circle class=\"point{(point.SameScreen ? "" : " other")}\" cx=\"{X(point.Volts):0.#}\" cy=\"{Y(point.Amperes):0.#}\" r=\"5.5\"><title>{Text(point.Words)}</title></circle>\n");
        Legend(svg, plot);
    }

    private static void Axes(StringBuilder svg, ValvePlot plot, Func<double, double> x, Func<double, double> y)
    {
        var (acrossStep, upStep) = (ValvePlot.Nice(plot.VoltsTop / 8), ValvePlot.Nice(plot.AmperesTop / 8));
        for (var k = 0; k * acrossStep <= plot.VoltsTop * 1.0001; k++)
        {
            svg.Append(CultureInfo.InvariantCulture, $"<path class=\"grid\" d=\"M{x(k * acrossStep):0.#} {Top}V{Bottom}\"/>");
            Label(svg, "mid", x(k * acrossStep), Bottom + 20, N(k * acrossStep));
        }
        for (var k = 0; k * upStep <= plot.AmperesTop * 1.0001; k++)
        {
            svg.Append(CultureInfo.InvariantCulture, $"<path class=\"grid\" d=\"M{Left} {y(k * upStep):0.#}H{Right}\"/>");
            Label(svg, "end", Left - 8, y(k * upStep) + 5, N(k * upStep * 1e3));
        }
        svg.Append(CultureInfo.InvariantCulture, $"<path class=\"axis\" d=\"M{Left} {Top}V{Bottom}H{Right}\"/>\n");
        Label(svg, "mid", 0.5 * (Left + Right), Bottom + 42, plot.Curves[0].GridVolts is null ? "Volts across it" : "Plate to cathode, V");
        svg.Append(CultureInfo.InvariantCulture, $"<text class=\"mid\" transform=\"translate(20 {0.5 * (Top + Bottom)}) rotate(-90)\">{(plot.Curves[0].GridVolts is null ? "Current" : "Plate current")}, mA</text>\n");
    }

    // Where a curve leaves the page stands its grid voltage: above, or to the right. One that would touch its neighbour is left out.
    private static void GridLabels(StringBuilder svg, ValvePlot plot, Func<double, double> x, Func<double, double> y)
    {
        var (lastX, lastY) = (double.NegativeInfinity, double.NegativeInfinity);
        foreach (var curve in plot.Curves)
        {
            if (curve.GridVolts is not { } grid) continue;
            var text = $"{(grid == 0 ? "0" : $"−{N(-grid)}")} V";
            var over = 0;
            while (over < curve.Amperes.Length && curve.Amperes[over] <= plot.AmperesTop) over++;
            if (over < curve.Amperes.Length)
            {
                var at = x(plot.VoltsTop * over / (curve.Amperes.Length - 1));
                if (at - lastX < 46) continue;
                lastX = at;
                Label(svg, "mid halo", at, Top - 6, text);
                continue;
            }
            var height = y(curve.Amperes[^1]) + 5;
            if (height - lastY < 15 || height > Bottom + 2) continue;
            lastY = height;
            Label(svg, "halo", Right + 6, height, text);
        }
    }

    private static void Legend(StringBuilder svg, ValvePlot plot)
    {
        if (plot.Conditions.Length > 0) Label(svg, "quiet", Left, Bottom + 66, plot.Conditions);
        var (at, line) = (Left, Bottom + 88);
        if (plot.Points.Any(p => p.SameScreen))
        {
            svg.Append(CultureInfo.InvariantCulture, $"<circle class=\"point\" cx=\"{at + 6}\" cy=\"{line - 5}\" r=\"5.5\"/>");
            Label(svg, "", at + 18, line, "handbook line");
            at += 130;
        }
        if (plot.Points.Any(p => !p.SameScreen))
        {
            svg.Append(CultureInfo.InvariantCulture, $"<circle class=\"point other\" cx=\"{at + 6}\" cy=\"{line - 5}\" r=\"5.5\"/>");
            Label(svg, "", at + 18, line, "line at other screen volts");
            at += 210;
        }
        if (plot.PlateWatts is not { } watts) return;
        if (watts / plot.AmperesTop >= plot.VoltsTop)
        {
            Label(svg, "watts", at, line, $"plate limit {N(watts)} W, nowhere reached here");
            return;
        }
        svg.Append(CultureInfo.InvariantCulture, $"<path class=\"limit\" d=\"M{at} {line - 5}h30\"/>");
        Label(svg, "watts", at + 38, line, $"plate limit {N(watts)} W");
    }

    private static void Path(StringBuilder svg, string kind, IEnumerable<(double X, double Y)> points, string? title)
    {
        svg.Append(CultureInfo.InvariantCulture, $"<path class=\"{kind}\" d=\"");
        var first = true;
        foreach (var (x, y) in points)
        {
            svg.Append(CultureInfo.InvariantCulture, $"{(first ? 'M' : 'L')}{x:0.#} {y:0.#}");
            first = false;
        }
        svg.Append(title is null ? "\"/>\n" : $"\"><title>{Text(title)}</title></path>\n");
    }

    private static void Label(StringBuilder svg, string kind, double x, double y, string text) =>
        svg.Append(CultureInfo.InvariantCulture, $"<text class=\"{kind}\" x=\"{x:0.#}\" y=\"{y:0.#}\">{Text(text)}</text>\n");

    private static string Text(string text) => WebUtility.HtmlEncode(text);

    private static string N(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
