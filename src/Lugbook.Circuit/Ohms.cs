using System.Collections.Immutable;
using Lugbook.Circuit.Cold;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit;

/// <summary>What an ohmmeter settles at between two nodes of a set that is unplugged and cold.</summary>
/// <param name="Ohms">Resistance with the positive lead on the first node, Ω; infinity when there is no path.</param>
/// <param name="ReversedOhms">The same with the leads exchanged; equal unless a dry rectifier is in the path.</param>
/// <param name="SettlingSeconds">Until the reading is within 1 % of its final value, s; infinity when it never comes to rest (a perfect capacitor alone between the leads).</param>
public readonly record struct OhmsReading(double Ohms, double ReversedOhms, double SettlingSeconds);

/// <summary>Resistance between nodes, valves cold.</summary>
/// <remarks>
/// Valves do not conduct, gas regulators have not struck, filaments and heaters have their cold resistance, the line is unplugged, sources and declared voltages are
/// taken out, capacitors have charged and are their leakage, coils are their winding. Selenium, silicon and germanium (every <see cref="DiodeLaw"/> that needs no heat) conduct as
/// their law says at the meter's test voltage. Settling: the meter drives a constant current; all poles of the network's capacitors are taken, not the slowest alone;
/// rectifiers count as the resistance they end at; the L/R times of coils are not counted. Derivation and limits: docs/circuit.md.
/// Before an ohmmeter is connected the set is unplugged and its capacitors discharged and measured; whoever prints this says so.
/// </remarks>
public static class Ohms
{
    /// <summary>The test voltage of a common multimeter's ohms range with the leads on a high resistance, V; common practice, no source.</summary>
    public const double UsualTestVolts = 0.5;

    /// <summary>Resistance between two nodes.</summary>
    /// <param name="network">The network, as wired.</param>
    /// <param name="a">Node of the positive lead.</param>
    /// <param name="b">Node of the negative lead.</param>
    /// <param name="testVolts">The meter's voltage across the leads, V; above 0. It matters to rectifiers only.</param>
    /// <exception cref="ArgumentOutOfRangeException">A node is not in the network, or the voltage is not above 0.</exception>
    /// <exception cref="UnsolvableException">A network with rectifiers does not settle; the message names the node.</exception>
    public static OhmsReading Between(Network network, int a, int b, double testVolts = UsualTestVolts)
    {
        Check(network, a, nameof(a));
        Check(network, b, nameof(b));
        CheckVolts(testVolts);
        var cold = ColdView.Of(network);
        if (!cold.Any(e => e is Diode)) return new Counted(new(network.NodeNames, b, cold)).At(a);
        return WithRectifiers(network, cold, a, b, testVolts);
    }

    /// <summary>Resistance from every node to one of them, from one reduction of the network (with rectifiers: one a node and polarity).</summary>
    /// <param name="network">The network, as wired.</param>
    /// <param name="common">Node of the negative lead.</param>
    /// <param name="testVolts">As in <see cref="Between"/>.</param>
    /// <returns>One reading a node; 0 Ω at the common node itself.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The node is not in the network, or the voltage is not above 0.</exception>
    /// <exception cref="UnsolvableException">A network with rectifiers does not settle; the message names the node.</exception>
    public static ImmutableArray<OhmsReading> ToCommon(Network network, int common, double testVolts = UsualTestVolts)
    {
        Check(network, common, nameof(common));
        CheckVolts(testVolts);
        var cold = ColdView.Of(network);
        var nodes = Enumerable.Range(0, network.NodeCount);
        if (cold.Any(e => e is Diode)) return [.. nodes.Select(n => WithRectifiers(network, cold, n, common, testVolts))];
        var counted = new Counted(new(network.NodeNames, common, cold));
        return [.. nodes.Select(counted.At)];
    }

    private static OhmsReading WithRectifiers(Network network, ImmutableArray<Element> cold, int a, int b, double testVolts)
    {
        if (a == b) return new(0, 0, 0);
        OhmsReading Read(double volts) => new Counted(new(network.NodeNames, b, Rectifiers.AsResistors(network.NodeNames, b, a, cold, volts))).At(a);
        var (forward, reverse) = (Read(testVolts), Read(-testVolts));
        return new(forward.Ohms, reverse.Ohms, Math.Max(forward.SettlingSeconds, reverse.SettlingSeconds));
    }

    private static void Check(Network network, int node, string name)
    {
        if (node < 0 || node >= network.NodeCount)
            throw new ArgumentOutOfRangeException(name, node, $"Nodes run from 0 to {network.NodeCount - 1}.");
    }

    private static void CheckVolts(double testVolts)
    {
        if (!(testVolts > 0 && double.IsFinite(testVolts)))
            throw new ArgumentOutOfRangeException(nameof(testVolts), testVolts, "The meter's test voltage is above 0 V.");
    }

    /// <summary>One cold network counted from one node.</summary>
    private sealed class Counted
    {
        private readonly ColdNetwork _network;
        private readonly Reduced _resting, _charging;
        private readonly double[] _ohms;
        private readonly Lazy<ChargeModes> _modes;

        public Counted(ColdNetwork network)
        {
            _network = network;
            _resting = network.Resting();
            _ohms = _resting.Mesh.OhmsToCommon();
            _charging = network.Charging();
            _modes = new(() => new(_charging, network.CapacitorsIn(_charging)));
        }

        public OhmsReading At(int node)
        {
            var joined = _network.Joined(node);
            if (!_resting.Tied[joined])
            {
                // No way for direct current. With a capacitor in the way the needle moves and creeps for as long as one looks.
                return new(double.PositiveInfinity, double.PositiveInfinity, _charging.Tied[joined] ? double.PositiveInfinity : 0);
            }
            if (_resting.RowOf[joined] < 0) return new(0, 0, 0);
            var ohms = _ohms[_resting.RowOf[joined]];
            return new(ohms, ohms, _modes.Value.SecondsToOnePercent(_charging.RowOf[joined], ohms));
        }
    }
}
