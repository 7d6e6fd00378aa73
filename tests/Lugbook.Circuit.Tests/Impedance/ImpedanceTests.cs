using System.Numerics;
using CsCheck;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Tests;

/// <summary>Source: closed forms of alternating-current theory (RC, RL, RLC, coupled coils); Carson's reciprocity theorem; passivity of passive parts.</summary>
public class ImpedanceTests
{
    private static string[] Names(int n) => [.. Enumerable.Range(0, n).Select(i => $"n{i}")];

    private static void Close(Complex expected, Complex actual, double relative = 1e-9) =>
        Assert.True(Complex.Abs(actual - expected) <= relative * Complex.Abs(expected), $"expected {expected}, found {actual}");

    [Fact]
    public void A_resistor_and_a_capacitor_in_series_and_in_parallel()
    {
        double r = 4700, c = 22e-9, f = 1000, w = 2 * Math.PI * f;
        var series = Impedance.Between(new(Names(3), 0, [new Resistor("R", 1, 2, r), new Capacitor("C", 2, 0, c)]), 1, 0, f);
        Close(new(r, -1 / (w * c)), series.Ohms);
        Assert.Equal(c, series.SeriesFarads, 1e-9 * c);
        Assert.Equal(r, series.SeriesOhms, 1e-9 * r);
        Assert.Equal(w * r * c, series.Dissipation, 1e-9);
        // Series to parallel: Cp = Cs/(1 + D²).
        Assert.Equal(c / (1 + w * w * r * r * c * c), series.ParallelFarads, 1e-9 * c);
        var parallel = Impedance.Between(new(Names(2), 0, [new Resistor("R", 1, 0, r), new Capacitor("C", 1, 0, c)]), 1, 0, f);
        Close(1 / new Complex(1 / r, w * c), parallel.Ohms);
        Assert.Equal(c, parallel.ParallelFarads, 1e-9 * c);
        Assert.Equal(r, parallel.ParallelOhms, 1e-9 * r);
        Assert.Equal(-Math.Atan(w * r * c), parallel.Phase, 1e-9);
    }

    [Fact]
    public void Series_resistance_and_leakage_of_a_capacitor_count()
    {
        double w = 2 * Math.PI * 120;
        Close(3 + 1 / new Complex(1 / 20e3, w * 10e-6), Impedance.Between(new(Names(2), 0, [new Capacitor("C", 1, 0, 10e-6, 3, 20e3)]), 1, 0, 120).Ohms);
    }

    [Theory]
    [InlineData(0.3)]
    [InlineData(1)]
    [InlineData(1.0001)]
    [InlineData(7)]
    public void A_tuned_circuit_follows_its_closed_form_through_resonance(double ofResonance)
    {
        double l = 250e-6, r = 8, c = 365e-12, f = ofResonance / (2 * Math.PI * Math.Sqrt(l * c)), w = 2 * Math.PI * f;
        var tank = new Network(Names(2), 0, [new Inductor("L", 1, 0, l, r), new Capacitor("C", 1, 0, c)]);
        Close(1 / (1 / new Complex(r, w * l) + new Complex(0, w * c)), Impedance.Between(tank, 1, 0, f).Ohms);
        var series = new Network(Names(3), 0, [new Inductor("L", 1, 2, l, r), new Capacitor("C", 2, 0, c)]);
        Close(new Complex(r, w * l - 1 / (w * c)), Impedance.Between(series, 1, 0, f).Ohms);
    }

    [Fact]
    public void A_node_at_which_reactances_cancel_exactly_is_still_solved()
    {
        // The middle node's diagonal entry is all but zero: jωC − j/ωL with 1 nΩ in the coil; both ends are low.
        double l = 1e-3, c = 1e-9, w = 1 / Math.Sqrt(l * c), f = w / (2 * Math.PI);
        var network = new Network(Names(4), 0, [new Resistor("R1", 3, 1, 50), new Capacitor("C", 1, 2, c), new Inductor("L", 2, 0, l, 1e-9), new Resistor("R2", 1, 0, 1e6)]);
        var branch = new Complex(1e-9, w * l - 1 / (w * c));
        Close(50 + 1 / (1 / branch + 1e-6), Impedance.Between(network, 3, 0, f).Ohms);
    }

