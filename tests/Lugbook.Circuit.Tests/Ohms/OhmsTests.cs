using CsCheck;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Tests;

/// <summary>Source: Ohm's and Kirchhoff's laws, Kennelly's delta-star equations (1899), closed forms of bridges, ladders and RC charging.</summary>
public class OhmsTests
{
    private static string[] Names(int n) => [.. Enumerable.Range(0, n).Select(i => $"n{i}")];

    private static void Close(double expected, double actual, double relative = 1e-9) =>
        Assert.True(Math.Abs(actual - expected) <= relative * Math.Abs(expected), $"expected {expected:R}, found {actual:R}");

    [Fact]
    public void Series_and_parallel_resistors_add_as_they_should()
    {
        var network = new Network(Names(3), 0, [new Resistor("R1", 1, 2, 220e3), new Resistor("R2", 2, 0, 47e3), new Resistor("R3", 1, 0, 1e6)]);
        Close(1 / (1 / 267e3 + 1 / 1e6), Ohms.Between(network, 1, 0).Ohms);
        Close(1 / (1 / 47e3 + 1 / 1220e3), Ohms.Between(network, 2, 0).Ohms);
    }

    [Fact]
    public void An_unbalanced_bridge_agrees_with_its_delta_star_equivalent()
    {
        double r1 = 100, r2 = 220, r3 = 330, r4 = 470, r5 = 56;
        var network = new Network(Names(4), 0,
            [new Resistor("1", 3, 1, r1), new Resistor("2", 3, 2, r2), new Resistor("3", 1, 0, r3), new Resistor("4", 2, 0, r4), new Resistor("5", 1, 2, r5)]);
        var sum = r1 + r2 + r5;
        var (top, left, right) = (r1 * r2 / sum, r1 * r5 / sum, r2 * r5 / sum);
        Close(top + 1 / (1 / (left + r3) + 1 / (right + r4)), Ohms.Between(network, 3, 0).Ohms);
    }

    [Fact]
    public void A_milliohm_in_series_with_a_gigaohm_keeps_both_digits()
    {
        var network = new Network(Names(4), 0, [new Resistor("a", 1, 2, 1e-3), new Resistor("b", 2, 3, 1e9), new Resistor("c", 3, 0, 1e-3)]);
        Close(1e9 + 2e-3, Ohms.Between(network, 1, 0).Ohms, 1e-15);
        Close(1e-3, Ohms.Between(network, 3, 0).Ohms, 1e-14);
    }

    [Fact]
    public void A_ladder_shows_ratios_of_fibonacci_numbers()
    {
        // Source: Morgan-Voyce, IRE Trans. CT-6, 1959 (from memory).
        const int sections = 20;
        var elements = new List<Element>();
        for (var k = 1; k <= sections; k++)
        {
            elements.Add(new Resistor($"S{k}", k, k + 1, 1));
            elements.Add(new Resistor($"P{k}", k + 1, 0, 1));
        }
        double a = 0, b = 1;
        for (var k = 0; k < 2 * sections; k++) (a, b) = (b, a + b);
        Close(b / a, Ohms.Between(new(Names(sections + 2), 0, elements), 1, 0).Ohms, 1e-13);
    }

    [Fact]
    public void A_cold_set_shows_resistances_and_no_valve()
    {
        var law = new TriodeLaw(100, 1e-3, 1.5, 0.5, 0.1, 0.002, 1e-3, 0.3, 0.15);
        var network = new Network(["chassis", "B+", "plate", "cathode", "grid", "heater", "live", "coil"], 0,
        [
            new Mains("line", 6, 0, 117, 60, 1), new Filament("heater", 5, 0, 12.6, 0.15, 1.0 / 7, 11),
            new Resistor("RL", 1, 2, 220e3), new Resistor("RK", 3, 0, 2700), new Resistor("RG", 4, 0, 1e6), new Capacitor("C1", 1, 0, 20e-6, 0, 200e3),
            new Triode("V1", 2, 4, 3, law), new Diode("V2", 6, 1, DiodeLaw.Vacuum(22, 0.07)), new GasRegulator("V3", 1, 0, 150, 100, 180),
            new Inductor("L", 7, 0, 0.1, 8), new Battery("B", 7, 0, 9, 1), new Declared("bias", 4, -5), new Switch("S", 7, 5, false),
        ]);
        var all = Ohms.ToCommon(network, 0);
        Close(200e3, all[1].Ohms);
        Close(420e3, all[2].Ohms);
        Close(2700, all[3].Ohms);
        Close(1e6, all[4].Ohms);
        Close(12.6 / 0.15 / 7, all[5].Ohms);
        Assert.Equal(double.PositiveInfinity, all[6].Ohms);
        Close(8, all[7].Ohms);
        Assert.Equal(0, all[0].Ohms);
        Close(4.8, Ohms.Between(network.With(new Switch("S", 7, 5, true)), 7, 0).Ohms);
    }

