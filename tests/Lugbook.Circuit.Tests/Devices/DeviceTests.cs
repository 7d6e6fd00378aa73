using CsCheck;
using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Tests.Devices;

/// <summary>Source: calculus (a derivative is the limit of differences) and conservation of charge; no outside figures.</summary>
public class DeviceTests
{
    private static readonly DiodeLaw[] Diodes = [DiodeLaw.Vacuum(22, 0.07), DiodeLaw.Selenium(5, 0.1), DiodeLaw.Silicon(), DiodeLaw.Germanium(), DiodeLaw.SignalPlate()];
    private static readonly TriodeLaw[] Triodes =
    [
        new(100, 1e-3, 1.5, 0.6, 0.1, 0.0016, 3e-4, 0.15, 0.15),
        new(17, 5e-4, 1.4, 0.6, 0.1, 0.01, 2e-4, 0.15, 0.15),
    ];
    private static readonly PentodeLaw[] Pentodes =
    [
        new(37, 5000, 3e-3, 1.5, 0.6, 0.1, 0.004, 0, 1, 0.38, 0.2, 0.1, 2, 1e-3, 0.15, 0.15),
        new(9, 200, 1e-3, 1.4, 0.6, 0.1, 0.02, 0, 1, 0.08, 0.3, 0.1, 3, 3e-4, 0.15, 0.15),
        new(20, 3000, 2e-3, 1.5, 0.6, 0.1, 0.015, 0.2, 3.5, 0.33, 0.2, 0.1, 2, 6e-4, 0.15, 0.15),
    ];
    private static readonly ConverterLaw Heptode = new(20, 2e-3, 1.5, 0.6, 0.1, 0.01, 0.6, 30, 400, 4.5, 4, 12, 6e-4, 0.15, 0.15);

    private static double[][] Laws<TDevice>() where TDevice : IDevice =>
        typeof(TDevice) == typeof(DiodeDevice) ? [.. Diodes.Select(DiodeDevice.Of)]
        : typeof(TDevice) == typeof(TriodeDevice) ? [.. Triodes.Select(TriodeDevice.Of)]
        : typeof(TDevice) == typeof(PentodeDevice) ? [.. Pentodes.Select(PentodeDevice.Of)]
        : [ConverterDevice.Of(Heptode, 0), ConverterDevice.Of(Heptode, 14)];

    // Working voltages, small ones about the bends, and extreme ones.
    private static readonly Gen<double> Volts = Gen.OneOf(Gen.Double[-30, 300], Gen.Double[-2, 2], Gen.Double[-5000, 5000]);

    [Fact] public void A_diodes_slopes_are_those_of_its_current() => Slopes<DiodeDevice>();
    [Fact] public void A_triodes_slopes_are_those_of_its_currents() => Slopes<TriodeDevice>();
    [Fact] public void A_pentodes_slopes_are_those_of_its_currents() => Slopes<PentodeDevice>();
    [Fact] public void A_converters_slopes_are_those_of_its_currents() => Slopes<ConverterDevice>();
    [Fact] public void A_diode_keeps_charge_and_stays_finite() => Conserves<DiodeDevice>(passive: 1);
    [Fact] public void A_triode_keeps_charge_and_no_electrode_but_the_cathode_emits() => Conserves<TriodeDevice>(passive: 2);
    [Fact] public void A_pentode_keeps_charge_and_no_electrode_but_the_cathode_emits() => Conserves<PentodeDevice>(passive: 3);
    [Fact] public void A_converter_keeps_charge_and_no_electrode_but_the_cathode_emits() => Conserves<ConverterDevice>(passive: 4);
    [Fact] public void Four_diodes_side_by_side_are_each_as_alone() => Wide<DiodeDevice>();
    [Fact] public void Four_triodes_side_by_side_are_each_as_alone() => Wide<TriodeDevice>();
    [Fact] public void Four_pentodes_side_by_side_are_each_as_alone() => Wide<PentodeDevice>();
    [Fact] public void Four_converters_side_by_side_are_each_as_alone() => Wide<ConverterDevice>();

    [Fact]
    public void A_dry_rectifier_is_no_source_and_a_hot_cathode_is_one()
    {
        // Source: second law of thermodynamics for the first; for the second, that a signal diode drives some microamperes through its load by itself (common practice, no source).
        foreach (var law in new[] { DiodeLaw.Selenium(1, 0.1), DiodeLaw.Selenium(5, 0.1), DiodeLaw.Silicon(), DiodeLaw.Germanium() })
        {
            Assert.Equal(0, Run<DiodeDevice>(DiodeDevice.Of(law), [7, 7]).I[0]);
            foreach (var volts in new[] { -300, -3, -0.1, 0.1, 3 }) Assert.True(volts * Run<DiodeDevice>(DiodeDevice.Of(law), [volts, 0]).I[0] > 0);
            Assert.InRange(-Run<DiodeDevice>(DiodeDevice.Of(law), [-25, 0]).I[0], 0, 30 / law.LeakOhms + 1e-4);
        }
        Assert.InRange(Run<DiodeDevice>(DiodeDevice.Of(DiodeLaw.SignalPlate()), [0, 0]).I[0], 1e-6, 5e-5);
    }

