using Lugbook.Circuit.Valves;

namespace Lugbook.Circuit.Tests.Valves;

/// <summary>Source: the format described on top of data/valves/tube-points.csv; no outside figures.</summary>
public class HandbookLinesTests
{
    [Fact]
    public void Columns_are_found_by_name_in_any_order_and_case()
    {
        var read = HandbookLines.Parse("# mine\r\nGrid1_V,Plate_mA,TYPE,plate_v,Connection\r\n\r\n-8,9,6SN7GT,250,\r\n");
        Assert.Empty(read.Faults);
        var line = Assert.Single(read.Lines);
        Assert.Equal(("6SN7GT", Connection.Triode, LineKind.Characteristic, 250.0, -8.0, 9e-3, 4), (line.Type, line.Connection, line.Kind, line.PlateVolts, line.GridVolts!.Value, line.PlateAmperes!.Value, line.Line));
    }

    [Theory]
    [InlineData("6V6,250,x,-12.5,,45", 2, "screen_v", "not a number")]
    [InlineData("6V6,250,250,-12.5,200,45", 2, "cathode_ohm", "Both a grid voltage and a cathode resistor")]
    [InlineData("6V6,250,250,,,45", 2, "grid1_v", "Neither")]
    [InlineData("6V6,250,250,-12.5,,", 2, "plate_ma", "no current")]
    [InlineData("6V6,-250,250,-12.5,,45", 2, "plate_v", "outside its range")]
    [InlineData("6V6,,250,-12.5,,45", 2, "plate_v", "missing")]
    [InlineData(",250,250,-12.5,,45", 2, "type", "missing")]
    [InlineData("6V6,250,250,\"-12.5,,45", 2, "", "quotation mark")]
    [InlineData("6V6,250,250,-12,5,,45,7", 2, "", "fields")]
    [InlineData("6V6,1e999,250,-12.5,,45", 2, "plate_v", "not a number")]
    public void A_bad_line_is_left_out_and_said_where_and_why(string line, int at, string column, string problem)
    {
        var read = HandbookLines.Parse("type,plate_v,screen_v,grid1_v,cathode_ohm,plate_ma\n" + line + "\n6V6,250,250,-12.5,,45");
        Assert.Equal(3, Assert.Single(read.Lines).Line);
        var fault = Assert.Single(read.Faults);
        Assert.Equal((at, column), (fault.Line, fault.Column));
        Assert.Contains(problem, fault.Problem, StringComparison.Ordinal);
        Assert.EndsWith(".", fault.Remedy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "header")]
    [InlineData("# only a remark", "header")]
    [InlineData("valve,volts\n6V6,250", "lacks this column")]
    public void A_text_without_the_needed_columns_gives_faults_and_no_lines(string text, string problem)
    {
        var read = HandbookLines.Parse(text);
        Assert.Empty(read.Lines);
        Assert.Contains(read.Faults, f => f.Problem.Contains(problem, StringComparison.Ordinal));
    }

    [Fact]
    public void Any_text_is_read_without_an_exception()
    {
        CsCheck.Check.Sample(CsCheck.Gen.String[0, 200], text =>
        {
            _ = HandbookLines.Parse(text);
            _ = HandbookLines.Parse("type,plate_v,grid1_v,plate_ma\n" + text);
        }, iter: 2000);
    }

    [Fact]
    public void Self_bias_voltages_are_to_ground_except_in_a_Philips_sheet_or_where_it_is_said()
    {
        var read = HandbookLines.Parse("type,plate_v,cathode_ohm,plate_ma,source,volts_to\nA,250,200,10,handbook,\nB,250,200,10,Philips sheet,\nC,250,200,10,handbook,cathode\nD,250,200,10,Philips sheet,ground");
        Assert.Equal([false, true, true, false], read.Lines.Select(l => l.VoltsToCathode));
    }
}
