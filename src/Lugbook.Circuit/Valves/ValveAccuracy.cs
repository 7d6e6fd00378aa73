using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Lugbook.Circuit.Valves.Fitting;

namespace Lugbook.Circuit.Valves;

/// <summary>How well laws meet the handbook lines that they were fitted to, and lines that were left out.</summary>
public static class ValveAccuracy
{
    /// <summary>One line: fitted with it, and predicted without it.</summary>
    /// <param name="Type">Type and section.</param>
    /// <param name="Class">Class.</param>
    /// <param name="Fitted">The line beside the law of all lines.</param>
    /// <param name="LeftOut">The same line beside the law of the other lines; null where the type has no other.</param>
    /// <param name="Supported">Among the other lines at least one states a working current; a cut-off line alone says little of how large a cathode is.</param>
    public sealed record Row(string Type, ValveClass Class, LineFit Fitted, LineFit? LeftOut, bool Supported);

    /// <summary>Every line of a library. Left-out laws use expectations that never saw the type.</summary>
    public static ImmutableArray<Row> Table(ValveLibrary library)
    {
        ArgumentNullException.ThrowIfNull(library);
        var rows = ImmutableArray.CreateBuilder<Row>();
        foreach (var group in library.Groups.OrderBy(g => g.Class).ThenBy(g => g.Type, StringComparer.Ordinal).ThenBy(g => g.Section, StringComparer.Ordinal))
        {
            var fit = library.Law(group);
            var priors = library.PriorsFor(group);
            var name = group.Section.Length == 0 ? group.Type : $"{group.Type} {group.Section}";
            for (var k = 0; k < group.Lines.Length; k++)
            {
                LineFit? left = null;
                if (group.Lines.Length >= 2)
                {
                    var without = ValveFit.Of(group.Lines.RemoveAt(k), group.Class, priors);
                    left = Figures.Compare(group.Lines[k], new(group.Class, without.Fitted));
                }
                var supported = group.Lines.Where((_, other) => other != k).Any(l => l.PlateAmperes is not null && l.Kind is not (LineKind.Cutoff or LineKind.RemoteCutoff));
                rows.Add(new(name, group.Class, fit.Lines[k], left, supported));
            }
        }
        return rows.ToImmutable();
    }

    /// <summary>Sizes of relative errors of one quantity, ascending; left-out (of supported lines) or fitted.</summary>
    public static ImmutableArray<double> Errors(ImmutableArray<Row> rows, Quantity quantity, bool leftOut) =>
        [.. rows.Where(r => !leftOut || r.Supported).Select(r => leftOut ? r.LeftOut : r.Fitted).OfType<LineFit>().SelectMany(f => f.Figures)
            .Where(c => c.Quantity == quantity).Select(c => Math.Abs(c.Error)).Order()];

    /// <summary>The value below which a share of ascending numbers lies; NaN when there is none.</summary>
    public static double Percentile(ImmutableArray<double> ascending, double share)
    {
        if (ascending.IsEmpty) return double.NaN;
        var at = share * (ascending.Length - 1);
        var low = (int)Math.Floor(at);
        var high = Math.Min(low + 1, ascending.Length - 1);
        return ascending[low] + (at - low) * (ascending[high] - ascending[low]);
    }

    /// <summary>The table as a page for docs/accuracy.</summary>
    /// <param name="rows">From <see cref="Table"/>.</param>
    /// <param name="publishedSets">Text of published-tube-model-parameters.csv, for comparison.</param>
    public static string Page(ImmutableArray<Row> rows, string publishedSets)
    {
        var page = new StringBuilder();
        page.Append("# Valve fits against their handbook lines\n\nWritten by `lugbook valve check --write`; not edited by hand. How the fit works: docs/valves.md.\n");
        page.Append("\"Fitted\": law of all lines of the type. \"Left out\": the line predicted by the law of the type's other lines, with expectations learned from other types only; the summary leaves out lines after which only cut-off lines remain (marked ¹), because those do not say how large a cathode is. Errors are predicted over given, less 1.\n\n");
        page.Append("| quantity | fitted: lines | median | 90 % of lines within | left out: lines | median | 90 % within |\n|---|---|---|---|---|---|---|\n");
        foreach (var quantity in Enum.GetValues<Quantity>())
        {
            var (fitted, left) = (Errors(rows, quantity, false), Errors(rows, quantity, true));
            page.Append(CultureInfo.InvariantCulture, $"| {quantity.Words()} | {fitted.Length} | {Percent(Percentile(fitted, 0.5))} | {Percent(Percentile(fitted, 0.9))} | {left.Length} | {Percent(Percentile(left, 0.5))} | {Percent(Percentile(left, 0.9))} |\n");
        }
        page.Append(PublishedSets.Section(rows, publishedSets));
        page.Append("\n## Every line\n\n| type | class | line | figure | given | fitted | left out |\n|---|---|---|---|---|---|---|\n");
        foreach (var row in rows)
        {
            for (var k = 0; k < row.Fitted.Figures.Length; k++)
            {
                var figure = row.Fitted.Figures[k];
                page.Append(CultureInfo.InvariantCulture, $"| {row.Type} | {row.Class} | {Where(row.Fitted)} | {figure.Quantity.Words()} | {Given(figure)} | {Signed(figure.Error)} | {(row.LeftOut is { } l ? Signed(l.Figures[k].Error) : "only line")}{(row.LeftOut is null || row.Supported ? "" : " ¹")} |\n");
            }
        }
        return page.ToString();
    }

