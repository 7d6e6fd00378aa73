using System.Collections.Immutable;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>Numbers without a unit, as they stood together.</summary>
/// <param name="Numbers">In order.</param>
/// <param name="Separators">The sign before each number; '\0' before the first.</param>
/// <param name="Starts">Where each begins in the folded text.</param>
/// <param name="Follows">Joined by a sign to the value before it, as 600 in ".02 MFD-600".</param>
internal sealed record BareGroup(ImmutableArray<Numeral> Numbers, ImmutableArray<char> Separators, ImmutableArray<int> Starts, bool Follows)
{
    /// <summary>How many voltages had been read when these numbers began.</summary>
    public int VoltsBefore { get; init; }
}

/// <summary>A value, or several sections written together, with the ways to take it.</summary>
/// <param name="Candidates">Never empty.</param>
/// <param name="Start">Where it begins in the folded text.</param>
/// <param name="Joined">A section mark stood before it.</param>
internal sealed record ValueGroup(ImmutableArray<Candidate> Candidates, int Start, bool Joined)
{
    /// <summary>How many voltages had been read when this value began.</summary>
    public int VoltsBefore { get; init; }
    /// <summary>The first number as written: the same value in other figures is the value said twice.</summary>
    public string Figures { get; init; } = "";
}

/// <summary>One written voltage.</summary>
internal readonly record struct VoltNumber(double Volts, VoltTraits Traits, int Start, int Group);

/// <summary>All that a marking says, before its value is decided.</summary>
internal sealed class Facts
{
    public List<ValueGroup> Values { get; } = [];
    public List<BareGroup> Bares { get; } = [];
    public List<VoltNumber> Volts { get; set; } = [];
    public VoltTraits VoltTraits { get; set; }
    public double? Watts { get; set; }
    public double? Amperes { get; set; }
    public Tolerance? Tolerance { get; set; }
    public double? TolerancePicofarads { get; set; }
    public List<SafetyClass> Classes { get; } = [];
    public double? TempcoPpm { get; set; }
    public string? Dielectric { get; set; }
    public string? DielectricWord { get; set; }
    public bool Polarised { get; set; }
    public PartKind? Kind { get; set; }
    public List<string> Doubts { get; } = [];
    public List<string> Unread { get; } = [];
    /// <summary>Mark of the end of the text, folded.</summary>
    public int Length { get; set; }

    public bool HasValue => Values.Count > 0 || Bares.Count > 0;
}
