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
