using System.Text;
using Lugbook.Store.Exchange;
using Lugbook.Trade.Meters;

namespace Lugbook.Store.Tests.Exchange;

/// <summary>Meters as people type them.</summary>
public class MetersTextTests
{
    [Fact]
    public void Units_percent_signs_and_decimal_commas_are_read()
    {
        var read = MetersText.Read("meter;quantity;range;reading_pct;digits;counts\nmine;ohms;2k;0,8;3;2000\nmine;capacitance;20 µF;1,25;5;2000\nmine;volts;1,500;0,5;2;2000\n");
        Assert.Equal("", string.Join("\n", read.Complaints));
        Assert.Equal([(MeterFunction.Ohms, 2e3, 0.8), (MeterFunction.Farads, 20e-6, 1.25), (MeterFunction.Volts, 1.5, 0.5)], read.Rows.Select(r => (r.Function, r.Top, r.ReadingPercent!.Value)));
    }

    [Fact]
    public void A_range_without_an_error_is_refused_and_the_complaint_says_where_and_what_to_do()
    {
        var complaint = Assert.Single(MetersText.Read("meter,quantity,range\nmine,ohms,200\n").Complaints);
        Assert.Contains("line 2", complaint.Place, StringComparison.Ordinal);
        Assert.Contains("no error", complaint.Problem, StringComparison.Ordinal);
        Assert.Contains("per cent", complaint.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_strangers_list_of_panel_meters_is_left_alone()
    {
        NamedBytes File(string name, string text) => new(name, Encoding.UTF8.GetBytes(text));
        var read = BookFiles.Read([File("parts.csv", "ref,kind,value,unit\nR1,resistor,100,ohm\n"), File("meters.csv", "Meter,Where bought\nS-meter,flea market\n")], "x");
        Assert.Equal("", string.Join("\n", read.Complaints));
        Assert.Empty(read.Book!.Meters);
        Assert.Contains(read.Remarks, r => r.Contains("meters.csv", StringComparison.Ordinal));
    }
}
