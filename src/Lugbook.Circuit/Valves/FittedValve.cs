using System.Collections.Immutable;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Valves;

/// <summary>One section of a valve. Exactly one of fit and diode is there.</summary>
/// <param name="Name">"1" and "2" of twins, "triode", "pentode", "heptode", "d1", "d2", or empty.</param>
/// <param name="Fit">The fitted law, with its lines, weak predictions and spread.</param>
/// <param name="Diode">The law of a diode section.</param>
/// <param name="Origin">What the section's law was taken from, in words.</param>
public sealed record ValveSection(string Name, FittedLaw? Fit, DiodeLaw? Diode, string Origin);

/// <summary>A type with the laws of its sections.</summary>
/// <param name="Type">Type as asked for in the data.</param>
/// <param name="DataOf">The type whose lines apply (a twin that differs only in its heater), or the type itself.</param>
/// <param name="Sections">Sections; none where the data give no line.</param>
/// <param name="NewSpread">How far the currents of a new valve may lie from the handbook's: half the range over the nominal, 0.3 for ±30 %.</param>
/// <param name="SpreadSource">Where that is from.</param>
public sealed record FittedValve(string Type, string DataOf, ImmutableArray<ValveSection> Sections, double NewSpread, string SpreadSource)
{
    /// <summary>Why <see cref="DataOf"/> stands for the name asked for, in words; empty where the name or a listed equivalent is in the data.</summary>
    public string Why { get; init; } = "";
}
