using System.Collections.Immutable;
using Lugbook.Circuit.Elements;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.OdeSolvers;

namespace Lugbook.Circuit.Tests.Time;

/// <summary>Source: closed forms of RC, RL and RLC circuits and coupled coils; MathNet's Runge-Kutta on the same equations.</summary>
public class TransientTests
{
    private static readonly TransientOptions Fine = new() { RelativeTolerance = 1e-9, AbsoluteVolts = 1e-9 };

    [Fact]
    public void A_capacitor_charges_through_a_resistor_as_the_closed_form_says()
    {
        var network = new Network(["common", "top", "cap"], 0,
        [
            new Battery("B", 1, 0, 100, 1), new Resistor("R", 1, 2, 9_999), new Capacitor("C", 2, 0, 10e-6, 0, 40e3),
        ]);
        var course = Transient.Of(network, 0.5, Fine);
        const double tau = 10e-6 * (10_000.0 * 40_000 / 50_000);
        for (var k = 0; k < course.Seconds.Length; k++)
            Assert.Equal(80 * (1 - Math.Exp(-course.Seconds[k] / tau)), course.Volts[k][2], 80 * 1e-7);
        Assert.True(course.Seconds.Length > 20);
    }

    [Fact]
    public void Series_resistance_lets_a_capacitor_jump_first()
    {
        var network = new Network(["common", "cap"], 0, [new Battery("B", 1, 0, 10, 100), new Capacitor("C", 1, 0, 1e-6, 25)]);
        var course = Transient.Of(network, 1e-3, Fine);
        Assert.Equal(2, course.Volts[0][1], 1e-4);
        var tau = 125e-6;
        for (var k = 1; k < course.Seconds.Length; k++) Assert.Equal(10 - 8 * Math.Exp(-course.Seconds[k] / tau), course.Volts[k][1], 1e-6);
    }

    [Fact]
    public void Current_rises_in_a_coil_as_the_closed_form_says()
    {
        var network = new Network(["common", "top"], 0, [new Battery("B", 1, 0, 100, 50), new Inductor("L", 1, 0, 10, 150)]);
        var course = Transient.Of(network, 0.2, Fine with { Currents = ["L"] });
        for (var k = 0; k < course.Seconds.Length; k++)
            Assert.Equal(0.5 * (1 - Math.Exp(-course.Seconds[k] / 0.05)), course.Currents["L"][k], 0.5e-7);
    }

    [Fact]
    public void A_damped_circuit_rings_as_the_closed_form_says()
    {
        const double r = 20, l = 0.1, c = 1e-6;
        var network = new Network(["common", "a"], 0, [new Capacitor("C", 1, 0, c), new Inductor("L", 1, 0, l, r)]);
        var course = Transient.Of(network, 0.02, Fine with { CapacitorVolts = ImmutableDictionary<string, double>.Empty.Add("C", 100) });
        const double alpha = r / (2 * l);
        var omega = Math.Sqrt(1 / (l * c) - alpha * alpha);
        for (var k = 0; k < course.Seconds.Length; k++)
        {
            var t = course.Seconds[k];
            Assert.Equal(100 * Math.Exp(-alpha * t) * (Math.Cos(omega * t) + alpha / omega * Math.Sin(omega * t)), course.Volts[k][1], 100 * 1e-6);
        }
    }

    [Fact]
    public void Energy_that_leaves_the_capacitor_and_the_coil_is_heat_in_the_winding()
    {
        const double r = 20, l = 0.1, c = 1e-6;
        var network = new Network(["common", "a"], 0, [new Capacitor("C", 1, 0, c), new Inductor("L", 1, 0, l, r)]);
        var course = Transient.Of(network, 0.02, new()
        {
            FixedStep = 2e-6, Currents = ["L"], CapacitorVolts = ImmutableDictionary<string, double>.Empty.Add("C", 100),
        });
        double heat = 0;
        for (var k = 1; k < course.Seconds.Length; k++)
            heat += r / 2 * (Math.Pow(course.Currents["L"][k], 2) + Math.Pow(course.Currents["L"][k - 1], 2)) * (course.Seconds[k] - course.Seconds[k - 1]);
        var left = c / 2 * Math.Pow(course.CapacitorVolts["C"], 2) + l / 2 * Math.Pow(course.InductorAmperes["L"], 2);
        Assert.Equal(c / 2 * 100 * 100, heat + left, c / 2 * 100 * 100 * 1e-5);
    }

