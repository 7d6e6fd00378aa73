using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Preferred;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;

namespace Lugbook.Restoration.Choose;

/// <summary>Reads one row of a catalogue, or says what is wrong with it.</summary>
internal sealed class CatalogueRow
{
    private static readonly FrozenDictionary<string, NewKind> Kinds = new Dictionary<string, NewKind>(StringComparer.OrdinalIgnoreCase)
    {
        ["film"] = NewKind.Film, ["polypropylene"] = NewKind.Polypropylene, ["electrolytic"] = NewKind.Electrolytic,
        ["C0G"] = NewKind.C0G, ["mica"] = NewKind.Mica, ["ceramic class 2"] = NewKind.CeramicClass2,
        ["safety film"] = NewKind.SafetyFilm, ["safety ceramic"] = NewKind.SafetyCeramic,
        ["metal film"] = NewKind.MetalFilm, ["carbon film"] = NewKind.CarbonFilm, ["metal oxide"] = NewKind.MetalOxide, ["wirewound"] = NewKind.Wirewound, ["metal glaze"] = NewKind.MetalGlaze,
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    private static readonly FrozenDictionary<string, (Unit Unit, double Factor)> Units = new Dictionary<string, (Unit, double)>(StringComparer.OrdinalIgnoreCase)
    {
        ["pF"] = (Unit.Farad, 1e-12), ["nF"] = (Unit.Farad, 1e-9), ["uF"] = (Unit.Farad, 1e-6), ["µF"] = (Unit.Farad, 1e-6),
        ["ohm"] = (Unit.Ohm, 1), ["kohm"] = (Unit.Ohm, 1e3),
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    private readonly CsvRow _row;
    private readonly string _place;
    private Complaint? _complaint;      // the first one stands

    private CatalogueRow(CsvRow row, string place) => (_row, _place) = (row, place);

    /// <summary>The series, or the complaint.</summary>
    public static (CatalogueSeries? Series, Complaint? Complaint) Read(CsvRow row, string place)
    {
        var reader = new CatalogueRow(row, place);
        var series = reader.Read();
        return reader._complaint is { } complaint ? (null, complaint) : (series, null);
    }

    private CatalogueSeries Read()
    {
        var name = _row["series"] ?? Refuse("series", "the series has no name", "Describe it: \"film 630 V\".");
        if (!Kinds.TryGetValue(_row["kind"] ?? "", out var kind))
            Refuse("kind", "this kind is not known", $"Write one of: {string.Join(", ", Kinds.Keys.Order(StringComparer.Ordinal))}.");
        if (!Units.TryGetValue(_row["unit"] ?? "", out var unit))
            Refuse("unit", "this unit is not known", "Write pF, nF, uF, ohm or kohm.");
        var safety = _row["class"]?.ToUpperInvariant() switch
        {
            null => SafetyClass.None, "X1" => SafetyClass.X1, "X2" => SafetyClass.X2, "Y1" => SafetyClass.Y1, "Y2" => SafetyClass.Y2,
            _ => (SafetyClass)(-1),
        };
        if (safety == (SafetyClass)(-1)) Refuse("class", "this safety class is not known", "Write X1, X2, Y1 or Y2, or leave it empty.");
        var isSafety = kind is NewKind.SafetyFilm or NewKind.SafetyCeramic;
        if (isSafety != (safety != SafetyClass.None)) Refuse("class", "kind and safety class do not agree", "A safety kind has a class, any other has none.");
        var isResistor = kind is NewKind.MetalFilm or NewKind.CarbonFilm or NewKind.MetalOxide or NewKind.Wirewound or NewKind.MetalGlaze;
        if (isResistor != (unit.Unit == Unit.Ohm)) Refuse("unit", "kind and unit do not agree", "Resistors are in ohm, capacitors in pF, nF or uF.");
        var series = new CatalogueSeries
        {
            Name = name,
            Kind = kind,
            SafetyClass = safety,
            Unit = unit.Unit,
            Volts = Number("volts", needed: true) ?? 0,
            LineVolts = Number("line_volts", needed: isSafety),
            TolerancePercent = Number("tolerance_pct", needed: true) ?? 0,
            Watts = Number("watts", needed: isResistor),
            Celsius = Number("celsius", needed: false),
            Rank = (int)Math.Min(Number("rank", needed: false) ?? 1, 99),
            BodyMinMm = Number("body_min_mm", needed: false),
            BodyMaxMm = Number("body_max_mm", needed: false),
            DiameterMinMm = Number("dia_min_mm", needed: false),
            DiameterMaxMm = Number("dia_max_mm", needed: false),
            RippleMinAmperes = Number("ripple_min_ma", needed: false) / 1000,
            RippleMaxAmperes = Number("ripple_max_ma", needed: false) / 1000,
            RippleHertz = Number("ripple_hz", needed: _row["ripple_min_ma"] is not null || _row["ripple_max_ma"] is not null),
            PriceLow = Price("price_low"),
            PriceHigh = Price("price_high"),
            Values = unit.Factor > 0 ? Values(unit.Factor) : [],
            Source = _row["source"] ?? Refuse("source", "the row does not say where it comes from", "Write the source, or \"common practice, no source\"."),
        };
        if (series.BodyMinMm > series.BodyMaxMm) Refuse("body_max_mm", "the longest body is shorter than the shortest", "Swap the two.");
        if (series.DiameterMinMm > series.DiameterMaxMm) Refuse("dia_max_mm", "the thickest body is thinner than the thinnest", "Swap the two.");
        if (series.RippleMinAmperes > series.RippleMaxAmperes) Refuse("ripple_max_ma", "the largest value bears less ripple than the smallest", "Swap the two.");
        if (series.PriceLow > series.PriceHigh) Refuse("price_high", "the high price is below the low one", "Swap the two.");
        return series;
    }

    private decimal? Price(string column) => Number(column, needed: false) is { } p ? Math.Round((decimal)p, 4) : null;

    private double? Number(string column, bool needed)
    {
        if (_row[column] is not { } written)
        {
            if (needed) Refuse(column, "this is missing", "Write a number.");
            return null;
        }
        if (double.TryParse(written, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && value is > 0 and < 1e9) return value;
        Refuse(column, "this is not a number above 0", "Write a plain number with a decimal point.");
        return null;
    }

    private ImmutableArray<double> Values(double factor)
    {
        var written = _row["values"] ?? "";
        if (Series(written) is { } series)
        {
            if (Number("from", needed: true) is not { } from || Number("to", needed: true) is not { } to) return [];
            if (from <= to && to / from <= 1e9) return PreferredValues.Within(from * factor, to * factor, series);
            Refuse("to", "the range of values is upside down", "Write the lowest value under from, the highest under to.");
            return [];
        }
        var values = new List<double>();
        foreach (var word in written.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (double.TryParse(word, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && value is > 0 and < 1e9) values.Add(Clean(value * factor));
            else Refuse("values", $"'{word}' is neither a series nor a value", "Write E3, E6, E12, E24, or values with a space between.");
        }
        if (values.Count == 0) Refuse("values", "there are no values", "Write E3, E6, E12, E24, or values with a space between.");
        values.Sort();
        return [.. values];
    }

    private static PreferredSeries? Series(string name) => name.Trim().ToUpperInvariant() switch
    {
        "E3" => PreferredSeries.E3,
        "E6" => PreferredSeries.E6,
        "E12" => PreferredSeries.E12,
        "E24" => PreferredSeries.E24,
        _ => null,
    };

    // 47 times 1e-9 is not the number that a typed 47e-9 is.
    private static double Clean(double value) => double.Parse(value.ToString("E6", CultureInfo.InvariantCulture), NumberStyles.Float, CultureInfo.InvariantCulture);

    private string Refuse(string column, string problem, string remedy)
    {
        _complaint ??= new($"{_place}, line {_row.Line.ToString(CultureInfo.InvariantCulture)}, {column}", _row[column] ?? "", 0, problem, remedy);
        return "";
    }
}
