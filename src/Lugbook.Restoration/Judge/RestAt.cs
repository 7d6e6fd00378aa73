using Lugbook.Circuit;
using Lugbook.Restoration.Netlist;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Judge;

/// <summary>What lies in parallel with a capacitor at a meter's frequency.</summary>
/// <param name="Low">Least capacitance of the rest, F.</param>
/// <param name="High">Most, F.</param>
/// <param name="Ohms">Resistive part of the rest, Ω.</param>
/// <param name="Shunted">A resistance or a coil lies so low across it that the meter's figure means nothing.</param>
internal sealed record RestAt(double Low, double High, double Ohms, bool Shunted)
{
    // Neighbours are old and new capacitors, ±30 % together; a meter's figure stands while what shunts it draws less than a third of the capacitor's current. Common practice, no source.
    private const double Share = 0.3, ShuntShare = 0.3;

    public static RestAt? Of(NetlistResult netlist, Network cold, Part part, double hertz, string? without)
    {
        if (netlist.Map.NodeOf(part.LeadA) is not { } a || netlist.Map.NodeOf(part.LeadB) is not { } b || a.Index == b.Index || part.Value is not { } farads || farads <= 0) return null;
        var gone = netlist.ElementsOf(part.Name).Concat(without is null ? [] : netlist.ElementsOf(without)).ToHashSet(StringComparer.Ordinal);
        var rest = Impedance.Between(new Network(cold.NodeNames, cold.Reference, cold.Elements.Where(e => !gone.Contains(e.Name))), a.Index, b.Index, hertz);
        if (!double.IsFinite(rest.Magnitude)) return new(0, 0, double.PositiveInfinity, false);
        var own = 2 * Math.PI * hertz * farads;
        var siemens = 1 / rest.Ohms;
        var shunted = Math.Abs(siemens.Real) > ShuntShare * own || siemens.Imaginary < -ShuntShare * own || rest.Magnitude * own < ShuntShare;
        var other = rest.ParallelFarads;
        return new(Math.Min(other * (1 - Share), other * (1 + Share)), Math.Max(other * (1 - Share), other * (1 + Share)), 1 / siemens.Real, shunted);
    }
}
