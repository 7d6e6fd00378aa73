using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Valves;

namespace Lugbook.Circuit.Tests.Valves;

/// <summary>Source: the handbook lines of data/valves, each with its own source.</summary>
public class FurtherLinesTests
{
    /// <summary>Source: µ = gm·rp, by definition; the books round each of the three.</summary>
    [Fact]
    public void Amplification_factor_is_transconductance_times_plate_resistance_in_every_line()
    {
        var lines = Data.Library.Groups.SelectMany(g => g.Lines).Where(l => l is { Mu: not null, Siemens: not null, PlateOhms: not null }).ToArray();
        Assert.True(lines.Length > 70);
        Assert.Equal([], lines.Where(l => Math.Abs(l.Siemens!.Value * l.PlateOhms!.Value / l.Mu!.Value - 1) > 0.12).Select(l => $"{l.Type} line {l.Line}: {l.Siemens * l.PlateOhms:0.0} against {l.Mu}"));
    }

    [Fact]
    public void Every_types_own_lines_are_met_within_ten_per_cent_of_plate_current()
    {
        var misses = Data.Accuracy.Where(r => r.Fitted.Figures.Any(f => f.Quantity == Quantity.PlateCurrent && Math.Abs(f.Error) > 0.10));
        Assert.Equal([], misses.Select(r => $"{r.Type} {r.Fitted.Line.PlateVolts} V: {r.Fitted.Figures.First(f => f.Quantity == Quantity.PlateCurrent).Error:P0}"));
    }

    [Theory]
    [InlineData("6SC7", "")]
    [InlineData("12BY7A", "")]
    [InlineData("6T8", "")]
    [InlineData("5U8", "triode,pentode")]
    [InlineData("PCL82", "triode,pentode")]
    [InlineData("6K7", "")]
    [InlineData("5Z3", "1,2")]
    [InlineData("6W4GT", "")]
    [InlineData("25Z6", "1,2")]
    [InlineData("117Z3", "")]
    [InlineData("UY85", "")]
    public void A_further_type_has_its_sections(string type, string sections) =>
        Assert.Equal(sections, string.Join(',', Data.Library.Find(type)!.Sections.Select(s => s.Name)));

    /// <summary>Source: common practice, from memory: a small diode at rest shows about −0.5 V of contact potential across half a megohm.</summary>
    [Fact]
    public void A_signal_diode_shows_its_contact_potential_across_half_a_megohm()
    {
        Network network = new(["cathode", "plate"], 0, [new Resistor("R", 1, 0, 500e3), new Diode("D", 1, 0, DiodeLaw.SignalPlate())]);
        Assert.InRange(OperatingPoint.Of(network).Volts[1], -0.6, -0.4);
    }

    /// <summary>Source: common practice, from memory: 2 mA at 10 V.</summary>
    [Fact]
    public void A_signal_diode_conducts_two_milliamperes_at_ten_volts()
    {
        Network network = new(["cathode", "plate"], 0, [new Battery("B", 1, 0, 10, 1), new Diode("D", 1, 0, DiodeLaw.SignalPlate())]);
        var volts = OperatingPoint.Of(network).Volts[1];
        Assert.InRange((10 - volts) / 1, 1.9e-3, 2.1e-3);
    }
}
