using Lugbook.Circuit.Valves;

namespace Lugbook.Circuit.Tests.Valves;

/// <summary>Source: common practice of type naming, from memory; equivalents of data/valves.</summary>
public class TypeNamesTests
{
    [Theory]
    [InlineData("12SA7GT", "6SA7")]
    [InlineData("6SA7GTY", "6SA7")]
    [InlineData("3CB6", "6CB6")]
    [InlineData("4CB6", "6CB6")]
    [InlineData("5AQ5", "6AQ5A")]
    [InlineData("3AU6", "6AU6A")]
    [InlineData("6AU6WA", "6AU6A")]
    [InlineData("12SQ7GT", "6SQ7")]
    [InlineData("6V6", "6V6GT")]
    [InlineData("6 V 6-GT", "6V6GT")]
    [InlineData("6v6gta", "6V6GT")]
    [InlineData("5U4G", "5U4GB")]
    [InlineData("6SK7GT", "6SK7")]
    [InlineData("12SN7GTA", "6SN7GTB")]
    [InlineData("25BQ6GTB", "6BQ6GTB")]
    [InlineData("17AX4GT", "6AX4GT")]
    [InlineData("12AX7/ECC83", "12AX7A")]
    [InlineData("ECC83 (12AX7)", "12AX7A")]
    [InlineData("VT 231", "6SN7GTB")]
    [InlineData("UX-280", "5Y3GT")]
    [InlineData("8BQ5", "6BQ5")]
    [InlineData("42", "6F6")]
    [InlineData("7C5", "6V6GT")]
    [InlineData("35L6", "35L6GT")]
    [InlineData("25L6", "25L6GT")]
    [InlineData("6L6", "6L6GC")]
    public void A_name_finds_the_type_whose_lines_apply(string written, string data) => Assert.Equal(data, Data.Library.Find(written)?.DataOf);

    /// <summary>Source: common practice: in old-numbered output valves, rectifiers and loctals the first number means another valve; 1 V valves are battery valves; 5AX4 is a full-wave rectifier.</summary>
    [Theory]
    [InlineData("12L6")]
    [InlineData("70L6GT")]
    [InlineData("25V6")]
    [InlineData("6Z5")]
    [InlineData("1V6")]
    [InlineData("7W4")]
    [InlineData("12Y3")]
    [InlineData("1AU6")]
    [InlineData("5AX4GT")]
    [InlineData("7SN7")]
    [InlineData("6C5X9")]
    [InlineData("")]
    [InlineData(" / ")]
    public void A_name_that_may_mean_another_valve_finds_nothing(string written) => Assert.Null(Data.Library.Find(written));

    [Fact]
    public void Output_valves_of_different_numbers_stay_apart()
    {
        string[] types = ["6L6", "25L6", "35L6", "50L6"];
        Assert.Equal(4, types.Select(t => Data.Library.Find(t)!.DataOf).Distinct().Count());
    }

    [Fact]
    public void The_section_says_whose_lines_were_used_and_why()
    {
        var heater = Data.Library.Find("3CB6")!;
        Assert.Contains("heater only", heater.Why, StringComparison.Ordinal);
        Assert.Contains("of 6CB6 (3CB6 and 6CB6 differ in the heater only", heater.Sections[0].Origin, StringComparison.Ordinal);
        Assert.Contains("envelope", Data.Library.Find("12SA7GT")!.Sections[0].Origin, StringComparison.Ordinal);
        Assert.Contains("loctal base", Data.Library.Find("7C5")!.Sections[0].Origin, StringComparison.Ordinal);
        Assert.Equal("", Data.Library.Find("6CB6")!.Why);
    }

    [Fact]
    public void Two_types_of_one_shape_of_name_leave_a_third_unknown()
    {
        TypeNames names = new(["6XY6", "12XY6"], [], [], new Dictionary<string, string>());
        Assert.Null(names.Find("3XY6"));
        Assert.Equal("6XY6", new TypeNames(["6XY6"], [], [], new Dictionary<string, string>()).Find("3XY6")!.Data);
    }

    [Fact]
    public void Every_listed_twin_has_a_law()
    {
        var rows = Data.Text("twins.csv").Split('\n').Where(l => l.Length > 0 && l[0] != '#').Skip(1).Select(l => l.Split(',')).ToArray();
        Assert.True(rows.Length > 40);
        Assert.Equal([], rows.Where(r => Data.Library.Find(r[0]) is not { Sections.IsEmpty: false }).Select(r => r[0]));
    }
}
