using System.Numerics;
using Lugbook.Circuit.Alternating;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Powering;

/// <summary>What the line would lift each rectifier by, were nothing drawn through it.</summary>
internal static class OpenLift
{
    // All rectifiers blocked alike: the two in series of a bridge share their winding's voltage.
    private const double BlockedOhms = 1e9;

    /// <summary>Peak of the alternating voltage across each rectifier with all of them blocked, V.</summary>
    public static IReadOnlyDictionary<string, double> Of(Network reduced)
    {
        var peaks = new Dictionary<string, double>(StringComparer.Ordinal);
        if (reduced.Elements.OfType<Mains>().FirstOrDefault() is not { } line) return peaks;
        var at = new AtFrequency(reduced.NodeCount, line.Hertz);
        foreach (var element in reduced.Elements)
        {
            if (element is Diode d) at.Ohms(d.Anode, d.Cathode, BlockedOhms);
            else if (element is Mains other && other != line) continue;
            else if (element is not (Triode or Pentode or Converter or GasRegulator or Declared)) at.Add(element);
        }
        if (at.VoltsFor(line.A, [line.B]) is not { } perAmpere) return peaks;
        var amperes = Math.Sqrt(2) * line.VoltsRms / line.Ohms;
        foreach (var d in reduced.Elements.OfType<Diode>()) peaks[d.Name] = amperes * Complex.Abs(perAmpere[d.Anode] - perAmpere[d.Cathode]);
        return peaks;
    }
}
