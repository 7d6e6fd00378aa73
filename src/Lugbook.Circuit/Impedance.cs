using System.Numerics;
using Lugbook.Circuit.Alternating;
using Lugbook.Circuit.Cold;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit;

/// <summary>Impedance between two nodes at one frequency, set unplugged and cold, and what bridges and capacitance meters make of it.</summary>
/// <param name="Ohms">Complex impedance, Ω; infinite when nothing connects the nodes.</param>
/// <param name="Hertz">Test frequency, Hz.</param>
public readonly record struct Impedance(Complex Ohms, double Hertz)
{
    private double Omega => 2 * Math.PI * Hertz;
    private Complex Siemens => Complex.IsFinite(Ohms) ? 1 / Ohms : Complex.Zero;

    /// <summary>Magnitude, Ω.</summary>
    public double Magnitude => Complex.IsFinite(Ohms) ? Complex.Abs(Ohms) : double.PositiveInfinity;
    /// <summary>Phase of voltage against current, radians; −π/2 for a perfect capacitor. NaN when open.</summary>
    public double Phase => Complex.IsFinite(Ohms) ? Ohms.Phase : double.NaN;
    /// <summary>Series equivalent: resistance, Ω.</summary>
    public double SeriesOhms => Ohms.Real;
    /// <summary>Series equivalent: capacitance, F, on a meter set to series; negative when the nodes look like a coil.</summary>
    public double SeriesFarads => Complex.IsFinite(Ohms) ? -1 / (Omega * Ohms.Imaginary) : 0;
    /// <summary>Parallel equivalent: resistance, Ω.</summary>
    public double ParallelOhms => 1 / Siemens.Real;
    /// <summary>Parallel equivalent: capacitance, F, on a meter set to parallel; negative when the nodes look like a coil.</summary>
    public double ParallelFarads => Siemens.Imaginary / Omega;
    /// <summary>Series equivalent: inductance, H; negative when the nodes look like a capacitor.</summary>
    public double SeriesHenries => Ohms.Imaginary / Omega;
    /// <summary>Dissipation factor: resistance over reactance of the series equivalent, 0 or more.</summary>
    public double Dissipation => Math.Abs(Ohms.Real / Ohms.Imaginary);

    /// <summary>Impedance between two nodes.</summary>
    /// <param name="network">The network, as wired.</param>
    /// <param name="a">First node.</param>
    /// <param name="b">Second node.</param>
    /// <param name="hertz">Test frequency, Hz; above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A node is not in the network, or the frequency is not above 0.</exception>
    /// <remarks>
    /// Cold as in <see cref="Circuit.Ohms"/>. The test signal is taken as too small to open a rectifier, which counts as its slope at 0 V. Coils have no self-capacitance
    /// and cores no losses unless they are entered; valves no capacitance between electrodes. Derivation and limits: docs/circuit.md.
    /// </remarks>
    public static Impedance Between(Network network, int a, int b, double hertz)
    {
        foreach (var (node, name) in new[] { (a, nameof(a)), (b, nameof(b)) })
        {
            if (node < 0 || node >= network.NodeCount) throw new ArgumentOutOfRangeException(name, node, $"Nodes run from 0 to {network.NodeCount - 1}.");
        }
        if (!(hertz > 0 && double.IsFinite(hertz))) throw new ArgumentOutOfRangeException(nameof(hertz), hertz, "The test frequency is above 0 Hz.");
        var at = new AtFrequency(network.NodeCount, hertz);
        foreach (var element in ColdView.Of(network))
        {
            if (element is Diode d) at.Ohms(d.Anode, d.Cathode, Rectifiers.OhmsAtRest(d.Law));
            else at.Add(element);
        }
        var volts = at.VoltsFor(a, [b]);
        return new(volts is null ? new(double.PositiveInfinity, 0) : volts[a], hertz);
    }
}
