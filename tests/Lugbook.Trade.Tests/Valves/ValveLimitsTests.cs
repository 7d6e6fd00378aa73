using Lugbook.Trade.Valves;

namespace Lugbook.Trade.Tests.Valves;

/// <summary>Source: data/valves/tubes.csv, each row with its own source; the complaint is ours.</summary>
public class ValveLimitsTests
{
    private static ValveRow Row(string type, string valveClass, string pins, LimitCells? limits) =>
        new(type, "12V6GT (12.6 V)", valveClass, "octal", pins, "6.3", "0.45", "test", "memory") { Limits = limits };

    private const string Beam = "2=h;3=p;4=g2;5=g1;7=h;8=k,bp";

    /// <summary>Source: AWV Radiotron 6V6-GT sheets (Dec 1944): 315 V and 12 W at the plate, 285 V and 2 W at the screen; the cathode current is invented.</summary>
    [Fact]
    public void Limits_are_read_into_base_units_and_shared_by_the_twin_with_another_heater()
    {
        var (types, complaint) = Row("6V6GT", "beam", Beam, new("315", "12", "285", "2", "65", "")).Read("test");
        Assert.Null(complaint);
        Assert.Equal(["6V6GT", "12V6GT"], types.Select(t => t.Type));
        Assert.All(types, t => Assert.Equal(new ValveLimits(315, 12, 285, 2, 0.065, null), t.Limits));
    }

    /// <summary>Source: common practice, no source: an empty field states nothing.</summary>
    [Fact]
    public void A_row_without_limits_states_none()
    {
        Assert.Equal(ValveLimits.None, Row("6V6GT", "beam", Beam, null).Read("test").Types[0].Limits);
        Assert.Equal(ValveLimits.None, Row("6V6GT", "beam", Beam, new("", "", "", "", "", "")).Read("test").Types[0].Limits);
    }

    /// <summary>Source: the notes of the ECH81's row: its ratings are the heptode's.</summary>
    [Theory]
    [InlineData("triode-heptode", "heptode", 12.0)]
    [InlineData("triode-heptode", "triode", null)]
    [InlineData("twin-triode", "1", 12.0)]
    [InlineData("duodiode-triode", "", 12.0)]
    [InlineData("duodiode-triode", "d1", null)]
    public void A_limit_of_one_section_is_not_held_against_another(string valveClass, string section, double? watts)
    {
        var type = Row("X", "beam", Beam, new("", "12", "", "", "", "")).Read("test").Types[0] with { Class = valveClass };
        Assert.Equal(watts, type.LimitsOf(section).PlateWatts);
    }

    /// <summary>Source: house rule: what, where, what to do.</summary>
    [Theory]
    [InlineData("twelve")]
    [InlineData("0")]
    [InlineData("12,5")]
    public void A_wrong_limit_names_its_column(string text)
    {
        var (types, complaint) = Row("6V6GT", "beam", Beam, new("315", text, "", "", "", "")).Read("own.csv, line 4");
        Assert.Empty(types);
        Assert.Equal("own.csv, line 4, 6V6GT, max_plate_w", complaint!.Place);
    }
}