    [Fact]
    public void A_capacitor_through_a_resistor_settles_in_time_constants()
    {
        // v(t) = R·(1 − e^(−t/RC)): 1 % is left at RC·ln 100.
        var network = new Network(Names(2), 0, [new Resistor("R", 1, 0, 470e3), new Capacitor("C", 1, 0, 1e-6)]);
        Close(0.47 * Math.Log(100), Ohms.Between(network, 1, 0).SettlingSeconds, 1e-10);
    }

    [Fact]
    public void Two_capacitors_with_nothing_but_each_other_settle_as_their_series_value()
    {
        var network = new Network(Names(3), 0, [new Resistor("R", 1, 0, 1e6), new Capacitor("C1", 1, 2, 1e-6), new Capacitor("C2", 2, 0, 3e-6)]);
        var reading = Ohms.Between(network, 1, 0);
        Close(1e6, reading.Ohms);
        Close(0.75 * Math.Log(100), reading.SettlingSeconds, 1e-4);
    }

    [Fact]
    public void Two_filter_sections_settle_as_the_solved_quadratic_says()
    {
        // R1–C1–R2–C2, leak R3 at the end. State matrix of the two capacitors under 1 A at node 1; poles by the quadratic formula, residues by partial fractions.
        double r1 = 10e3, r2 = 47e3, r3 = 100e3, c1 = 10e-6, c2 = 20e-6;
        var network = new Network(Names(4), 0,
            [new Resistor("R1", 1, 2, r1), new Capacitor("C1", 2, 0, c1), new Resistor("R2", 2, 3, r2), new Capacitor("C2", 3, 0, c2), new Resistor("R3", 3, 0, r3)]);
        // Y at node 2: sC1 + 1/(R2 + 1/(sC2 + 1/R3)); Z = N/D with D = 1 + s·d1 + s²·d2 scaled to R2 + R3.
        double d0 = 1, d1 = c1 * (r2 + r3) + c2 * r3, d2 = c1 * c2 * r2 * r3, n0 = r2 + r3, n1 = c2 * r2 * r3;
        var root = Math.Sqrt(d1 * d1 - 4 * d2 * d0);
        double p1 = (-d1 + root) / (2 * d2), p2 = (-d1 - root) / (2 * d2);
        double Residue(double p, double q) => (n0 + n1 * p) / (d2 * p * (p - q));
        var settle = Ohms.Between(network, 1, 0);
        var left = -(Residue(p1, p2) * Math.Exp(p1 * settle.SettlingSeconds) + Residue(p2, p1) * Math.Exp(p2 * settle.SettlingSeconds));
        Close(r1 + r2 + r3, settle.Ohms);
        Close(0.01, left / settle.Ohms, 1e-8);
    }

    [Fact]
    public void A_perfect_capacitor_alone_never_comes_to_rest_and_nothing_at_all_is_at_rest()
    {
        var network = new Network(Names(3), 0, [new Capacitor("C", 1, 0, 1e-6)]);
        Assert.Equal(new OhmsReading(double.PositiveInfinity, double.PositiveInfinity, double.PositiveInfinity), Ohms.Between(network, 1, 0));
        Assert.Equal(new OhmsReading(double.PositiveInfinity, double.PositiveInfinity, 0), Ohms.Between(network, 2, 0));
    }

    [Fact]
    public void A_silicon_rectifier_reads_low_one_way_and_its_leakage_the_other()
    {
        var law = new DiodeLaw(6, 1, 0.80, 0.05, 1e9) { NeedsHeat = false };
        var network = new Network(Names(2), 0, [new Diode("D", 1, 0, law)]);
        var reading = Ohms.Between(network, 1, 0);
        // The law by hand, less its current at 0 V.
        double I(double v) => 6 * 0.05 * Math.Log(1 + Math.Exp((v - 0.8) / 0.05)) + v / 1e9;
        Close(0.5 / (I(0.5) - I(0)), reading.Ohms, 1e-6);
        Close(-0.5 / (I(-0.5) - I(0)), reading.ReversedOhms, 1e-6);
        Assert.True(reading.ReversedOhms > 100 * reading.Ohms);
        var other = Ohms.ToCommon(network, 1)[0];
        Close(reading.Ohms, other.ReversedOhms);
        Close(reading.ReversedOhms, other.Ohms);
    }