    private static (double[] I, double[] G) Run<TDevice>(double[] p, double[] v) where TDevice : IDevice
    {
        var n = TDevice.Terminals;
        // Filled with NaN: whatever the device forgets to write shows.
        var i = Enumerable.Repeat(new One(double.NaN), n).ToArray();
        var g = Enumerable.Repeat(new One(double.NaN), n * n).ToArray();
        TDevice.Evaluate<One>([.. p.Select(x => new One(x))], [.. v.Select(x => new One(x))], i, g);
        return ([.. i.Select(x => x.Value)], [.. g.Select(x => x.Value)]);
    }

    private static void Slopes<TDevice>() where TDevice : IDevice
    {
        var n = TDevice.Terminals;
        Gen.Select(Gen.Int[0, Laws<TDevice>().Length - 1], Volts.Array[n]).Sample((which, v) =>
        {
            var p = Laws<TDevice>()[which];
            var (_, g) = Run<TDevice>(p, v);
            for (var c = 0; c < n; c++)
            {
                // Five-point difference: error h⁴, rounding ε·I/h. A step well inside the sharpest bend, 0.05 V.
                const double h = 2e-4;
                double[] At(double by)
                {
                    var moved = (double[])v.Clone();
                    moved[c] += by;
                    return Run<TDevice>(p, moved).I;
                }
                var (a, b, d, e) = (At(-2 * h), At(-h), At(h), At(2 * h));
                for (var t = 0; t < n; t++)
                {
                    var slope = (a[t] - 8 * b[t] + 8 * d[t] - e[t]) / (12 * h);
                    var largest = Math.Max(Math.Abs(a[t]), Math.Abs(e[t]));
                    // Voltages of thousands are themselves rounded to 1e-12, which h makes 5e-9 of the slope.
                    var tolerance = 1e-7 * Math.Abs(slope) + 1e-15 * largest / h * 30 + 1e-13 + 1e-8 * Row(g, n).Max();
                    Assert.True(Math.Abs(slope - g[t * n + c]) <= tolerance, $"{typeof(TDevice).Name} law {which} at [{string.Join(", ", v)}]: di{t}/dv{c} is {g[t * n + c]}, differences give {slope}");
                }
            }
        }, iter: 2000);

        static IEnumerable<double> Row(double[] g, int n) => Enumerable.Range(0, n * n).Select(k => Math.Abs(g[k]));
    }

    private static void Conserves<TDevice>(int passive) where TDevice : IDevice
    {
        var n = TDevice.Terminals;
        Gen.Select(Gen.Int[0, Laws<TDevice>().Length - 1], Volts.Array[n]).Sample((which, v) =>
        {
            var (i, g) = Run<TDevice>(Laws<TDevice>()[which], v);
            Assert.All(i.Concat(g), x => Assert.True(double.IsFinite(x)));
            Assert.True(Math.Abs(i.Sum()) <= 1e-12 * i.Max(Math.Abs) + 1e-300);
            if (typeof(TDevice) != typeof(DiodeDevice)) for (var t = 0; t < passive; t++) Assert.True(i[t] >= 0, $"terminal {t} emits {i[t]} A");
            var largest = g.Max(Math.Abs);
            for (var t = 0; t < n; t++)
            {
                Assert.True(Math.Abs(Enumerable.Range(0, n).Sum(c => g[t * n + c])) <= 1e-12 * largest + 1e-300);
                Assert.True(Math.Abs(Enumerable.Range(0, n).Sum(c => g[c * n + t])) <= 1e-12 * largest + 1e-300);
            }
        }, iter: 5000);
    }

    private static void Wide<TDevice>() where TDevice : IDevice
    {
        var n = TDevice.Terminals;
        Gen.Select(Gen.Int[0, Laws<TDevice>().Length - 1].Array[4], Volts.Array[n].Array[4]).Sample((which, v) =>
        {
            Four Gather(Func<int, double> of) => new(System.Runtime.Intrinsics.Vector256.Create(of(0), of(1), of(2), of(3)));
            var i = new Four[n];
            var g = new Four[n * n];
            TDevice.Evaluate<Four>(
                [.. Enumerable.Range(0, TDevice.Parameters).Select(k => Gather(lane => Laws<TDevice>()[which[lane]][k]))],
                [.. Enumerable.Range(0, n).Select(k => Gather(lane => v[lane][k]))], i, g);
            for (var lane = 0; lane < 4; lane++)
            {
                var (alone, slopes) = Run<TDevice>(Laws<TDevice>()[which[lane]], v[lane]);
                // Slopes are differences of the device's own terms: the measure is the largest of the device. A dry diode's current too is a difference near 0 V.
                var (largest, steepest) = (alone.Max(Math.Abs), slopes.Max(Math.Abs));
                for (var t = 0; t < n; t++) Assert.True(Math.Abs(Four.Lane(i[t], lane) - alone[t]) <= 1e-12 * largest + 1e-14 * steepest + 1e-200, $"i{t} of law {which[lane]} at [{string.Join(", ", v[lane])}]: {Four.Lane(i[t], lane)} beside {alone[t]}");
                for (var t = 0; t < n * n; t++) Assert.True(Math.Abs(Four.Lane(g[t], lane) - slopes[t]) <= 1e-12 * steepest + 1e-200);
            }
        }, iter: 2000);
    }
}
