using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Valves;

namespace Lugbook.Circuit.Tests.Valves;

/// <summary>Source: how valves behave, as every handbook's curve families show; bounds are wide and stated.</summary>
public class LawShapeTests
{
    private static IEnumerable<ValveLibrary.Group> Groups(params ValveClass[] classes) => Data.Library.Groups.Where(g => classes.Contains(g.Class));
    private static readonly ValveClass[] Pentodes = [ValveClass.SharpPentode, ValveClass.RemotePentode, ValveClass.OutputPentode, ValveClass.Beam];

    [Fact]
    public void A_triodes_plate_takes_next_to_nothing_at_zero_volts_however_positive_the_grid()
    {
        foreach (var group in Groups(ValveClass.Triode))
        {
            var law = Data.Library.Law(group).Triode!;
            foreach (var grid in (double[])[-1, 0, 1, 3])
            {
                Assert.InRange(law.At(0, grid).PlateAmperes / law.At(100, grid).PlateAmperes, 0, 0.02);
                Assert.InRange(law.At(-20, grid).PlateAmperes, 0, 1e-12);
            }
        }
    }

    [Fact]
    public void Amplification_falls_towards_cut_off()
    {
        foreach (var group in Groups(ValveClass.Triode))
        {
            var law = Data.Library.Law(group).Triode!;
            double Mu(double grid) => law.At(250, grid) is var f ? f.Siemens / f.PlateSiemens : 0;
            Assert.True(Mu(-250 / law.Mu) < Mu(-0.2 * 250 / law.Mu), group.Type);
            Assert.True(Mu(-1.3 * 250 / law.Mu) < Mu(-250 / law.Mu), group.Type);
        }
    }

    [Fact]
    public void A_screen_takes_over_what_the_plate_gives_up_and_the_sum_hardly_moves()
    {
        foreach (var group in Groups(Pentodes))
        {
            var law = Data.Library.Law(group).Pentode!;
            var screen = group.Lines.First(l => l.ScreenVolts is not null).ScreenVolts!.Value;
            var grid = -0.3 * screen / law.ScreenMu;
            var far = law.At(1.5 * screen, screen, grid);
            var last = far;
            for (var plate = 1.5 * screen; plate >= 1; plate -= 1)
            {
                var now = law.At(plate, screen, grid);
                Assert.True(now.PlateAmperes <= last.PlateAmperes && now.ScreenAmperes >= last.ScreenAmperes, $"{group.Type} at {plate} V");
                Assert.InRange((now.PlateAmperes + now.ScreenAmperes) / (far.PlateAmperes + far.ScreenAmperes), 0.6, 1.0001);
                last = now;
            }
            var none = law.At(0, screen, grid);
            Assert.InRange(none.PlateAmperes / none.ScreenAmperes, 0, 0.02);
            Assert.True(far.PlateSiemens > 0);
        }
    }

    [Fact]
    public void A_beam_valve_bends_more_sharply_and_gives_its_screen_less_than_a_signal_pentode()
    {
        PentodeLaw Law(string type) => Data.Library.Find(type)!.Sections[0].Fit!.Pentode!;
        var (beam, pentode) = (Law("6V6GT"), Law("6SJ7"));
        Assert.True(beam.KneeSharpness > pentode.KneeSharpness);
        var (b, p) = (beam.At(250, 250, -12.5), pentode.At(250, 100, -3));
        Assert.True(b.ScreenAmperes / b.PlateAmperes < 0.5 * p.ScreenAmperes / p.PlateAmperes);
    }

    /// <summary>Source: 6SK7 and 6SJ7 lines of data/valves: the first still amplifies at −35 V, the second is cut off near −8 V.</summary>
    [Fact]
    public void A_remote_valve_still_amplifies_where_a_sharp_one_is_dead()
    {
        PentodeLaw Law(string type) => Data.Library.Find(type)!.Sections[0].Fit!.Pentode!;
        Assert.InRange(Law("6SK7").At(250, 100, -35).Siemens, 5e-6, 20e-6);
        Assert.InRange(Law("6SJ7").At(250, 100, -15).Siemens, 0, 1e-7);
    }

    /// <summary>Source: EZ80 sheet (Thorn-AEI Mazda, Aug 1963), anode curve read in data/valves/rectifier-points.csv to ±3 %: 10 V 21 mA, 20 V 63 mA, 30 V 120 mA. Its 25 V point makes the law.</summary>
    [Theory]
    [InlineData(10, 0.021, 0.09)]
    [InlineData(20, 0.063, 0.05)]
    [InlineData(30, 0.120, 0.05)]
    public void A_rectifier_law_from_one_point_meets_the_rest_of_the_curve(double volts, double amperes, double tolerance) =>
        Assert.InRange(Data.Library.Find("EZ80")!.Sections[0].Diode!.At(volts) / amperes, 1 - tolerance, 1 + tolerance);

    /// <summary>Source: typical forward figures named at the factory methods (from memory).</summary>
    [Fact]
    public void Dry_rectifiers_drop_what_their_kind_drops()
    {
        Assert.InRange(DiodeLaw.Silicon().At(0.95), 0.5, 1.5);
        Assert.InRange(DiodeLaw.Silicon().At(0.63), 5e-3, 20e-3);
        Assert.InRange(DiodeLaw.Germanium().At(1), 5e-3, 10e-3);
        Assert.InRange(DiodeLaw.Germanium().At(-10), -35e-6, -25e-6);
        Assert.Equal(0.3, DiodeLaw.Selenium(5, 0.1).At(5), 0.02);
        Assert.Throws<ArgumentOutOfRangeException>(() => DiodeLaw.Vacuum(0.1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => DiodeLaw.Selenium(0, 0.1));
    }

    /// <summary>
    /// Source: GE ET-T891A (6BE6, Nov 1956): 250 V, 100 V, grid 3 at −1.5 V, 10 V rms on grid 1 across 20 kΩ: grid current 0.5 mA, cathode 10.2 mA. The fit
    /// never saw the 10 V and the 10.2 mA.
    /// </summary>
    [Fact]
    public void A_converter_in_its_circuit_makes_its_own_bias()
    {
        var law = Data.Library.Find("12BE6")!.Sections[0].Fit!.Converter!;
        var network = new Network(["common", "plate", "screen", "signal", "oscillator"], 0,
        [
            new Battery("B", 1, 0, 250, 1), new Battery("S", 2, 0, 100, 1), new Battery("A", 3, 0, -1.5, 1),
            new Resistor("RL", 4, 0, 20e3), new Converter("V", 1, 2, 3, 4, 0, law, law.OscillatorPeakVolts(20e3, 0.5e-3)),
        ]);
        var point = OperatingPoint.Of(network);
        Assert.Equal(-10, point.Volts[4], 0.05);
        Assert.InRange(law.OscillatorPeakVolts(20e3, 0.5e-3) / Math.Sqrt(2), 8, 12);
        var flow = law.At(250, 100, -1.5, -10, law.OscillatorPeakVolts(20e3, 0.5e-3));
        Assert.InRange(flow.PlateAmperes + flow.ScreenAmperes + flow.GridAmperes, 9e-3, 12e-3);
        Assert.InRange(point.ResidualAmperes, 0, 1e-9);
        // Silent, with the same bias held from outside, it is cut off.
        Assert.InRange(law.At(250, 100, -1.5, -10).PlateAmperes, 0, 1e-4);
    }
}
