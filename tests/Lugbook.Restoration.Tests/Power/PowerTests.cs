using Lugbook.Restoration.Power;
using Lugbook.Restoration.Sheet;
using Lugbook.Restoration.Solve;
using Lugbook.Restoration.Tests.Choose;

namespace Lugbook.Restoration.Tests.Power;

/// <summary>The supply held against closed forms and the check values of the project.</summary>
public class PowerTests
{
    private static PowerResult Of(SolveResult solved, double today = 1) =>
        PowerStage.Run(solved, SheetConditions.Of(solved.Netlist.Map.Book.Facts, DemoBooks.Handbook) with { TodayLineShare = today, Samples = 50 }, Shop.Policy.RectifierLimits);

    private static readonly Lazy<PowerResult> Amp = new(() => Of(Solved.Demo("amp"), 125.0 / 117));

    // Closed form: a plate sees its half winding, and the primary times the square of the turns ratio: 115 Ω + 5.5 Ω·(300/117)², a few ohms of the house's wiring besides.
    [Fact]
    public void The_source_resistance_of_a_plate_is_its_winding_and_what_the_primary_reflects()
    {
        var source = Amp.Value.Rectifiers.Single().Checks.Single(c => c.Unit == "Ω");
        Assert.InRange(source.Amount, 115 + 5.5 * 6.57, (115 + 5.5 * 6.57) * 1.15);
    }

    // Full wave with capacitor input: each plate's inverse peak is nearly twice the winding's; 2·√2·300 V at a line 10 % high is the most it can be.
    [Fact]
    public void The_inverse_peak_of_a_full_wave_rectifier_is_nearly_twice_the_windings() =>
        Assert.InRange(Amp.Value.Rectifiers.Single().Checks.Single(c => c.What == "peak inverse volts").Amount, 2 * 1.414 * 300 * 1.1 * 0.75, 2 * 1.414 * 300 * 1.1);

    // Source: the project's notes on supplies: in steady state the peak hardly grows with the capacitor (402 mA at 10 µF, 407 mA at 160 µF), hum goes with 1/C.
    [Fact]
    public void A_larger_first_capacitor_takes_off_hum_and_hardly_raises_the_peak()
    {
        var sizes = Amp.Value.Rectifiers.Single().Sizes;
        Assert.Equal(3, sizes.Length);
        Assert.InRange(sizes[1].PeakAmperes / sizes[0].PeakAmperes, 0.98, 1.05);
        Assert.InRange(sizes[1].HumVolts / sizes[0].HumVolts, 0.45, 0.55);
    }

    [Fact]
    public void The_first_peak_of_hot_switching_obeys_ohms_law_and_the_rectifiers()
    {
        var report = Amp.Value.Rectifiers.Single();
        var ohms = report.Checks.Single(c => c.Unit == "Ω").Amount;
        // 5Y3GT: 50 V at 125 mA a plate, three-halves law (rectifier-points.csv).
        var drop = 50 * Math.Pow(report.HotSwitchAmperes!.Value / 0.125, 2.0 / 3);
        Assert.InRange(report.HotSwitchAmperes.Value * ohms + drop, 1.414 * 300 * 1.1 * 0.97, 1.414 * 300 * 1.1 * 1.03);
    }

    [Fact]
    public void Silicon_raises_the_volts_and_its_resistor_brings_them_back()
    {
        var swap = Amp.Value.Silicon!;
        Assert.True(swap.VoltsBare > swap.VoltsBefore * 1.1);
        // An E12 value is off by a tenth at most, and the resistor makes up the whole difference.
        Assert.InRange(swap.VoltsAfter, swap.VoltsBefore - 0.12 * (swap.VoltsBare - swap.VoltsBefore), swap.VoltsBefore + 0.12 * (swap.VoltsBare - swap.VoltsBefore));
        Assert.True(swap.StartVolts > swap.VoltsBare);
        Assert.Contains("C10A 450 V", swap.Under);
    }

    [Fact]
    public void The_dropper_brings_todays_line_back_and_the_bucking_winding_takes_its_difference()
    {
        var line = Amp.Value.Line!;
        Assert.InRange(line.OutputVolts.Dropped / line.OutputVolts.Made, 0.98, 1.02);
        Assert.True(line.OutputVolts.Today > line.OutputVolts.Made * 1.04);
        Assert.True(line.DropperWatts >= 2 * Math.Pow(line.LineAmperes * line.OutputVolts.Dropped / line.OutputVolts.Today, 2) * line.DropperOhms * 0.95);
        Assert.InRange(line.BuckingVolts, 6.3, 10);
    }

    [Fact]
    public void At_its_own_line_there_is_nothing_to_mend() => Assert.Null(Of(Solved.Demo("radio")).Line);

    [Fact]
    public void A_set_without_a_line_says_so()
    {
        var power = Of(Solved.Of(TestBook.New().Strip("A", 3).Wire("A-1", "CH", "bond").Valve("V1", "6J5").Wire("V1-8", "A-1").Resistor("R1", 47e3, "V1-3", "A-2").Declared("A-2", 100).Build()));
        Assert.NotNull(power.Reason);
        Assert.NotEmpty(power.Cautions);
    }

    // Source: power-supply-checks.csv, rows selenium-to-silicon (117 V 60 Hz, 40 µF, 60 mA): silicon with the same 22 Ω gives some 4 V more than a stack of five plates, and each further ohm takes about 0.3 V off.
    [Fact]
    public void Silicon_for_a_selenium_stack_gives_some_volts_more_and_a_few_ohms_take_them_off()
    {
        var book = TestBook.New().Facts(f => f with { LineVolts = 117, LineHertz = 60 }).Mount("P1", "line cord", "P1-1", "P1-2").Strip("A", 5)
            .Resistor("R1", 27, "P1-1", "A-1").Part("SE1", "selenium rectifier", "A-1", "A-2", plus: 'b', more: p => p with { RatedVolts = 130, Marked = "100 MA 130V" })
            .Electrolytic("C1", 40e-6, 250, "A-2", "A-3").Wire("P1-2", "A-3").Resistor("R2", 141.14 / 0.06, "A-2", "A-3").Build();
        book = book with { Facts = book.Facts with { CommonLug = "A-3" } };
        var solved = Solved.Of(book);
        Assert.Null(solved.Reason);
        var swap = Of(solved).Silicon!;
        Assert.InRange(swap.VoltsBare - swap.VoltsBefore, 1, 7);
        Assert.InRange(swap.VoltsBare, 145.21 * 0.98, 145.21 * 1.02);
        Assert.InRange(swap.SeriesOhms, (swap.VoltsBare - swap.VoltsBefore) / 0.45, (swap.VoltsBare - swap.VoltsBefore) / 0.22);
    }
}