    /// <summary>The fitted numbers of every type as a page: value, and in brackets how much of it the type's own lines told.</summary>
    public static string Numbers(ValveLibrary library)
    {
        ArgumentNullException.ThrowIfNull(library);
        var page = new StringBuilder("# Fitted numbers of every type\n\nWritten by `lugbook valve check --write`; not edited by hand. In brackets: how much of the number the type's own lines told; the rest is what its class does. Meaning and units: docs/valves.md.\n");
        foreach (var ofClass in library.Groups.GroupBy(g => g.Class).OrderBy(g => g.Key))
        {
            var groups = ofClass.OrderBy(g => g.Type, StringComparer.Ordinal).ToArray();
            var names = library.Law(groups[0]).Parameters.Select(p => p.Name).ToArray();
            page.Append(CultureInfo.InvariantCulture, $"\n## {ofClass.Key}\n\n| type | {string.Join(" | ", names)} |\n|---|{string.Concat(Enumerable.Repeat("---|", names.Length))}\n");
            foreach (var group in groups)
            {
                page.Append(CultureInfo.InvariantCulture, $"| {group.Type}{(group.Section.Length == 0 ? "" : " " + group.Section)} |");
                foreach (var p in library.Law(group).Parameters) page.Append(CultureInfo.InvariantCulture, $" {p.Value:G3} ({100 * p.Told:0} %) |");
                page.Append('\n');
            }
        }
        return page.ToString();
    }

    internal static string Where(LineFit fit)
    {
        var l = fit.Line;
        var screen = l.ScreenVolts is { } s ? string.Create(CultureInfo.InvariantCulture, $"/{s:0.#}") : "";
        var bias = l.CathodeOhms is { } ohms ? string.Create(CultureInfo.InvariantCulture, $"{ohms:0.#} Ω") : string.Create(CultureInfo.InvariantCulture, $"{fit.GridVolts:0.##} V");
        var how = l.Connection is Connection.TriodeConnected ? ", screen to plate" : l.Connection is Connection.OscillatorTriode ? ", grids 2 and 4 to plate" : "";
        return string.Create(CultureInfo.InvariantCulture, $"{l.PlateVolts:0.#}{screen} V, {bias}{how}{(l.Confirmed ? "" : " (from memory)")}");
    }

    private static string Given(Comparison c) => c.Quantity switch
    {
        Quantity.PlateCurrent or Quantity.ScreenCurrent => string.Create(CultureInfo.InvariantCulture, $"{c.Given * 1e3:0.###} mA"),
        Quantity.PlateResistance => string.Create(CultureInfo.InvariantCulture, $"{c.Given * 1e-3:0.##} kΩ"),
        Quantity.AmplificationFactor => string.Create(CultureInfo.InvariantCulture, $"{c.Given:0.#}"),
        Quantity.CutoffVolts => string.Create(CultureInfo.InvariantCulture, $"{c.Given:0.#} V"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{c.Given * 1e3:0.###} mA/V"),
    };

    private static string Percent(double share) => double.IsNaN(share) ? "" : string.Create(CultureInfo.InvariantCulture, $"{100 * share:0.0} %");
    internal static string Signed(double share) => string.Create(CultureInfo.InvariantCulture, $"{100 * share:+0.0;-0.0;0.0} %");
}
