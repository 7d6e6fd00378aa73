using CsCheck;
using Lugbook.Restoration.Choose;
using Joining = Lugbook.Restoration.Choose.Joining;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Tests.Choose;

/// <summary>Source: the requirement's own members; classes by IEC 60384-14 (Y may stand for X, never X for Y).</summary>
public class FittingTests
{
    private static readonly Requirement Coupling = new()
    {
        Unit = Unit.Farad, Value = new(18e-9, 20e-9, 25e-9, ""), VoltsAtLeast = 400, VoltsReason = "", Kinds = [NewKind.Film, NewKind.Polypropylene], KindReason = "", TolerancePercentAtMost = 10,
    };

    private static readonly Requirement AcrossLine = Coupling with { SafetyClass = SafetyClass.X2, LineVoltsAtLeast = 253, VoltsAtLeast = null, TolerancePercentAtMost = null, Kinds = [NewKind.SafetyFilm, NewKind.SafetyCeramic] };

    private static readonly ChosenPart Film = new() { Text = "", Series = "", Kind = NewKind.Film, Unit = Unit.Farad, Value = 22e-9, Volts = 630, TolerancePercent = 10 };

    [Fact]
    public void What_meets_every_demand_may_stand() => Assert.Null(Fitting.Of(Coupling, Film));

    [Theory]
    [InlineData("value", "27 nF lies outside 18 nF to 25 nF.")]
    [InlineData("volts", "250 V is less than 400 V.")]
    [InlineData("no volts", "Its rating in V is not stated; 400 V are asked for.")]
    [InlineData("kind", "Of kind class 2 ceramic; asked for: film and polypropylene film.")]
    [InlineData("tolerance", "±20 % is wider than ±10 %.")]
    [InlineData("unit", "A capacitor is asked for.")]
    public void Each_demand_that_is_not_met_is_said(string what, string sentence) => Assert.Equal(sentence, Fitting.Of(Coupling, what switch
    {
        "value" => Film with { Value = 27e-9 },
        "volts" => Film with { Volts = 250 },
        "no volts" => Film with { Volts = null },
        "kind" => Film with { Kind = NewKind.CeramicClass2 },
        "tolerance" => Film with { TolerancePercent = 20 },
        _ => Film with { Unit = Unit.Ohm },
    }));

    [Fact]
    public void On_the_line_only_a_class_may_stand_however_high_the_voltage()
    {
        Assert.Equal("Class X2 is asked for here; it has none.", Fitting.Of(AcrossLine, Film with { Volts = 10_000, Kind = NewKind.SafetyFilm }));
        var x2 = Film with { Kind = NewKind.SafetyFilm, SafetyClass = SafetyClass.X2, LineVolts = 305 };
        Assert.Null(Fitting.Of(AcrossLine, x2));
        Assert.NotNull(Fitting.Of(AcrossLine with { SafetyClass = SafetyClass.Y2 }, x2));
        Assert.NotNull(Fitting.Of(AcrossLine, x2 with { LineVolts = 250 }));
        Assert.Null(Fitting.Of(AcrossLine, x2 with { SafetyClass = SafetyClass.Y1 }));
    }

    private static readonly Requirement Reservoir = new()
    {
        Unit = Unit.Farad, Value = new(40e-6, 47e-6, 100e-6, ""), VoltsAtLeast = 400, VoltsReason = "", Kinds = [NewKind.Electrolytic], KindReason = "", CelsiusAtLeast = 85, RippleAmperes = 0.25, RippleHertz = 60,
    };

    private static readonly ChosenPart Can = new() { Text = "", Series = "", Kind = NewKind.Electrolytic, Unit = Unit.Farad, Value = 47e-6, Volts = 450, TolerancePercent = 20, Celsius = 105, RippleAmperes = 0.32, RippleHertz = 120 };

    /// <summary>Source: usual frequency multipliers of electrolytics' sheets, 0.8 at 50 and 60 Hz against 120 Hz (from memory).</summary>
    [Fact]
    public void Ripple_is_judged_at_the_frequency_where_it_flows()
    {
        Assert.Null(Fitting.Of(Reservoir, Can));
        Assert.Equal("It bears 240 mA of ripple at 60 Hz; 250 mA are asked for.", Fitting.Of(Reservoir, Can with { RippleAmperes = 0.3 }));
        Assert.Null(Fitting.Of(Reservoir with { RippleHertz = 120 }, Can with { RippleAmperes = 0.3 }));
        Assert.NotNull(Fitting.Of(Reservoir, Can with { RippleAmperes = 0.32, RippleHertz = 100e3 }));
        Assert.Equal("Its ripple current is not stated; 250 mA at 60 Hz are asked for.", Fitting.Of(Reservoir, Can with { RippleAmperes = null }));
    }

    [Theory]
    [InlineData(85.0, 85.0, true)]
    [InlineData(85.0, 105.0, false)]
    [InlineData(105.0, 105.0, true)]
    [InlineData(null, 85.0, true)]
    [InlineData(null, 105.0, false)]
    [InlineData(70.0, 85.0, false)]
    public void Temperature_is_a_demand_like_any_other(double? made, double asked, bool stands) =>
        Assert.Equal(stands, Fitting.Of(Reservoir with { CelsiusAtLeast = asked }, Can with { Celsius = made }) is null);

    /// <summary>Source: the laws of joining: side by side capacitors share ripple by capacitance and bear the whole voltage; one after the other each carries all of it.</summary>
    [Fact]
    public void Whatever_is_asked_no_way_to_fill_it_lies_below_volts_ripple_or_temperature()
    {
        var met = 0;
        (from micro in Gen.Double[1, 200] from volts in Gen.Double[10, 800] from ripple in Gen.Double[0.001, 1.5] from hertz in Gen.Int[0, 3].Select(i => new[] { 50.0, 60, 100, 120 }[i]) from celsius in Gen.Bool.Select(hot => hot ? 105.0 : 85)
         select Reservoir with { Value = new(micro * 0.9e-6, micro * 1e-6, micro * 2e-6, ""), VoltsAtLeast = volts, RippleAmperes = ripple, RippleHertz = hertz, CelsiusAtLeast = celsius }).Sample(need =>
        {
            var (ways, nearly) = PartPicker.Pick(need, Shop.Catalogue);
            foreach (var way in ways)
            {
                Interlocked.Increment(ref met);
                foreach (var part in way.Parts)
                {
                    var share = way.Joining == Joining.Parallel ? part.Value / way.Value : 1;
                    var worth = part.RippleAmperes * (need.RippleHertz < 90 ? 0.8 : 1);
                    if (!(worth >= need.RippleAmperes * share * (1 - 1e-9)) || !(part.Celsius >= need.CelsiusAtLeast)) return false;
                    if (!(part.Volts >= need.VoltsAtLeast * (way.Joining == Joining.Series ? 0.5 : 1) * (1 - 1e-9))) return false;
                }
                if (!need.Value!.Holds(way.Value)) return false;
            }
            return ways.Length > 0 || nearly?.Length > 0;
        }, iter: 1000);
        Assert.True(met > 500, $"only {met} ways were met");
    }

    [Fact]
    public void What_the_position_itself_does_not_tell_is_no_permission()
    {
        Assert.NotNull(Fitting.Of(Coupling with { Value = null }, Film));
        Assert.NotNull(Fitting.Of(Coupling with { VoltsAtLeast = null }, Film));
    }
}
