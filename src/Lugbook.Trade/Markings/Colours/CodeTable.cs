using System.Collections.Immutable;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>What one colour means in one code, by the place where it stands; null where it means nothing.</summary>
internal sealed record CodeRow(Colour Colour, int? Figure = null, int? Exponent = null)
{
    /// <summary>Tolerance, percent.</summary>
    public double? Percent { get; init; }
    /// <summary>Tolerance at 10 pF and below, pF.</summary>
    public double? Picofarads { get; init; }
    /// <summary>Met on real parts as a tolerance, but no table says what it means.</summary>
    public bool PercentUnclear { get; init; }
    /// <summary>Rated DC volts.</summary>
    public double? Volts { get; init; }
    /// <summary>Temperature coefficient, parts in 10⁶ per kelvin.</summary>
    public double? Tempco { get; init; }
    /// <summary>Figure of an extended temperature coefficient.</summary>
    public double? TempcoFigure { get; init; }
    /// <summary>Multiplier, with sign, of an extended temperature coefficient.</summary>
    public double? TempcoMultiplier { get; init; }
    /// <summary>Failures in percent per 1000 hours.</summary>
    public double? FailureRate { get; init; }
    /// <summary>A band that says something else than a failure rate.</summary>
    public string? FailureWords { get; init; }
    /// <summary>Class letter of a mica or paper part.</summary>
    public string? Class { get; init; }
    /// <summary>What the class promises, in words.</summary>
    public string? ClassWords { get; init; }
    /// <summary>Operating temperatures, in words.</summary>
    public string? Temperatures { get; init; }
    /// <summary>Vibration grade, in words.</summary>
    public string? Vibration { get; init; }
}

/// <summary>The colours of one code. Sources: data/reference/colour-codes.csv, records "colour" and "layout".</summary>
internal sealed class CodeTable
{
    private readonly CodeRow?[] _rows = new CodeRow?[(int)Colour.Pink + 1];

    public CodeTable(params CodeRow[] rows)
    {
        foreach (var row in rows) _rows[(int)row.Colour] = row;
        Rows = [.. rows];
    }

    /// <summary>In the order of the figures; the encoder takes the first that fits.</summary>
    public ImmutableArray<CodeRow> Rows { get; }

    public CodeRow? this[Colour colour] => _rows[(int)colour];
}