    [Fact]
    public void A_selenium_stack_before_a_bleeder_drops_what_its_law_says_and_settles_with_the_reservoir()
    {
        var law = DiodeLaw.Selenium(1, 0.1);
        var network = new Network(["chassis", "line", "B+"], 0, [new Diode("SR", 1, 2, law), new Resistor("bleeder", 2, 0, 10e3), new Capacitor("reservoir", 2, 0, 40e-6)]);
        // One unknown, by bisection: the stack carries what the bleeder takes.
        double S(double u) => law.WidthVolts * Math.Log(1 + Math.Exp(u / law.WidthVolts));
        double I(double v) => law.Perveance * (Math.Pow(S(v - law.OffsetVolts), 1.5) - Math.Pow(S(-law.OffsetVolts), 1.5)) + v / law.LeakOhms;
        foreach (var (volts, way) in new[] { (0.5, 1), (-0.5, -1) })
        {
            double low = Math.Min(volts, 0), high = Math.Max(volts, 0);
            for (var k = 0; k < 200; k++)
            {
                var middle = (low + high) / 2;
                if (I(volts - middle) > middle / 10e3) low = middle;
                else high = middle;
            }
            var ohms = volts / (low / 10e3);
            var reading = Ohms.Between(network, 1, 0);
            Close(ohms, way > 0 ? reading.Ohms : reading.ReversedOhms, 1e-5);
            Assert.True(reading.Ohms < reading.ReversedOhms);
            // Under a constant current the reservoir sees the bleeder alone; the stack's drop is there at once.
            var share = Math.Max(10e3 / reading.Ohms, 10e3 / reading.ReversedOhms);
            Close(0.4 * Math.Log(100 * share), reading.SettlingSeconds, 1e-5);
        }
    }

    [Fact]
    public void A_node_that_is_not_there_is_named() =>
        Assert.Contains("0 to 1", Assert.Throws<ArgumentOutOfRangeException>(() => Ohms.Between(new(Names(2), 0, []), 2, 0)).Message, StringComparison.Ordinal);

    internal static readonly Gen<(int Nodes, (int A, int B, double Ohms)[] Parts)> Meshes =
        Gen.Int[2, 12].SelectMany(n => Gen.Select(Gen.Int[0, n - 1], Gen.Int[0, n - 1], Gen.Double[-2, 7].Select(x => Math.Pow(10, x))).Array[1, 25].Select(parts => (n, parts)));

    private static Network Mesh(int nodes, (int A, int B, double Ohms)[] parts, Func<int, int> renumber) =>
        new(Names(nodes), renumber(0), parts.Select((p, k) => new Resistor($"R{k}", renumber(p.A), renumber(p.B), p.Ohms)));

    [Fact]
    public void Resistance_is_the_same_from_either_side_and_whatever_the_numbering() => Meshes.Sample(m =>
    {
        var (network, turned) = (Mesh(m.Nodes, m.Parts, i => i), Mesh(m.Nodes, m.Parts, i => m.Nodes - 1 - i));
        var all = Ohms.ToCommon(network, 0);
        for (var n = 1; n < m.Nodes; n++)
        {
            var there = all[n].Ohms;
            var back = Ohms.Between(network, 0, n).Ohms;
            var renumbered = Ohms.Between(turned, m.Nodes - 1 - n, m.Nodes - 1).Ohms;
            if (double.IsInfinity(there))
            {
                Assert.Equal(there, back);
                Assert.Equal(there, renumbered);
                continue;
            }
            Close(there, back, 1e-12);
            Close(there, renumbered, 1e-12);
        }
    }, iter: 400);

    [Fact]
    public void Foster_the_resistances_of_all_branches_over_their_ohms_add_up_to_nodes_less_parts() => Meshes.Sample(m =>
    {
        // Source: Foster's first theorem (R. M. Foster, Reciprocity of resistance, 1949): Σ R_eff/R over all branches = nodes − parts.
        var network = Mesh(m.Nodes, m.Parts, i => i);
        var sum = m.Parts.Where(p => p.A != p.B).Sum(p => Ohms.Between(network, p.A, p.B).Ohms / p.Ohms);
        var seen = new HashSet<int>();
        var islands = 0;
        for (var n = 0; n < m.Nodes; n++)
        {
            if (seen.Contains(n)) continue;
            islands++;
            var all = Ohms.ToCommon(network, n);
            for (var k = 0; k < m.Nodes; k++) if (double.IsFinite(all[k].Ohms)) seen.Add(k);
        }
        Assert.Equal(m.Nodes - islands, sum, 1e-9);
    }, iter: 200);
}
