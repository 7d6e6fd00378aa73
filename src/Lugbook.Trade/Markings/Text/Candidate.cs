using System.Collections.Immutable;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>In which way a value is written; belief depends on it.</summary>
internal enum Form
{
    /// <summary>The unit is spelt out: MFD, kΩ.</summary>
    Spelt,
    /// <summary>A letter in place of the decimal mark: 4K7, R47.</summary>
    LetterPoint,
    /// <summary>A multiplier letter after the number: 47K, 100n.</summary>
    LetterTail,
    /// <summary>Two figures and the number of noughts: 473.</summary>
    ThreeDigitCode,
    /// <summary>Figures as they stand, in picofarads, with or without a tolerance letter.</summary>
    TrueValue,
    /// <summary>Microfarads and a tolerance letter: .047K, 1K63.</summary>
    MicrofaradsAndLetter,
    /// <summary>Ohms and a tolerance letter: 47J.</summary>
    OhmsAndLetter,
    /// <summary>True value with the old British letter pair: 470JN.</summary>
    OldBritish,
    /// <summary>A number and nothing else, in ohms.</summary>
    BareOhms,
    /// <summary>A number and nothing else, in microfarads.</summary>
    BareMicrofarads,
    /// <summary>A military type number that holds the value.</summary>
    TypeNumber,
    /// <summary>Lowest and highest value of something adjustable.</summary>
    Range,
}

/// <summary>What a lone letter was taken for, when it can be taken for something else.</summary>
internal enum Habit
{
    /// <summary>Nothing special.</summary>
    None,
    /// <summary>M is a thousand.</summary>
    MThousand,
    /// <summary>M is a million.</summary>
    MMillion,
    /// <summary>K is a thousand picofarads.</summary>
    KPicofarads,
    /// <summary>M or m is a microfarad.</summary>
    MMicrofarad,
    /// <summary>m is the standard's milli.</summary>
    Milli,
    /// <summary>R stands for the point of a capacitor's value.</summary>
    RPoint,
    /// <summary>The capital omega is a megohm.</summary>
    OmegaMegohm,
    /// <summary>T is a thousand (German Tausend).</summary>
    TThousand,
}

/// <summary>How a number's mark was read the other way.</summary>
internal enum OtherMark
{
    /// <summary>A comma before three figures as a decimal mark: 1,500 MΩ.</summary>
    ToDecimal,
    /// <summary>A point before three figures as a thousands mark: 5.000 pF.</summary>
    ToThousands,
    /// <summary>05 as 5, though a nought before a figure is usually what is left of .05.</summary>
    AsItStands,
}

/// <summary>One way to take the written value, before anything else of the marking is weighed.</summary>
internal sealed record Candidate(Unit Unit, ImmutableArray<double> Values, Form Form, string Code, string Reason)
{
    /// <summary>What a lone letter was taken for.</summary>
    public Habit Habit { get; init; }
    /// <summary>Its mark read the other way, if it was.</summary>
    public OtherMark? OtherMark { get; init; }
    /// <summary>Tolerance from a letter.</summary>
    public Tolerance? Tolerance { get; init; }
    /// <summary>Volts from a code or from a number directly after the letter.</summary>
    public double? Volts { get; init; }
    /// <summary>Temperature coefficient from a letter, ppm/K.</summary>
    public double? TempcoPpm { get; init; }
    /// <summary>A doubt that goes with this way of taking it.</summary>
    public string? Doubt { get; init; }
    /// <summary>More or less belief for a reason of its own.</summary>
    public double Weight { get; init; } = 1;

    /// <summary>The first value.</summary>
    public double Value => Values[0];
}
