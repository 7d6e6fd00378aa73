using System.Text;
using Lugbook.Store.Exchange;
using Lugbook.Trade;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Store.Tests.Exchange;

/// <summary>Source: common practice in spreadsheets of several countries, no source; the lists are made up.</summary>
public class StrangersListsTests
{
    private static Part[] Parts(string text, ReadingContext? context = null)
    {
        var read = PartsText.Read(text, context);
        Assert.Equal("", string.Join("\n", read.Complaints));
        return [.. read.Rows];
    }

    private static void Has(Part part, double? value, Unit? unit, double? volts = null, double? watts = null, double? tolerance = null)
    {
        Assert.Equal((value, unit), (part.Value, part.Unit));
        Assert.Equal((volts, watts), (part.RatedVolts, part.RatedWatts));
        Assert.Equal(tolerance, part.Tolerance?.Plus);
    }

    [Fact]
    public void An_american_list_with_values_in_words()
    {
        var parts = Parts("""
            Ref Des,Description,Value,Working Voltage,Wattage,Tol %
            C1,"Coupling, V3 to V4",.02 MFD,400V,,
            C2,bypass,250 MMF,,,10
            R1,plate load,47K,,1/2,±10%
            R2,"grid leak, 1st audio",10 MEG,,½ W,20%
            """);
        Has(parts[0], 2e-8, Unit.Farad, 400);
        Has(parts[1], 2.5e-10, Unit.Farad, tolerance: 0.1);
        Has(parts[2], 47000, Unit.Ohm, watts: 0.5, tolerance: 0.1);
        Has(parts[3], 1e7, Unit.Ohm, watts: 0.5, tolerance: 0.2);
        Assert.Equal([".02 MFD", "250 MMF", "47K", "10 MEG"], parts.Select(p => p.Marked));
        Assert.Equal("Coupling, V3 to V4", parts[0].Note);
        Assert.Equal([PartKind.Capacitor, PartKind.Capacitor, PartKind.Resistor, PartKind.Resistor], parts.Select(p => p.Kind));
    }

