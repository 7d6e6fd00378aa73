using System.Globalization;
using System.Net;
using System.Text;
using Lugbook.Output;
using Lugbook.Restoration.Wake;

namespace Lugbook.Drawing.Plots;

/// <summary>Draws what the meters show against time from switch-on: one strip a quantity, the healthy band at the end, limits as broken lines.</summary>
internal static class WarmingPlot
{
    private const double Width = 760, Strip = 150, Left = 74, Right = 600, Gap = 34, Head = 46;

    private const string Css = """
        .warming{--p:var(--sheet,#fcf9f1);--i:var(--ink,#2b2620);--f:var(--faint,#63594a);--r:var(--rule,#cdc1a9);--o:var(--oxide,#96301f);--b:var(--blue,#234b75);--l:var(--wash-leaf,#e2ecd9);font-family:"Source Sans 3","Segoe UI","Noto Sans","DejaVu Sans",Arial,sans-serif;font-size:15px}
        .warming .paper{fill:var(--p)}.warming path,.warming line{fill:none}.warming .grid{stroke:var(--r)}.warming .axis{stroke:var(--i);stroke-width:1.5}.warming .curve{stroke:var(--i);stroke-width:2.2;stroke-linejoin:round}
        .warming .band{fill:var(--l);stroke:var(--f);stroke-width:.8}.warming .stop{stroke:var(--o);stroke-width:2;stroke-dasharray:9 5}.warming .own{fill:var(--b);stroke:var(--p);stroke-width:1.5}
        .warming text{fill:var(--i)}.warming .title{font-size:19px;font-weight:600}.warming .quiet{fill:var(--f)}.warming .off{fill:var(--o);font-weight:600}.warming .end{text-anchor:end}.warming .mid{text-anchor:middle}
        @media print{.warming{--p:#fff}}
        """;

    /// <summary>The plot; a sentence where there is no course.</summary>
    /// <param name="title">Title of the set.</param>
    /// <param name="wake">The plan.</param>
    /// <param name="readings">The user's own: seconds, place among what is watched, value.</param>
    public static string Write(string title, WakeResult wake, IReadOnlyList<(double Seconds, int What, double Value)>? readings = null)
    {
        var step = wake.Steps.FirstOrDefault(s => s.Number == wake.CourseStep);
        var strips = step is null || wake.Course.IsEmpty ? 0 : wake.Watched.Length;
        var height = Head + Math.Max(1, strips) * (Strip + Gap) + 20;
        var svg = new StringBuilder();
        var words = strips == 0 ? $"{title}: no course of the warming could be computed" : $"{title}: {step!.Title}, {string.Join(", ", wake.Watched.Select(w => w.Words))} against time from switch-on";
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"warming\" viewBox=\"0 0 {Width} {height}\" role=\"img\" aria-label=\"{Text(words)}\">\n<title>{Text(words)}</title>\n<style>{Css}</style>\n<rect class=\"paper\" width=\"{Width}\" height=\"{height}\"/>\n");
        Label(svg, "title", Left, 28, strips == 0 ? words : $"{step!.Number}. {step.Title}");
        var last = wake.Course.IsEmpty ? 1 : wake.Course[^1].Seconds;
        for (var k = 0; k < strips; k++) Draw(svg, wake, step!, k, Head + k * (Strip + Gap), last, readings ?? []);
        return svg.Append("</svg>\n").ToString();
    }

    private static void Draw(StringBuilder svg, WakeResult wake, WakeStep step, int k, double top, double last, IReadOnlyList<(double Seconds, int What, double Value)> readings)
    {
        var e = k < step.Expected.Length ? step.Expected[k] : null;
        var values = wake.Course.Select(m => m.Values[k]).ToArray();
        var reach = Math.Max(Math.Max(values.Max(Math.Abs), e is null ? 0 : Math.Max(Math.Abs(e.High), Math.Abs(e.Low))), Math.Max(Math.Abs(e?.StopAbove ?? 0), 1e-3)) * 1.1;
        var sign = values.Sum() < 0 ? -1 : 1;
        double X(double seconds) => Left + (Right - Left) * seconds / last;
        double Y(double value) => top + Strip - Strip * Math.Clamp(sign * value / reach, 0, 1);
        var unit = wake.Watched[k].Unit;
        for (var g = 0; g <= 4; g++) svg.Append(CultureInfo.InvariantCulture, $"<line class=\"grid\" x1=\"{Left}\" x2=\"{Right}\" y1=\"{top + Strip * g / 4:0.#}\" y2=\"{top + Strip * g / 4:0.#}\"/>\n");
        if (e is not null)
        {
            var (high, low) = (Math.Min(Y(e.High), Y(e.Low)), Math.Max(Y(e.High), Y(e.Low)));
            svg.Append(CultureInfo.InvariantCulture, $"<rect class=\"band\" x=\"{X(last * 0.75):0.#}\" width=\"{Right - X(last * 0.75):0.#}\" y=\"{high:0.#}\" height=\"{Math.Max(2, low - high):0.#}\"/>\n");
            Label(svg, "quiet", Right + 8, (high + low) / 2 + 5, $"healthy {WakeWords.Range(e)}");
            foreach (var (limit, word) in new[] { (e.StopAbove, "off above"), (e.StopBelow, "off below") })
                if (limit is { } at)
                {
                    svg.Append(CultureInfo.InvariantCulture, $"<line class=\"stop\" x1=\"{X(last * 0.5):0.#}\" x2=\"{Right}\" y1=\"{Y(at):0.#}\" y2=\"{Y(at):0.#}\"/>\n");
                    Label(svg, "off end", X(last * 0.5) - 6, Y(at) + 5, $"{word} {WakeWords.Amount(at, unit)}");
                }
        }
        svg.Append("<path class=\"curve\" d=\"").Append(string.Join(' ', wake.Course.Select((m, i) => string.Create(CultureInfo.InvariantCulture, $"{(i == 0 ? 'M' : 'L')}{X(m.Seconds):0.#} {Y(values[i]):0.#}")))).Append("\"/>\n");
        foreach (var own in readings.Where(r => r.What == k)) svg.Append(CultureInfo.InvariantCulture, $"<circle class=\"own\" cx=\"{X(Math.Clamp(own.Seconds, 0, last)):0.#}\" cy=\"{Y(own.Value):0.#}\" r=\"6\"/>\n");
        svg.Append(CultureInfo.InvariantCulture, $"<path class=\"axis\" d=\"M{Left} {top}V{top + Strip}H{Right}\"/>\n");
        Label(svg, "", Left, top - 6, char.ToUpperInvariant(wake.Watched[k].Words[0]) + wake.Watched[k].Words[1..]);
        Label(svg, "quiet end", Left - 6, top + 6, WakeWords.Amount(sign * reach, unit));
        Label(svg, "quiet end", Left - 6, top + Strip + 4, "0");
        for (var t = 0; t <= 4; t++) Label(svg, "quiet mid", X(last * t / 4), top + Strip + 18, string.Create(CultureInfo.InvariantCulture, $"{last * t / 4:0} s"));
    }

    private static void Label(StringBuilder svg, string style, double x, double y, string text) =>
        svg.Append(CultureInfo.InvariantCulture, $"<text class=\"{style}\" x=\"{x:0.#}\" y=\"{y:0.#}\">{Text(text)}</text>\n");

    private static string Text(string text) => WebUtility.HtmlEncode(text);
}
