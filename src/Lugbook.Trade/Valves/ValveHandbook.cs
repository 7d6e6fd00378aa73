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
    string Confidence)
{
    /// <summary>What its maker allows, of each section; of a triode-pentode or triode-heptode those of the second.</summary>
    public ValveLimits Limits { get; init; } = ValveLimits.None;

    /// <summary>The limits of a section: none for the triode beside a pentode or heptode, nor for a signal diode, because the data give the other's only.</summary>
    /// <param name="section">"1", "triode", "d1", … or empty.</param>
    public ValveLimits LimitsOf(string section) =>
        section is "d1" or "d2" or "d3" || (section == "triode" && Class.StartsWith("triode-", StringComparison.OrdinalIgnoreCase)) ? ValveLimits.None : Limits;
}

/// <summary>The valve types that are known, found by name or equivalent.</summary>
public sealed class ValveHandbook
{
    private readonly ImmutableArray<ValveType> _types;
    private readonly Dictionary<string, ValveType> _byName = new(StringComparer.Ordinal);
    private readonly Dictionary<string, ValveType> _byEquivalent = new(StringComparer.Ordinal);
    private readonly ILookup<string, ValveType> _byStem;

    /// <summary>A handbook of these types; of two with one name the first stands.</summary>
    public ValveHandbook(IEnumerable<ValveType> types)
    {
        _types = [.. types];
        foreach (var type in _types)
        {
            foreach (var piece in Pieces(type.Type)) _byName.TryAdd(piece, type);
            foreach (var piece in type.Equivalents.SelectMany(Pieces)) _byEquivalent.TryAdd(piece, type);
        }
        _byStem = _types.SelectMany(t => Pieces(t.Type).Concat(t.Equivalents.SelectMany(Pieces)).Select(n => (Stem: ValveNames.Stem(n), Type: t)))
            .Where(s => s.Stem is not null).Distinct().ToLookup(s => s.Stem!, s => s.Type, StringComparer.Ordinal);
    }

    /// <summary>A handbook without a line: every type is unknown.</summary>
    public static ValveHandbook Empty { get; } = new([]);

    /// <summary>All types.</summary>
    public ImmutableArray<ValveType> Types => _types;

    /// <summary>The type of this name, an equivalent of it, or the same type with another envelope suffix; null when unknown.</summary>
    /// <remarks>
    /// Case, blanks, dashes and a question mark at the end do not matter; of "12AX7/ECC83" either half will do. A suffix (G, GT, A, W, …) is let go only when all types
    /// that share the rest have one pinout, a metal shell apart; where glass and metal differ, a G in the name decides. Another digit is another type:
    /// 6X5 never finds 6X4.
    /// </remarks>
    public ValveType? Find(string? name)
    {
        if (string.IsNullOrWhiteSpace(name)) return null;
        var pieces = Pieces(name.TrimEnd('?', ' '));
        return pieces.Select(p => _byName.GetValueOrDefault(p)).FirstOrDefault(t => t is not null)
            ?? pieces.Select(p => _byEquivalent.GetValueOrDefault(p)).FirstOrDefault(t => t is not null)
            ?? pieces.Select(BySuffix).FirstOrDefault(t => t is not null);
    }

    private ValveType? BySuffix(string plain)
    {
        if (ValveNames.Stem(plain) is not { } stem) return null;
        var candidates = _byStem[stem].ToArray();
        if (candidates.Length <= 1) return candidates.FirstOrDefault();
        if (candidates.Skip(1).All(c => SamePins(c, candidates[0]))) return candidates[0];
        var glass = ValveNames.IsGlassOctal(plain);
        var alike = candidates.Where(c => ValveNames.IsGlassOctal(ValveNames.Plain(c.Type)) == glass).ToArray();
        return alike.Length > 0 && alike.Skip(1).All(c => SamePins(c, alike[0])) ? alike[0] : null;
    }

    private static bool SamePins(ValveType a, ValveType b) => a.Base == b.Base && a.HeaterVolts == b.HeaterVolts
        && a.Pinout.Keys.Union(b.Pinout.Keys).All(pin => Working(a, pin).SetEquals(Working(b, pin)));

    private static ImmutableHashSet<string> Working(ValveType type, string pin) =>
        type.Pinout.TryGetValue(pin, out var letters) ? [.. letters.Where(l => l is not ("shell" or "nc" or "ic" or "bp"))] : [];

    private static string[] Pieces(string name) =>
        [.. name.Split('/', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(ValveNames.Plain)];
}
