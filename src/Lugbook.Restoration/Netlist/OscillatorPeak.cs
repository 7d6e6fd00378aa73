using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Valves;

namespace Lugbook.Restoration.Netlist;

/// <summary>How far a converter's grid 1 swings, from the bias that its grid leak shows.</summary>
internal static class OscillatorPeak
{
    // Half a milliampere through 20 kΩ: what the handbooks print beside converters.
    private const double UsualAmperes = 0.5e-3, UsualOhms = 20e3;

    public static double Of(NetBuilder net, ConverterLaw law, int oscillator, int cathode, DeclaredNodes declared, string valve)
    {
        var leak = net.Elements.OfType<Resistor>().Where(r => r.A == oscillator || r.B == oscillator).Select(r => (double?)r.Ohms).Min();
        var ohms = leak is { } l and > 0 && double.IsFinite(l) ? l : UsualOhms;
        var bias = declared.Take(oscillator) ?? Charted(net, oscillator);
        if (bias is null)
        {
            net.Unknown(valve, $"{valve}: how strongly its oscillator swings is neither declared nor charted; half a milliampere through its grid leak is taken. Declare the volts of its grid 1.");
            return law.OscillatorPeakVolts(ohms, UsualAmperes);
        }
        return bias < -0.05 ? law.OscillatorPeakVolts(ohms, -bias.Value / ohms) : 0;
    }

    private static double? Charted(NetBuilder net, int node) =>
        net.Map.Book.SheetReadings.Where(r => r is { IsAc: false, Volts: < -0.5 } && net.Node(r.Name) == node).Select(r => r.Volts).FirstOrDefault();
}
