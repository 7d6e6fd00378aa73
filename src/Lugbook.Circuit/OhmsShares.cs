using System.Collections.Immutable;
using Lugbook.Circuit.Cold;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit;

/// <summary>What each part contributes to a resistance between two nodes.</summary>
/// <param name="Ohms">The resistance with the positive lead on the first node, Ω; infinity without a path.</param>
/// <param name="Shares">dR/d(ln Rᵢ) of every part that carries the meter's current, Ω, largest first; they sum to the resistance.</param>
public sealed record OhmsShares(double Ohms, ImmutableArray<(string Element, double Ohms)> Shares)
{
    /// <summary>Shares of the parts between two nodes, set unplugged and cold as in <see cref="Circuit.Ohms"/>.</summary>
    /// <remarks>
    /// With 1 A through the leads R = Σ iᵢ²·Rᵢ, and by Tellegen's theorem dR/dRᵢ = iᵢ² (Director and Rohrer 1969). A rectifier counts as the resistance that it
    /// has at the meter's voltage.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The voltage is not above 0.</exception>
    /// <exception cref="UnsolvableException">A network with rectifiers does not settle.</exception>
    public static OhmsShares Between(Network network, int a, int b, double testVolts = Circuit.Ohms.UsualTestVolts) =>
        Of(Circuit.Ohms.Between(network, a, b, testVolts).Ohms, network, a, b, testVolts);

    /// <summary>The same where the resistance is known already, Ω.</summary>
    public static OhmsShares Of(double ohms, Network network, int a, int b, double testVolts)
    {
        if (!(ohms > 0) || !double.IsFinite(ohms)) return new(ohms, []);
        var cold = ColdView.Of(network);
        IEnumerable<Element> still = cold.Any(e => e is Diode) ? Rectifiers.AsResistors(network.NodeNames, b, a, cold, testVolts) : cold;
        // Enough current that the volts stand well above what the solver leaves over; resistances are linear.
        var amperes = 10 / ohms;
        var probe = new Network(network.NodeNames, b, still.Append(new CurrentDrain("the meter's own current", b, a, amperes)));
        var volts = OperatingPoint.Of(probe).Volts.AsSpan();
        var shares = new List<(string, double)>();
        foreach (var element in probe.Elements)
        {
            if (element is CurrentDrain) continue;
            double watts = 0;
            foreach (var (node, i) in Currents.Into(element, volts)) watts += volts[node] * i;
            var share = watts / (amperes * amperes);
            if (share > 1e-6 * ohms) shares.Add((element.Name, share));
        }
        return new(ohms, [.. shares.OrderByDescending(s => s.Item2)]);
    }
}
