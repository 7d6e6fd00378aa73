using System.Collections.Immutable;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>What a colour says by the place where it stands.</summary>
internal enum Role
{
    /// <summary>Says which code it is: the first dot of a mica.</summary>
    Type,
    Figure, Multiplier, Tolerance, Volts,
    /// <summary>First and second figure of a rating of 1000 V or more.</summary>
    VoltsTens, VoltsUnits,
    Tempco, TempcoFigure, TempcoMultiplier, FailureRate, Class, Temperatures, Vibration,
}

/// <summary>One place of a code.</summary>
/// <param name="Place">Where on the part, in words: "band 1", "top left".</param>
/// <param name="Role">What stands there.</param>
/// <param name="Words">The role in words: "second figure".</param>
internal sealed record Slot(string Place, Role Role, string Words);

/// <summary>One form of a code: so many colours, in this order.</summary>
/// <param name="Code">In words: "resistor, four bands".</param>
/// <param name="Slots">In the order in which the colours are written.</param>
internal sealed record Arrangement(string Code, ImmutableArray<Slot> Slots)
{
    /// <summary>Tolerance that is understood when no colour shows it, percent.</summary>
    public double? ImpliedPercent { get; init; }
    /// <summary>Volts that are understood when no colour shows them.</summary>
    public double? ImpliedVolts { get; init; }
    /// <summary>How many of the figures there are.</summary>
    public int Figures { get; } = Slots.Count(s => s.Role == Role.Figure);
    /// <summary>Belief in this form against the code's other forms.</summary>
    public double Belief { get; init; } = 1;
}

/// <summary>A colour code: forms, table, where it is found and what was made in it.</summary>
internal sealed record CodeLayout
{
    /// <summary>Its name in data/reference/colour-codes.csv.</summary>
    public required string Id { get; init; }
    public required string Title { get; init; }
    /// <summary>The order of the colours, in words.</summary>
    public required string Order { get; init; }
    public required string Notes { get; init; }
    public required Unit Unit { get; init; }
    public required CodeTable Table { get; init; }
    public required ImmutableArray<Arrangement> Forms { get; init; }
    /// <summary>Kinds of parts that carry it.</summary>
    public required ImmutableArray<PartKind> Kinds { get; init; }
    /// <summary>Years in which it was put on parts.</summary>
    public (int? From, int? To) Years { get; init; }
    /// <summary>Belief when the kind of part is not known; then a resistor is likeliest.</summary>
    public double Unasked { get; init; }
    /// <summary>Belief among the codes of the kind asked for.</summary>
    public double Asked { get; init; } = 1;
    /// <summary>Lowest and highest value that was ever made, base unit; outside, the reading is impossible.</summary>
    public required (double Low, double High) Possible { get; init; }
    /// <summary>Lowest and highest value that is common, base unit.</summary>
    public required (double Low, double High) Usual { get; init; }
    /// <summary>Belief in a value outside the common ones.</summary>
    public double Unusual { get; init; } = 0.1;
    /// <summary>In words, what the turned part is: empty when it cannot be read the wrong way.</summary>
    public string Turned { get; init; } = "";
    /// <summary>A colour that is not seen is the same as the body.</summary>
    public bool NoneIsBody { get; init; }
    /// <summary>Colours of the type dot, each with belief and, when it is not the plain case, the doubt.</summary>
    public ImmutableArray<(Colour Colour, double Belief, string? Doubt)> Types { get; init; } = [];
    /// <summary>Colours that as a first dot belong to another code, each with that code in words.</summary>
    public ImmutableArray<(Colour Colour, string Code)> NotFirst { get; init; } = [];
    /// <summary>A value below 10 pF may be written with a leading zero.</summary>
    public bool ZeroFirst { get; init; }
    /// <summary>The reading matters for what to do next, so it is never folded into another code's equal value.</summary>
    public bool Apart { get; init; }
    /// <summary>Equal neighbours may show as one wide band.</summary>
    public bool Merges { get; init; }
    /// <summary>Tolerance colours that were common, percent; empty when all were.</summary>
    public ImmutableArray<(double Percent, double Belief)> UsualPercents { get; init; } = [];
    /// <summary>What every reading by this code must say.</summary>
    public ImmutableArray<string> Doubts { get; init; } = [];
    /// <summary>Why this code and not another, as a sentence; empty when nothing is to be said.</summary>
    public string Sign { get; init; } = "";

    public bool IsCapacitor => Unit == Unit.Farad;
    public bool CanTurn => Turned.Length > 0;
}
