using System.Collections.Immutable;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;

namespace Lugbook.Restoration.Choose;

/// <summary>A series of parts of one kind and rating, as makers list them: no maker is named.</summary>
public sealed record CatalogueSeries
{
    /// <summary>What it is: "film 630 V".</summary>
    public required string Name { get; init; }
    /// <summary>Kind.</summary>
    public required NewKind Kind { get; init; }
    /// <summary>Safety class.</summary>
    public SafetyClass SafetyClass { get; init; }
    /// <summary>Rated V DC; for a resistor the working voltage of the type.</summary>
    public required double Volts { get; init; }
    /// <summary>Rated line V AC of a safety class part.</summary>
    public double? LineVolts { get; init; }
    /// <summary>Nominal values on sale, in the unit, rising.</summary>
    public required ImmutableArray<double> Values { get; init; }
    /// <summary>Ohm or farad.</summary>
    public required Unit Unit { get; init; }
    /// <summary>Tolerance, percent.</summary>
    public required double TolerancePercent { get; init; }
    /// <summary>Rated W; null for capacitors.</summary>
    public double? Watts { get; init; }
    /// <summary>Highest working temperature, °C.</summary>
    public double? Celsius { get; init; }
    /// <summary>1 is tried first; a higher rank only when nothing of a lower one fits.</summary>
    public int Rank { get; init; } = 1;
    /// <summary>Shortest body in the series, mm.</summary>
    public double? BodyMinMm { get; init; }
    /// <summary>Longest body in the series, mm.</summary>
    public double? BodyMaxMm { get; init; }
    /// <summary>Diameter (of a box its thickness) of the smallest value, mm.</summary>
    public double? DiameterMinMm { get; init; }
    /// <summary>Diameter or thickness of the largest value, mm.</summary>
    public double? DiameterMaxMm { get; init; }
    /// <summary>Ripple current of the smallest value at <see cref="RippleHertz"/> and the highest temperature, A rms.</summary>
    public double? RippleMinAmperes { get; init; }
    /// <summary>Ripple current of the largest value, A rms.</summary>
    public double? RippleMaxAmperes { get; init; }
    /// <summary>Frequency at which the ripple current is stated, Hz.</summary>
    public double? RippleHertz { get; init; }
    /// <summary>Example price, low end, in an unspecified currency unit.</summary>
    public decimal? PriceLow { get; init; }
    /// <summary>Example price, high end.</summary>
    public decimal? PriceHigh { get; init; }
    /// <summary>Where the row comes from, or "common practice, no source".</summary>
    public required string Source { get; init; }

    /// <summary>Body of a value, mm: lengths grow evenly with its logarithm, diameters as a power of it. Null when the series does not say. Source of the rule: common practice, no source.</summary>
    public (double? LengthMm, double? DiameterMm) BodyOf(double value) => (Grown(value, BodyMinMm, BodyMaxMm, even: true), Grown(value, DiameterMinMm, DiameterMaxMm, even: false));

    /// <summary>Ripple current of a value at <see cref="RippleHertz"/>, A rms; it grows as a power of the value. Null when the series does not say.</summary>
    public double? RippleOf(double value) => Grown(value, RippleMinAmperes, RippleMaxAmperes, even: false) is { } amperes ? Math.Round(amperes, 3) : null;

    private double? Grown(double value, double? least, double? most, bool even)
    {
        if (least is not { } low || most is not { } high || Unit == Unit.Ohm || Values is not [var from, .., var to] || to <= from) return most;
        var share = Math.Clamp(Math.Log(value / from) / Math.Log(to / from), 0, 1);
        var grown = even ? low + (high - low) * share : low * Math.Pow(high / low, share);
        return Math.Round(grown, low < 1 ? 4 : 1);
    }
}

/// <summary>What can be bought, described generically.</summary>
/// <param name="Series">The series, in the order of the files.</param>
/// <param name="Complaints">Rows that could not be read; the others stand.</param>
public sealed record Catalogue(ImmutableArray<CatalogueSeries> Series, ImmutableArray<Complaint> Complaints)
{
    /// <summary>Nothing on sale.</summary>
    public static Catalogue Empty { get; } = new([], []);

    /// <summary>Both catalogues, this one's series first.</summary>
    public Catalogue With(Catalogue other) => new(Series.AddRange(other.Series), Complaints.AddRange(other.Complaints));

    /// <summary>Reads one file's text. Never throws on bad text: rows that cannot be read are in <see cref="Complaints"/>.</summary>
    /// <param name="text">Comma-separated, first line the header; # starts a comment.</param>
    /// <param name="place">What complaints call the text: the file's name.</param>
    /// <remarks>
    /// Columns: series, kind, class, volts, line_volts, values, from, to, unit, tolerance_pct, watts, celsius, rank,
    /// body_min_mm, body_max_mm, dia_min_mm, dia_max_mm, ripple_min_ma, ripple_max_ma, ripple_hz, price_low, price_high, source. "values" is E3, E6, E12, E24 (with from and to) or the values themselves, in
    /// the multiple that "unit" names (pF, nF, uF, ohm, kohm).
    /// </remarks>
    public static Catalogue Parse(string text, string place = "catalogue")
    {
        var (_, rows) = CsvText.Read(text);
        var series = ImmutableArray.CreateBuilder<CatalogueSeries>();
        var complaints = ImmutableArray.CreateBuilder<Complaint>();
        foreach (var row in rows)
        {
            var (one, complaint) = CatalogueRow.Read(row, place);
            if (one is not null) series.Add(one);
            if (complaint is not null) complaints.Add(complaint);
        }
        if (rows.IsEmpty) complaints.Add(new(place, "", 0, "there are no rows", "Give a header line and at least one series."));
        return new(series.ToImmutable(), complaints.ToImmutable());
    }
}