    [Fact]
    public void A_german_export_with_semicolons_decimal_commas_and_a_title_in_windows_1252()
    {
        var text = "Stückliste Küchenradio;;;;;\r\n;;;;;\r\nBauteil;Bauart;Wert;Spannung (V);Toleranz;Bemerkung\r\nC3;Papierkondensator;0,05 µF;400;±20;Kopplung\r\nC4;Elko;8 µF;450;-10 +50;Sieb, \"doppelt\"\r\nR7;Schichtwiderstand;4,7 kOhm;;10 %;Größe prüfen\r\nC5;Glimmer;250 pF;500;5;\r\n";
        var read = BookFiles.Read([new("Liste.csv", Encoding.Latin1.GetBytes(text))], "radio");
        Assert.Equal("", string.Join("\n", read.Complaints));
        var parts = read.Book!.Parts;
        Has(parts[0], 5e-8, Unit.Farad, 400, tolerance: 0.2);
        Has(parts[1], 8e-6, Unit.Farad, 450, tolerance: 0.5);
        Assert.Equal(0.1, parts[1].Tolerance!.Value.Minus);
        Has(parts[2], 4700, Unit.Ohm, tolerance: 0.1);
        Has(parts[3], 2.5e-10, Unit.Farad, 500, tolerance: 0.05);
        Assert.Equal([PartKind.Paper, PartKind.Electrolytic, PartKind.Resistor, PartKind.Mica], parts.Select(p => p.Kind));
        Assert.Equal("Größe prüfen", parts[2].Note);
        Assert.Contains(read.Remarks, r => r.Contains("Windows-1252", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Repère;Genre;Valeur;Tension;Remarques\nC1;papier;0,1 µF;1500;découplage\n")]
    [InlineData("Onderdeel;Soort;Waarde;Spanning;Opmerking\nC1;papier;0,1 µF;1500;ontkoppeling\n")]
    [InlineData("Riferimento\tTipo\tValore\tTensione\tNote\nC1\tcarta\t0,1 µF\t1500 V\tx\n")]
    [InlineData("Referencia|Tipo|Valor|Tensión|Comentario\nC1|papel|0,1 µF|1,5 kV|x\n")]
    public void Other_languages(string text)
    {
        var part = Parts(text)[0];
        Has(part, 1e-7, Unit.Farad, 1500);
        Assert.Equal(PartKind.Paper, part.Kind);
    }

    [Theory]
    [InlineData("ref,value (kohm)\nR1,4.7\n", 4700)]
    [InlineData("ref,value [kΩ]\nR1,4.7\n", 4700)]
    [InlineData("ref;Wert / kΩ\nR1;4,7\n", 4700)]
    [InlineData("ref;Wert in kOhm\nR1;4,7\n", 4700)]
    [InlineData("ref,resistance (ohms)\nR1,\"4,700\"\n", 4700)]
    [InlineData("ref,value,unit\nR1,4.7,k\n", 4700)]
    [InlineData("ref,value,unit\nR1,4.7,kilohm\n", 4700)]
    [InlineData("ref,value\nR1,4700.0\n", 4700)]
    [InlineData("ref,value\n,kohm\nR1,4.7\n", 4700)]
    [InlineData("REF , VALUE\nR1, 4k7 \n", 4700)]
    [InlineData("part_no\tval\nR1\t4K7\n", 4700)]
    [InlineData("sep=;\nref;value\nR1;4700\n", 4700)]
    [InlineData("# my list\n\nref,value\n# resistors\nR1,4.7e3\n,\n", 4700)]
    [InlineData("ref;value\nR1;4.700,0\nR2;0,5\n", 4700)]
    [InlineData("ref;value\nR1;4 700\n", 4700)]
    [InlineData("ref;value\nR1;4'700\n", 4700)]
    [InlineData("R1 4k7\nR2 47\n", 4700)]
    [InlineData("R1: 4k7\nR2: 47\n", 4700)]
    [InlineData("R1\t4700\nR2\t10\n", 4700)]
    [InlineData("#,Ref,Qty,Value\n1,R1,1,4700\n", 4700)]
    [InlineData("Part,Name,Value\nR1,plate load,4700\n", 4700)]
    public void A_resistance_in_the_many_ways_people_write_one(string text, double ohms)
    {
        var part = Parts(text)[0];
        Assert.Equal("R1", part.Name);
        Has(part, ohms, Unit.Ohm);
    }

    [Theory]
    [InlineData("ref,kind,value,unit\nC1,paper,0.02,uF\n", 2e-8)]
    [InlineData("ref,kind,value,unit\nC1,paper,20,nF\n", 2e-8)]
    [InlineData("ref,kind,value,unit\nC1,paper,20000,MMFD\n", 2e-8)]
    [InlineData("ref,kind,value,unit\nC1,paper,.02,MFD.\n", 2e-8)]
    [InlineData("ref,kind,value,unit\nC1,paper,.02,MF\n", 2e-8)]
    [InlineData("ref,kind,value,unit\nC1,paper,2e-8,F\n", 2e-8)]
    [InlineData("ref,kind,value\nC1,paper,2e-8\n", 2e-8)]
    [InlineData("ref,kind,value\nC1,paper,0.00000002\n", 2e-8)]
    [InlineData("ref,kind,value\nC1,paper,.02\n", 2e-8)]
    [InlineData("ref,kind,value\nC1,film,22n\n", 2.2e-8)]
    [InlineData("ref,kind,value\nC1,film,4n7\n", 4.7e-9)]
    [InlineData("ref,value (µF)\nC1,.02\n", 2e-8)]
    [InlineData("ref,capacitance (pF)\nC1,20000\n", 2e-8)]
    [InlineData("ref,kind,value\nC1,electrolytic,8\n", 8e-6)]
    [InlineData("ref,kind,value\nC1,electrolytic,0.000008\n", 8e-6)]
    public void A_capacitance_in_the_many_ways_people_write_one(string text, double farads) => Has(Parts(text)[0], farads, Unit.Farad);

    [Theory]
    [InlineData("ref,kind,value\nC1,mica,250\n")]
    [InlineData("ref,kind,marked\nC1,mica,250\n")]
    [InlineData("ref,kind,value\nR1,resistor,1M\n")]
    [InlineData("ref,kind,marked,value\nR1,resistor,25M,\n")]
    public void What_may_mean_two_things_stays_open_and_is_named(string text)
    {
        var read = PartsText.Read(text);
        var part = Assert.Single(read.Rows);
        Assert.Null(part.Value);
        Assert.NotNull(part.Marked);
        Assert.Contains(read.Remarks, r => r.Contains("may mean", StringComparison.Ordinal) && r.Contains(part.Name, StringComparison.Ordinal) && r.Contains("line 2", StringComparison.Ordinal));
    }

    [Fact]
    public void The_sheets_habit_decides_what_M_means_and_a_certain_marking_gives_the_value()
    {
        var read = PartsText.Read("ref,kind,marked,value\nR1,resistor,25M,\nC1,paper,.05 MFD 600V,\n", new() { MegHabit = MegHabit.Thousand });
        Has(read.Rows[0], 25000, Unit.Ohm);
        Has(read.Rows[1], 5e-8, Unit.Farad, 600);
        Assert.Equal(2, read.Remarks.Count(r => r.Contains("taken from its marking", StringComparison.Ordinal)));
    }

    [Fact]
    public void Markings_that_are_no_values_are_left_in_peace()
    {
        var read = PartsText.Read("ref,kind,marked,value,unit\nV1,valve,12SA7GT,,\nL1,winding,filter choke 8 henry 120 mA,200,ohm\nS1,switch,on-off,,\nV2,valve,,6SQ7,\nF1,fuse,,2 A,\nL2,choke,,8 H,\n");
        Assert.Empty(read.Complaints);
        Assert.Equal(["12SA7GT", "filter choke 8 henry 120 mA", "on-off", "6SQ7", "2 A", "8 H"], read.Rows.Select(p => p.Marked));
        Assert.Equal([null, 200.0, null, null, null, null], read.Rows.Select(p => p.Value));
    }

    [Theory]
    [InlineData("20", 0.2, 0.2)]
    [InlineData("±20", 0.2, 0.2)]
    [InlineData("+/-20%", 0.2, 0.2)]
    [InlineData("20%", 0.2, 0.2)]
    [InlineData("20 %", 0.2, 0.2)]
    [InlineData("-10+100", 0.1, 1)]
    [InlineData("-10 +100", 0.1, 1)]
    [InlineData("-10/+100%", 0.1, 1)]
    [InlineData("+100 -10 %", 0.1, 1)]
    [InlineData("\"2,5\"", 0.025, 0.025)]
    [InlineData("GMV", 0, 1)]
    [InlineData("gmv", 0, 1)]
    public void Tolerances(string written, double minus, double plus)
    {
        var tolerance = Parts($"ref,kind,value,unit,tol_pct\nC1,ceramic,5e-9,farad,{written}\n")[0].Tolerance!.Value;
        Assert.Equal((minus, plus), (tolerance.Minus, tolerance.Plus));
    }

    [Fact]
    public void Ratings_in_one_column_and_leads_in_one_cell()
    {
        var parts = Parts("Ref,Value,Rating,Connections\nC7,.02 MFD,400V,V3-6 to V4-5\nR3,47K,1/2W,\"V3-6, A-2\"\nR4,47K,1 W 10%,V3-6/A-3\nC9,.1 MFD,600 VDC,\n");
        Has(parts[0], 2e-8, Unit.Farad, 400);
        Has(parts[1], 47000, Unit.Ohm, watts: 0.5);
        Has(parts[2], 47000, Unit.Ohm, watts: 1, tolerance: 0.1);
        Has(parts[3], 1e-7, Unit.Farad, 600);
        Assert.Equal([("V3-6", "V4-5"), ("V3-6", "A-2"), ("V3-6", "A-3")], parts.Take(3).Select(p => (p.LeadA!, p.LeadB!)));
    }

    [Fact]
    public void One_row_for_several_parts_as_bills_of_materials_have_it()
    {
        var read = PartsText.Read("Qty,Reference,Value\n3,\"R1, R2, R5\",47K\n4,C1-C4,100n\n");
        Assert.Equal(["R1", "R2", "R5", "C1", "C2", "C3", "C4"], read.Rows.Select(p => p.Name));
        Assert.All(read.Rows.Take(3), p => Has(p, 47000, Unit.Ohm));
        Assert.All(read.Rows.Skip(3), p => Has(p, 1e-7, Unit.Farad));
        Assert.Contains(read.Remarks, r => r.Contains("entered as 3 parts", StringComparison.Ordinal));
    }

    [Fact]
    public void Headings_between_the_rows_are_left_out_and_said_so()
    {
        var read = PartsText.Read("ref,kind,value,unit,note,code,group\nResistors,,,,,,\nR1,resistor,5,ohm,,,\nCapacitors,,,,,,\nC1,paper,5e-9,farad,,,\n");
        Assert.Equal(["R1", "C1"], read.Rows.Select(p => p.Name));
        Assert.Equal(2, read.Remarks.Count(r => r.Contains("heading", StringComparison.Ordinal)));
    }

    [Fact]
    public void Plus_is_told_by_letter_or_by_lug()
    {
        var parts = Parts("ref,kind,value,unit,lead_a,lead_b,plus\nC1,electrolytic,8,uF,K1-1,A-3,a\nC2,electrolytic,8,uF,K1-1,A-3,A-3\nC3,electrolytic,8,uF,K1-1,A-3,Lead B\nC4,electrolytic,8,uF,K1-1,A-3,-\n");
        Assert.Equal(['a', 'b', 'b', null], parts.Select(p => p.PlusLead));
    }

    [Theory]
    [InlineData("utf-16")]
    [InlineData("utf-16BE")]
    [InlineData("utf-32")]
    [InlineData("utf-8")]
    public void Encodings_with_a_mark(string name)
    {
        var encoding = Encoding.GetEncoding(name);
        byte[] bytes = [.. encoding.GetPreamble(), .. encoding.GetBytes("ref\tkind\tvalue\r\nC1\tpaper\t0,05 µF\r\n")];
        Has(BookFiles.Read([new("x.csv", bytes)], "x").Book!.Parts[0], 5e-8, Unit.Farad);
    }

    [Fact]
    public void Utf16_without_a_mark_and_lines_of_an_old_macintosh()
    {
        Has(BookFiles.Read([new("x.csv", Encoding.Unicode.GetBytes("ref,kind,value\r\nR1,resistor,470\r\n"))], "x").Book!.Parts[0], 470, Unit.Ohm);
        Has(BookFiles.Read([new("x.csv", "ref,kind,value\rR1,resistor,470\r"u8.ToArray())], "x").Book!.Parts[0], 470, Unit.Ohm);
    }

    [Fact]
    public void Lugs_in_inches_with_the_mount_written_once_and_pins_as_numbers()
    {
        var read = LugsText.Read("Socket,Socket type,Pin,Function,X (in),Y (in)\nV3,octal,1,shell,1.5,2\nV3,,2,heater,1.75,2\n");
        Assert.Empty(read.Complaints);
        Assert.Equal(["V3-1", "V3-2"], read.Rows.Select(l => l.Name));
        Assert.Equal([(38.1, 50.8), (44.45, 50.8)], read.Rows.Select(l => (l.X!.Value, l.Y!.Value)));
        Assert.Equal([1, 2], read.Rows.Select(l => l.No!.Value));
    }

    [Fact]
    public void Without_lugs_they_are_inferred_from_the_leads_and_marked_so()
    {
        var book = BookFiles.Read([new("parts.csv", "ref,kind,value,unit,lead_a,lead_b\nR1,resistor,5,ohm,V3-6,CH\n"u8.ToArray())], "x").Book!;
        Assert.Equal([("V3-6", "V3", 6), ("CH", "CH", null)], book.Lugs.Select(l => (l.Name, l.Mount, l.No)));
        Assert.All(book.Lugs, l => Assert.Contains("inferred", l.Note, StringComparison.Ordinal));
        Assert.Equal(["", "chassis"], book.Mounts.Select(m => m.KindAsWritten));
    }

    [Fact]
    public void A_lead_on_a_lug_that_is_not_listed_is_for_the_map_to_report()
    {
        var book = BookFiles.Read([new("parts.csv", "ref,kind,value,unit,lead_a\nR1,resistor,5,ohm,V3-9\nR1,resistor,6,ohm,V3-1\n"u8.ToArray()), new("lugs.csv", "lug,mount\nV3-1,V3\n"u8.ToArray())], "x").Book!;
        Assert.Equal("V3-9", book.Parts[0].LeadA);
        Assert.Equal(["V3-1"], book.Lugs.Select(l => l.Name));
        Assert.Equal(2, book.Parts.Count);
    }

    [Fact]
    public void A_voltage_chart_with_the_valve_written_once()
    {
        var read = SheetText.Read("Tube;Pin;Volts;Ohms;Remarks\n6SQ7;2;-0,5;10 MEG;\n;6;43;470K;plate\n;top cap;~6,3;∞;\n;7;6.3 AC;INF;\nV4;NC;;;\nV4;3;n/a;\"220.000\";\n");
        Assert.Contains("220", Assert.Single(read.Complaints, c => c.Place.Contains("line 7", StringComparison.Ordinal)).Problem, StringComparison.Ordinal);
        read = SheetText.Read("Tube;Pin;Volts;Ohms;Remarks\n6SQ7;2;-0,5;10 MEG;\n;6;43;470K;plate\n;top cap;6,3 V~;∞;\n;7;6,3 AC;open;\nV4;3;n/a;220000;\n");
        Assert.Equal("", string.Join("\n", read.Complaints));
        Assert.Equal(["6SQ7-2", "6SQ7-6", "6SQ7-cap", "6SQ7-7", "V4-3"], read.Rows.Select(r => r.Name));
        Assert.Equal([-0.5, 43, 6.3, 6.3, null], read.Rows.Select(r => r.Volts));
        Assert.Equal([false, false, true, true, false], read.Rows.Select(r => r.IsAc));
        Assert.Equal([1e7, 470000, double.PositiveInfinity, double.PositiveInfinity, 220000], read.Rows.Select(r => r.Ohms));
    }

    [Fact]
    public void Wires_without_names_get_free_ones()
    {
        var read = LugsText.ReadWires("From,To,Color\nA-1,B-1,red\nA-2,B-2,\n");
        Assert.Equal(["W1", "W2"], read.Rows.Select(w => w.Name));
        Assert.Equal(["W2", "W1", "W3"], LugsText.ReadWires("wire,from,to\n,A,B\nW1,A,C\n,A,D\n").Rows.Select(w => w.Name));
    }

    [Fact]
    public void A_number_with_a_comma_is_read_by_the_rest_of_its_column_or_not_at_all()
    {
        Assert.Equal(1500, Parts("ref,value\nR1,\"1,500\"\nR2,62.5\n")[0].Value);
        Assert.Equal(1.5, Parts("ref\tvalue\nR1\t1,500\nR2\t62,5\n")[0].Value);
        var complaint = Assert.Single(PartsText.Read("ref\tvalue\nR1\t1,500\n").Complaints);
        Assert.Contains("1500 or 1.500", complaint.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_headers_mislead_the_cells_beneath_decide()
    {
        var read = PartsText.Read("Service sheet,,,\nSymbol,Description,,Part No.\nC1,Condenser .05 mfd 400 v,,23-101\nR1,Resistor 500K ohms 1/2 w,,23-102\n");
        Assert.Equal(["C1", "R1"], read.Rows.Select(p => p.Name));
        Has(read.Rows[0], 5e-8, Unit.Farad, 400);
        Has(read.Rows[1], 500_000, Unit.Ohm, watts: 0.5);
        Assert.Equal("23-101", read.Rows[0].Extras["Part No."]);
        Assert.Contains(read.Remarks, r => r.Contains("'Symbol' was taken as the reference", StringComparison.Ordinal));

        var parts = Parts("Id;Designator;Quantity;Designation;Bezeichnung\n1;R1,R3;2;47k;Widerstand\n2;C1;1;0.1uF 630V;Kondensator\n");
        Assert.Equal(["R1", "R3", "C1"], parts.Select(p => p.Name));
        Assert.Equal([PartKind.Resistor, PartKind.Resistor, PartKind.Capacitor], parts.Select(p => p.Kind));
        Has(parts[2], 1e-7, Unit.Farad, 630);
    }

    [Fact]
    public void A_header_in_a_comment_counts_only_when_there_is_no_other()
    {
        Has(Parts("# ref,kind,value\nR1,resistor,47\n")[0], 47, Unit.Ohm);
        Has(Parts("# ref, value as found\nref,kind,value\nR1,resistor,47\n")[0], 47, Unit.Ohm);
    }

    [Fact]
    public void A_list_without_a_header_may_have_ratings_and_a_sum_is_no_part()
    {
        var parts = Parts("R1,47K,0.5W\nC1,.1 MFD,400 V\n");
        Has(parts[0], 47000, Unit.Ohm, watts: 0.5);
        Has(parts[1], 1e-7, Unit.Farad, 400);
        Assert.Equal("R1", Assert.Single(Parts("ref,value\nR1,47K\n\nTotal,1\n")).Name);
    }

    [Fact]
    public void Lugs_in_another_spelling_are_found_only_where_one_alone_can_be_meant()
    {
        var lugs = new NamedBytes("lugs.csv", "lug,mount\nV3-6,V3\nA-1,A\nA.1,A\n"u8.ToArray());
        var read = BookFiles.Read([lugs, new("parts.csv", "ref,kind,value,unit,lead_a,lead_b\nR1,resistor,5,ohm,V3 pin 6,V3.6\nR2,resistor,5,ohm,A 1,V3-7\n"u8.ToArray())], "x");
        Assert.Equal([("V3-6", "V3-6"), ("A 1", "V3-7")], read.Book!.Parts.Select(p => (p.LeadA!, p.LeadB!)));
        Assert.Contains(read.Remarks, r => r.Contains("'V3 pin 6' for V3-6", StringComparison.Ordinal));
    }

    [Fact]
    public void A_single_file_under_any_name_is_the_table_that_its_header_suits()
    {
        Assert.Equal(["A-1", "A-2"], BookFiles.Read([new("x.csv", "Mount;Lug;X;Y\nA;1;10,5;20\nA;2;20;20\n"u8.ToArray())], "x").Book!.Lugs.Select(l => l.Name));
        Assert.Single(BookFiles.Read([new("x.csv", "From,To,Colour\nA-1,B-1,red\n"u8.ToArray())], "x").Book!.Wires);
    }

    /// <summary>Source: IEC 60062, letters and colours for tolerance.</summary>
    [Theory]
    [InlineData("J", 0.05)]
    [InlineData("k", 0.1)]
    [InlineData("M", 0.2)]
    [InlineData("gold", 0.05)]
    [InlineData("Silver", 0.1)]
    public void Tolerance_by_letter_or_colour(string written, double fraction) =>
        Assert.Equal(fraction, Parts($"ref,kind,value,unit,tol_pct\nR1,resistor,5,ohm,{written}\n")[0].Tolerance!.Value.Plus);
}
