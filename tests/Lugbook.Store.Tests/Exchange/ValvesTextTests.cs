using System.Text;
using Lugbook.Store.Exchange;

namespace Lugbook.Store.Tests.Exchange;

/// <summary>Valve types and lines of the user's own, as people type them.</summary>
public class ValvesTextTests
{
    private static NamedBytes File(string name, string text) => new(name, Encoding.UTF8.GetBytes(text));
    private const string Parts = "ref,kind,value,unit\nR1,resistor,100,ohm\n";

    /// <summary>Columns of the user's own measure are decimal numbers, so a decimal comma in them tells what a comma means in the file.</summary>
    [Fact]
    public void Decimal_commas_of_milliamperes_and_mu_are_read_as_such()
    {
        var line = Assert.Single(ValvesText.ReadLines("type\tplate_v\tgrid1_v\tplate_ma\tmu\trp_ohm\n6SC7\t250\t-2\t2,25\t70,5\t53,000\n").Rows);
        Assert.Equal((2.25, 70.5), (line.PlateMilliamperes, line.Mu));
        Assert.Equal(53, line.PlateOhms);
    }

    [Fact]
    public void A_strangers_list_called_valves_or_tube_types_is_not_taken_for_lines()
    {
        var read = BookFiles.Read([File("parts.csv", Parts), File("valves.csv", "Valve,Position,Tested\n6V6,V3,good\n"), File("tube types.csv", "Type,How many\n6V6,2\n")], "x");
        Assert.Equal("", string.Join("\n", read.Complaints));
        Assert.Equal((0, 0), (read.Book!.ValveTypes.Count, read.Book.ValveLines.Count));
        Assert.Equal(2, read.Remarks.Count(r => r.Contains("valves.csv", StringComparison.Ordinal) || r.Contains("tube types.csv", StringComparison.Ordinal)));
    }

    /// <summary>A list of parts keeps being one, whatever its file is called.</summary>
    [Fact]
    public void A_single_list_of_parts_may_be_called_meters()
    {
        var read = BookFiles.Read([File("my meters.csv", Parts)], "x");
        Assert.Equal("", string.Join("\n", read.Complaints));
        Assert.Equal("R1", Assert.Single(read.Book!.Parts).Name);
    }

    [Fact]
    public void In_a_workbook_a_sheet_called_valves_or_meters_is_left_alone_and_valvelines_is_read()
    {
        WrittenTable Sheet(string name, params string[][] rows) => new(name, [.. rows[0]], [.. rows[1..].Select(r => (System.Collections.Immutable.ImmutableArray<WrittenCell>)[.. r.Select(c => new WrittenCell(c))])]);
        using var stream = new MemoryStream();
        Assert.Null(Workbook.Write(
        [
            Sheet("parts", ["ref", "kind", "value", "unit"], ["R1", "resistor", "100", "ohm"]), Sheet("valves", ["Valve", "Tested"], ["6V6", "good"]),
            Sheet("meters", ["Meter", "Bought"], ["S-meter", "1962"]), Sheet("valvelines", ["type", "plate_v", "grid1_v", "plate_ma"], ["6SC7", "250", "-2", "2"]),
        ], stream, "x.xlsx"));
        var read = BookFiles.Read([new("x.xlsx", stream.ToArray())], "x");
        Assert.Equal("", string.Join("\n", read.Complaints));
        Assert.Equal((1, 0, 0, 1), (read.Book!.Parts.Count, read.Book.Meters.Count, read.Book.ValveTypes.Count, read.Book.ValveLines.Count));
        Assert.Contains(read.Remarks, r => r.Contains("valves", StringComparison.Ordinal) && r.Contains("meters", StringComparison.Ordinal));
    }

    /// <summary>"OL" says no figure; which one it is above is known only where the meter is.</summary>
    [Fact]
    public void A_bare_over_in_a_list_of_readings_is_kept_as_such()
    {
        var reading = Assert.Single(ReadingsText.Read("ref,quantity,value,lifted,lifted part\nR1,ohms,OL,,R6\n").Rows);
        Assert.Equal((true, 0, false, "R6"), (reading.IsOver, reading.Value, reading.IsLifted, reading.LiftedPart));
    }

    [Fact]
    public void Lines_and_pins_beside_the_parts_come_into_the_book()
    {
        var read = BookFiles.Read([File("parts.csv", Parts), File("valvelines.csv", "type,plate_v,grid1_v,plate_ma\n6SC7,250,-2,2\n"), File("valvetypes.csv", "type,class,pinout\n6SC7,twin-triode,2=p1;3=g1;4=g2;5=p2;6=k;7=h;8=h\n")], "x");
        Assert.Equal("", string.Join("\n", read.Complaints));
        Assert.Equal(("6SC7", 2.0, "twin-triode"), (read.Book!.ValveLines[0].Name, read.Book.ValveLines[0].PlateMilliamperes!.Value, read.Book.ValveTypes[0].Class));
    }

    [Fact]
    public void A_pinout_that_no_valve_has_is_refused_with_its_line()
    {
        var complaint = Assert.Single(ValvesText.ReadTypes("type,class,pinout\n6SC7,twin-triode,2=p1;3=x9\n").Complaints);
        Assert.Contains("line 2", complaint.Place, StringComparison.Ordinal);
        Assert.Contains("x9", complaint.Problem, StringComparison.Ordinal);
    }
}
