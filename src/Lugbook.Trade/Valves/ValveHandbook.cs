using System.Collections.Immutable;

namespace Lugbook.Trade.Valves;

/// <summary>A valve type as the handbooks give it.</summary>
/// <param name="Type">Its usual name: "6V6GT".</param>
/// <param name="Equivalents">Other names of the same pinout and heater.</param>
/// <param name="Class">As the data file writes it: "triode", "pentode", "beam", "converter", "rectifier", …</param>
/// <param name="Base">"octal", "noval", "7-pin miniature", "duodecal".</param>
/// <param name="Pinout">Pin (number or "cap") to electrodes by the trade's letters (p, g1, g2, k, h, f, d1, shell, nc, …).</param>
/// <param name="HeaterVolts">Heater volts; null when unknown.</param>
/// <param name="HeaterAmperes">Heater current, A; null when unknown.</param>
/// <param name="Source">Where the row comes from.</param>
/// <param name="Confidence">"verified" or "memory".</param>
public sealed record ValveType(
    string Type,
    ImmutableArray<string> Equivalents,
    string Class,
    string Base,
    ImmutableSortedDictionary<string, ImmutableArray<string>> Pinout,
    double? HeaterVolts,
    double? HeaterAmperes,
    string Source,
    string Confidence);

/// <summary>The valve types that are known, found by name or equivalent.</summary>
public sealed class ValveHandbook
{
    private readonly ImmutableArray<ValveType> _types;

    /// <summary>A handbook of these types.</summary>
    public ValveHandbook(IEnumerable<ValveType> types) => _types = [.. types];

    /// <summary>All types.</summary>
    public ImmutableArray<ValveType> Types => _types;

    /// <summary>The type of this name, an equivalent of it, or the same type with another envelope suffix; null when unknown.</summary>
    public ValveType? Find(string? name) => throw new NotSupportedException();
}