    [Theory]
    [InlineData(0.02)]
    [InlineData(0.9)]
    [InlineData(0.9995)]
    public void A_loaded_transformer_reflects_its_load(double k)
    {
        double l1 = 10, r1 = 250, l2 = 0.016, r2 = 0.4, load = 3.2, f = 400, w = 2 * Math.PI * f, m = k * Math.Sqrt(l1 * l2);
        var network = new Network(Names(4), 0,
            [new Transformer("T", [new(1, 0, l1, r1), new(2, 3, l2, r2)], k), new Resistor("speaker", 2, 3, load)]);
        Close(new Complex(r1, w * l1) + w * w * m * m / new Complex(r2 + load, w * l2), Impedance.Between(network, 1, 0, f).Ohms);
        Assert.Equal(double.PositiveInfinity, Impedance.Between(network, 1, 2, f).Magnitude);
    }

    [Fact]
    public void Windings_in_series_aid_or_oppose()
    {
        double l1 = 2e-3, l2 = 5e-3, k = 0.6, m = k * Math.Sqrt(l1 * l2), f = 10e3, w = 2 * Math.PI * f;
        Network Of(WindingOf second) => new(Names(3), 0, [new Transformer("T", [new(1, 2, l1, 3), second], k)]);
        Close(new Complex(7, w * (l1 + l2 + 2 * m)), Impedance.Between(Of(new(2, 0, l2, 4)), 1, 0, f).Ohms);
        Close(new Complex(7, w * (l1 + l2 - 2 * m)), Impedance.Between(Of(new(0, 2, l2, 4)), 1, 0, f).Ohms);
    }

    [Fact]
    public void Nothing_between_two_nodes_is_open_and_a_node_to_itself_is_nothing()
    {
        var network = new Network(Names(3), 0, [new Capacitor("C", 1, 0, 1e-9), new Battery("B", 2, 0, 9, 1)]);
        Assert.Equal(double.PositiveInfinity, Impedance.Between(network, 2, 0, 1000).Magnitude);
        Assert.Equal(0, Impedance.Between(network, 2, 0, 1000).ParallelFarads);
        Assert.Equal(0, Impedance.Between(network, 1, 1, 1000).Magnitude);
    }

    private static readonly Gen<(int Nodes, Element[] Parts)> Passive = Gen.Int[2, 8].SelectMany(n =>
    {
        var node = Gen.Int[0, n - 1];
        var part = Gen.Select(Gen.Int[0, 3], node, node, node, Gen.Double[0, 1], Gen.Double[0.01, 0.98]);
        return part.Array[1, 14].Select(parts => (n, parts.Select((p, i) => p.Item1 switch
        {
            0 => new Resistor($"P{i}", p.Item2, p.Item3, Math.Pow(10, 1 + 5 * p.Item5)),
            1 => new Capacitor($"P{i}", p.Item2, p.Item3, Math.Pow(10, -11 + 6 * p.Item5), p.Item6),
            2 => new Inductor($"P{i}", p.Item2, p.Item3, Math.Pow(10, -5 + 5 * p.Item5), 1 + 100 * p.Item6),
            _ => (Element)new Transformer($"P{i}", [new(p.Item2, p.Item3, Math.Pow(10, -4 + 5 * p.Item5), 5), new(p.Item3, p.Item4, 1e-3, 1)], p.Item6),
        }).ToArray()));
    });

    [Fact]
    public void Passive_parts_give_no_power_and_transfer_alike_both_ways() => Gen.Select(Passive, Gen.Double[2, 6]).Sample((p, decade) =>
    {
        var network = new Network(Names(p.Nodes), 0, p.Parts);
        var f = Math.Pow(10, decade);
        for (var n = 1; n < p.Nodes; n++)
        {
            var there = Impedance.Between(network, n, 0, f).Ohms;
            var back = Impedance.Between(network, 0, n, f).Ohms;
            if (!Complex.IsFinite(there))
            {
                Assert.False(Complex.IsFinite(back));
                continue;
            }
            Assert.True(there.Real >= -1e-6 * Complex.Abs(there), $"{there} at {f} Hz");
            Close(there, back, 1e-6);   // 10 pF behind milliohms: the matrix spans twelve decades
        }
    }, iter: 500);
}
