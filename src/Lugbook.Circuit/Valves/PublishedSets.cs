using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Lugbook.Circuit.Valves;

/// <summary>Published parameter sets of the Koren form at the same handbook lines: what one has without fitting.</summary>
/// <remarks>Formulas: N. Koren, Glass Audio 8(5), 1996, as restated on top of data/valves/published-tube-model-parameters.csv.</remarks>
internal static class PublishedSets
{
    private sealed record Set(string Type, bool Pentode, double Mu, double Exponent, double Inverse, double ScreenInverse, double Kp, double Kvb, double Scale, string Source)
    {
        public (double Plate, double Screen) At(double vp, double vs, double vg)
        {
            var x = Pentode ? Kp * (1 / Mu + vg / vs) : Kp * (1 / Mu + vg / Math.Sqrt(Kvb + vp * vp));
            var drive = (Pentode ? vs : vp) / Kp * (x > 30 ? x : Math.Log(1 + Math.Exp(x)));
            var current = Scale * Math.Pow(drive, Exponent) / Inverse;
            return Pentode ? (current * Math.Atan(vp / Kvb), Math.Pow(Math.Max(vs / Mu + vg, 0), Exponent) / ScreenInverse) : (current, 0);
        }
    }

    // Sets named after an equivalent of the type that our lines are filed under.
    private static readonly Dictionary<string, string> FiledUnder = new() { ["6DJ8"] = "E88CC", ["12AX7"] = "12AX7A", ["12AU7"] = "12AU7A", ["12BH7A"] = "12BH7A" };

    public static string Section(ImmutableArray<ValveAccuracy.Row> rows, string text)
    {
        var page = new StringBuilder("\n## Published parameter sets at the same lines\n\nPlate (screen) current of the published sets beside the law fitted here, fixed-bias lines only.\n\n| type | line | set | published | fitted here |\n|---|---|---|---|---|\n");
        var (theirs, ours) = (new List<double>(), new List<double>());
        foreach (var set in Read(text))
        {
            var type = FiledUnder.GetValueOrDefault(set.Type, set.Type);
            foreach (var row in rows.Where(r => r.Type == type && r.Fitted.Line is { CathodeOhms: null, PlateAmperes: not null, Kind: not LineKind.Cutoff }))
            {
                var line = row.Fitted.Line;
                if (line.Connection == Connection.TriodeConnected) continue;
                var (plate, screen) = set.At(line.PlateVolts, line.ScreenVolts ?? 0, line.GridVolts!.Value);
                var fitted = row.Fitted.Figures.First(f => f.Quantity == Quantity.PlateCurrent).Error;
                theirs.Add(Math.Abs(plate / line.PlateAmperes!.Value - 1));
                ours.Add(Math.Abs(fitted));
                var (their, our) = ("", "");
                if (line.ScreenAmperes is { } given && set.Pentode)
                {
                    their = $" ({ValveAccuracy.Signed(screen / given - 1)})";
                    our = $" ({ValveAccuracy.Signed(row.Fitted.Figures.First(f => f.Quantity == Quantity.ScreenCurrent).Error)})";
                }
                page.Append(CultureInfo.InvariantCulture, $"| {row.Type} | {ValveAccuracy.Where(row.Fitted)} | {set.Source} | {ValveAccuracy.Signed(plate / line.PlateAmperes.Value - 1)}{their} | {ValveAccuracy.Signed(fitted)}{our} |\n");
            }
        }
        if (theirs.Count == 0) return "";
        page.Append(CultureInfo.InvariantCulture, $"\nMedian size of the plate-current error over these {theirs.Count}: published {100 * ValveAccuracy.Percentile([.. theirs.Order()], 0.5):0.0} %, fitted here {100 * ValveAccuracy.Percentile([.. ours.Order()], 0.5):0.0} %.\n");
        return page.ToString();
    }

    private static IEnumerable<Set> Read(string text)
    {
        foreach (var row in Table.Of(text, "type", "form", "mu", "ex", "kg1", "kp", "kvb", "scale").Rows)
        {
            var pentode = row.Text("form") == "pentode";
            if (row.Number("mu") is { } mu && row.Number("ex") is { } ex && row.Number("kg1") is { } kg1 && row.Number("kp") is { } kp && row.Number("kvb") is { } kvb && row.Number("scale") is { } scale)
                yield return new(row.Text("type"), pentode, mu, ex, kg1, row.Number("kg2") ?? double.PositiveInfinity, kp, kvb, scale, row.Text("source").Split(',')[0]);
        }
    }
}