    [Fact]
    public void Coupled_coils_agree_with_an_independent_integration()
    {
        // Source: MathNet.Numerics, fourth-order Runge-Kutta on M·dj/dt = v − R·j written out.
        const double lp = 2, ls = 8, k = 0.98, rp = 30, rs = 120, load = 2000, volts = 50, source = 10;
        var network = new Network(["common", "pri", "sec", "sec return"], 0,
        [
            new Battery("B", 1, 0, volts, source), new Transformer("T", [new(1, 0, lp, rp), new(2, 3, ls, rs)], k), new Resistor("R", 2, 3, load),
        ]);
        var course = Transient.Of(network, 0.1, Fine with { Currents = ["T", "R"] });
        var m = k * Math.Sqrt(lp * ls);
        var inverse = Matrix<double>.Build.DenseOfArray(new[,] { { lp, m }, { m, ls } }).Inverse();
        const int steps = 200_001;
        var y = RungeKutta.FourthOrder(Vector<double>.Build.Dense(2), 0, 0.1, steps,
            (_, j) => inverse * Vector<double>.Build.DenseOfArray([volts - (source + rp) * j[0], -(load + rs) * j[1]]));
        Assert.Equal(y[^1][0], course.Currents["T"][^1], 1e-7);
        Assert.Equal(-y[^1][1], course.Currents["R"][^1], 1e-7);
        Assert.True(Math.Abs(y[^1][1]) > 1e-5);
    }

    [Fact]
    public void A_diode_into_a_reservoir_agrees_with_an_independent_integration()
    {
        // Source: MathNet.Numerics on C·dv/dt = i − v/R with Child's law for i, the series drop solved by bisection at each evaluation.
        const double c = 8e-6, r = 20e3, source = 100, peak = 300;
        var law = DiodeLaw.Vacuum(20, 0.05);
        var network = new Network(["common", "line", "B+"], 0,
        [
            new Mains("M", 1, 0, peak / Math.Sqrt(2), 50, source), new Diode("D", 1, 2, law), new Capacitor("C", 2, 0, c), new Resistor("R", 2, 0, r),
        ]);
        var course = Transient.Of(network, 0.05, Fine);
        double Amperes(double drive)
        {
            double Law(double v)
            {
                var s = v > law.OffsetVolts + 20 ? v - law.OffsetVolts : law.WidthVolts * Math.Log(1 + Math.Exp((v - law.OffsetVolts) / law.WidthVolts));
                return law.Perveance * Math.Pow(s, 1.5);
            }
            double low = 0, high = Law(Math.Max(drive, 0) + 1);
            for (var n = 0; n < 80; n++)
            {
                var middle = (low + high) / 2;
                if (Law(drive - source * middle) > middle) low = middle;
                else high = middle;
            }
            return low;
        }
        var y = RungeKutta.FourthOrder(Vector<double>.Build.Dense(1), 0, 0.05, 50_001,
            (t, v) => Vector<double>.Build.Dense(1, (Amperes(peak * Math.Sin(2 * Math.PI * 50 * t) - v[0]) - v[0] / r) / c));
        Assert.Equal(y[^1][0], course.Volts[^1][2], 1e-3);
        Assert.True(y[^1][0] > 100);
    }

    [Fact]
    public void A_switch_opens_and_closes_when_told()
    {
        var network = new Network(["common", "top", "cap"], 0,
        [
            new Battery("B", 1, 0, 100, 10_000), new Switch("S", 1, 2, true), new Capacitor("C", 2, 0, 1e-6), new Resistor("R", 2, 0, 100e3),
        ]);
        var course = Transient.Of(network, 0.3, Fine with { Switchings = [new("S", 0.2, false)] });
        var at = course.Seconds.IndexOf(0.2);
        Assert.True(at > 0);
        // Closed contacts have 10 mΩ, one millionth of the source.
        var full = 100 * 100e3 / 110e3 * (1 - Math.Exp(-0.2 / (1e-6 * 1e9 / 110e3)));
        Assert.Equal(full, course.Volts[at][2], 1e-4);
        Assert.Equal(full * Math.Exp(-1), course.Volts[^1][2], 1e-4);
        Assert.Equal(100, course.Volts[^1][1], 1e-3);
    }
}
