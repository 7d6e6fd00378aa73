using Lugbook.Trade.Valves;

namespace Lugbook.Trade.Tests.Valves;

/// <summary>Source: naming of American types by envelope suffix (common practice, no source); lines as in data/valves, from memory.</summary>
public class ValveHandbookTests
{
    private static ValveRow Row(string type, string equivalents, string pinout, string valveClass = "pentode", string valveBase = "octal", string volts = "6.3", string amperes = "0.3") =>
        new(type, equivalents, valveClass, valveBase, pinout, volts, amperes, "test", "memory");

    private static readonly ValveHandbook Book = new(new[]
    {
        Row("6V6GT", "6V6; 6V6G; 7408; 12V6GT (12.6 V)", "1=nc;2=h;3=p;4=g2;5=g1;7=h;8=k,bp", "beam"),
        Row("12AX7A", "ECC83; 12AX7; 7025 (low hum)", "1=p2;2=g2;3=k2;4=h;5=h;6=p1;7=g1;8=k1;9=hct", "twin-triode", "noval"),
        Row("6SN7GTB", "6SN7GT; 5692 (ruggedised, lower plate rating)", "1=gt2;2=pt2;3=kt2;4=gt1;5=pt1;6=kt1;7=h;8=h", "twin-triode"),
        Row("6X4", "EZ90; 12X4 (12.6 V)", "1=p1;3=h;4=h;6=p2;7=k", "rectifier", "7-pin miniature"),
        Row("6X5GT", "EZ35", "2=h;3=p1;5=p2;7=h;8=k", "rectifier"),
        Row("12SA7", "", "1=shell,g5;2=h;3=p;4=g2g4;5=g1;6=k;7=h;8=g3", "converter"),
        Row("12SA7GT", "", "1=nc;2=h;3=p;4=g2g4;5=g1;6=k,g5;7=h;8=g3", "converter"),
        Row("5Y3GT", "80 (4-pin); 5Z2P", "2=f;4=p2;6=p1;8=f", "rectifier"),
        Row("OA2", "0A2", "1=p;2=k", "regulator", "7-pin miniature", "", ""),
    }.SelectMany(r => r.Read("test").Types));

    [Theory]
    [InlineData("6V6GT", "6V6GT")]
    [InlineData("6v6", "6V6GT")]
    [InlineData(" 6 V 6 - G ", "6V6GT")]
    [InlineData("6V6GTA", "6V6GT")]
    [InlineData("6V6GT/G", "6V6GT")]
    [InlineData("7408", "6V6GT")]
    [InlineData("6SN7", "6SN7GTB")]
    [InlineData("6SN7WGT", "6SN7GTB")]
    [InlineData("JAN-6SN7GT", "6SN7GTB")]
    [InlineData("ECC83", "12AX7A")]
    [InlineData("ecc83s", "12AX7A")]
    [InlineData("12AX7/ECC83", "12AX7A")]
    [InlineData("12AX7WA", "12AX7A")]
    [InlineData("6X5", "6X5GT")]
    [InlineData("12SA7", "12SA7")]
    [InlineData("12SA7GT", "12SA7GT")]
    [InlineData("12SA7GTY", "12SA7GT")]
    [InlineData("12SA7Y", "12SA7")]
    [InlineData("0a2", "OA2")]
    [InlineData("12V6GT", "12V6GT")]
    public void A_type_is_found_by_its_names(string asked, string found) => Assert.Equal(found, Book.Find(asked)?.Type);

    [Theory]
    [InlineData("6X3")]
    [InlineData("80")]
    [InlineData("6V5")]
    [InlineData("12SN7")]
    [InlineData("")]
    [InlineData(null)]
    [InlineData("6?6")]
    public void What_is_not_known_is_not_guessed(string? asked) => Assert.Null(Book.Find(asked));

    [Fact]
    public void Six_X_five_is_never_six_X_four() => Assert.NotEqual(Book.Find("6X4")!.Pinout, Book.Find("6X5")!.Pinout);

    [Fact]
    public void A_name_that_differs_in_the_heater_has_its_own_heater()
    {
        var type = Book.Find("12X4")!;
        Assert.Equal(12.6, type.HeaterVolts);
        Assert.Null(type.HeaterAmperes);
        Assert.Equal("7-pin miniature", type.Base);
    }

    [Theory]
    [InlineData("1=p;1=g", "twice")]
    [InlineData("1=zz", "not an electrode")]
    [InlineData("x=p", "number=letters")]
    [InlineData("1=", "no electrode")]
    public void A_pinout_that_cannot_be_read_is_a_complaint(string pinout, string problem)
    {
        var (types, complaint) = Row("X", "", pinout).Read("test");
        Assert.Empty(types);
        Assert.Contains(problem, complaint!.Problem, StringComparison.Ordinal);
    }
}
