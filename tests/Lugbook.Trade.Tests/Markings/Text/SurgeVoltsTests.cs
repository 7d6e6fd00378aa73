using Lugbook.Trade.Markings;

namespace Lugbook.Trade.Tests.Markings.Text;

/// <summary>Source: common practice, no source: cans print working and surge volts, 450/500 and the like.</summary>
public class SurgeVoltsTests
{
    [Theory]
    [InlineData("8+16 MFD 450/500V", 450, 450)]
    [InlineData("32+32uF 350VDC surge 400", 350, 350)]
    [InlineData("16-16 MFD 450-525V", 450, 450)]
    [InlineData("40-20 MFD 450-25V", 450, 25)]
    [InlineData("20-20 MFD 150-350V", 150, 350)]
    public void A_second_voltage_a_little_higher_is_surge_and_rates_no_section(string marking, double first, double second)
    {
        var best = TextMarking.Read(marking).Best!;
        Assert.Equal([first, second], best.Sections.Select(s => s.RatedVolts!.Value));
    }
}
