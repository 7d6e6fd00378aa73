using System.Diagnostics;
using System.Text;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Store.Exchange;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Tests.Order.Lists;

/// <summary>Source: lists as shops of several countries write them (from memory, invented lines); what each line means is plain to a person.</summary>
public class SupplierListTests
{
    [Theory]
    [InlineData("item,description,price", "A1,Film capacitor MKP 22nF 1000V 10% RM15,0.45", NewKind.Polypropylene, 22e-9, 1000.0, null, 10.0, SafetyClass.None)]
    [InlineData("Artikelnummer;Bezeichnung;Einzelpreis", "12-34;Elko 47uF 450V 105°C radial 18x35mm;1,95", NewKind.Electrolytic, 47e-6, 450.0, null, null, SafetyClass.None)]
    [InlineData("SKU\tDescription\tUnit Price", "R47\tMetal film resistor 470R 0.6W 1%\t$0.03", NewKind.MetalFilm, 470.0, null, 0.6, 1.0, SafetyClass.None)]
    [InlineData("référence;désignation;prix unitaire", "9;Couche métal 47 kΩ 1/2W 1 %;0,05 €", NewKind.MetalFilm, 47e3, null, 0.5, 1.0, SafetyClass.None)]
    [InlineData("item,kind,value,unit,voltage,tol,price", "F1,polyester film,0.1,uF,630,10,0.35", NewKind.Film, 100e-9, 630.0, null, 10.0, SafetyClass.None)]
    [InlineData("item,kind,value,volts,price", "M1,silver mica,470p,500 V,1.20", NewKind.Mica, 470e-12, 500.0, null, null, SafetyClass.None)]
    [InlineData("artikel,omschrijving,prijs", "C3,Keramisch C0G 100pF 500V 5%,\"0,15\"", NewKind.C0G, 100e-12, 500.0, null, 5.0, SafetyClass.None)]
    [InlineData("code,descrizione,prezzo", "77,resistore ossido di metallo 4k7 2W 5%,\"0,12\"", NewKind.MetalOxide, 4700.0, null, 2.0, 5.0, SafetyClass.None)]
    public void A_line_means_what_a_person_reads(string header, string line, NewKind kind, double value, double? volts, double? watts, double? tolerance, SafetyClass safety)
    {
        var part = Listed.One(header, line).Part;
        Assert.Equal((kind, safety, volts, watts, tolerance), (part.Kind, part.SafetyClass, part.Volts, part.Watts, part.TolerancePercent));
        Assert.Equal(value, part.Value, value * 1e-9);
    }

    [Theory]
    [InlineData("100nF 275VAC X2 film", NewKind.SafetyFilm, SafetyClass.X2, 275, 100e-9)]
    [InlineData("Ceramic disc 4.7nF Y1 500 VAC", NewKind.SafetyCeramic, SafetyClass.Y1, 500, 4.7e-9)]
    [InlineData("Safety ceramic 2.2 nF X1/Y2 300V~", NewKind.SafetyCeramic, SafetyClass.Y2, 300, 2.2e-9)]
    public void A_class_is_read_with_its_line_voltage(string description, NewKind kind, SafetyClass safety, double lineVolts, double value)
    {
        var part = Listed.One("description,price", $"{description},0.50").Part;
        Assert.Equal((kind, safety, (double?)lineVolts), (part.Kind, part.SafetyClass, part.LineVolts));
        Assert.Equal(value, part.Value, value * 1e-9);
    }

    [Fact]
    public void A_description_may_give_both_ratings_of_a_class_part()
    {
        var part = Listed.One("description,price", "film X2 47nF 305VAC 630VDC,0.46").Part;
        Assert.Equal((SafetyClass.X2, 305.0, 630.0), (part.SafetyClass, part.LineVolts, part.Volts));
    }

    [Fact]
    public void A_class_with_a_dc_figure_only_is_refused_since_that_says_nothing_of_the_line() =>
        Assert.Contains("line voltage", Assert.Single(Listed.Offers("description,price\n100nF 630VDC X2 film,0.5\n").Complaints).Problem, StringComparison.Ordinal);

    [Theory]
    [InlineData("item,description,breaks", "A,film 22nF 630V,1:0.45 10:0.38 100:0.29")]
    [InlineData("item;description;Staffelpreise", "A;film 22nF 630V;1:0,45; 10:0,38; 100:0,29")]
    [InlineData("item,description,price 1,price 10,price 100", "A,film 22nF 630V,0.45,0.38,0.29")]
    [InlineData("item,description,1+,10+,100+", "A,film 22nF 630V,0.45,0.38,0.29")]
    [InlineData("item,description,qty1,price1,qty2,price2,qty3,price3", "A,film 22nF 630V,1,0.45,10,0.38,100,0.29")]
    [InlineData("Artikel;Bezeichnung;ab 1;ab 10;ab 100", "A;Folie 22nF 630V;0,45 EUR;0,38 EUR;0,29 EUR")]
    public void Price_breaks_are_read_in_every_form(string header, string line)
    {
        if (line.Contains("; 10", StringComparison.Ordinal)) line = line.Replace("1:0,45; 10:0,38; 100:0,29", "\"1:0,45; 10:0,38; 100:0,29\"", StringComparison.Ordinal);
        Assert.Equal([new(1, 0.45m), new(10, 0.38m), new(100, 0.29m)], Listed.One(header, line).Prices);
    }

    [Fact]
    public void Terms_stand_above_the_header_and_currency_stays_as_written()
    {
        var list = Listed.Offers("supplier,Northgate Parts\ncurrency,GBP\npostage,4.95\nfree from,50\nminimum order,10\nitem,description,price,pack,min,stock\nA,film 22nF 630V,0.45,5,10,250\n").Lists.Single();
        Assert.Equal(("Northgate Parts", "GBP", new SupplierTerms(4.95m, 50, 10)), (list.Name, list.Currency, list.Terms));
        var offer = list.Offers.Single();
        Assert.Equal((5, 10, (int?)250), (offer.Pack, offer.Minimum, offer.Stock));
    }

    [Fact]
    public void A_price_for_a_hundred_is_a_hundredth_for_one() =>
        Assert.Equal(0.0123m, Listed.One("description,price,per", "metal film 10k 0.6W 1%,1.23,100").Prices.Single().Price);

    [Theory]
    [InlineData("description,price,celsius,ripple", "Elko 47uF 450V,0.5,85,320", 85, 0.32, null)]
    [InlineData("description,price,celsius,ripple", "Elko 47uF 450V,0.5,105 °C,0.32 A at 100 kHz", 105, 0.32, 100e3)]
    [InlineData("description,price,temp,Rippelstrom", "Elko 47uF 450V,0.5,85°C,450mA @ 120Hz", 85, 0.45, 120.0)]
    [InlineData("description,price", "Elko 47uF 450V 85°C,0.5", 85, null, null)]
    public void Temperature_and_ripple_of_an_electrolytic_are_read_and_kept(string header, string line, double celsius, double? amperes, double? hertz)
    {
        var list = Listed.Offers($"{header}\n{line}\n").Lists.Single();
        foreach (var part in new[] { list.Offers[0].Part, Listed.Offers(list.ToCsv()).Lists.Single().Offers[0].Part })
        {
            Assert.Equal((celsius, hertz), (part.Celsius, part.RippleHertz));
            Assert.Equal(amperes, part.RippleAmperes);
        }
    }

    [Theory]
    [InlineData("B,film 22nF 630V,-0.45,1,1,", "price", "less than nothing")]
    [InlineData("B,film 22nF 630V,0,1,1,", "price", "more than nothing")]
    [InlineData("B,film 22nF 630V,cheap,1,1,", "price", "not an amount")]
    [InlineData("B,film 22nF 630V,,1,1,", "price", "no price")]
    [InlineData("B,film 22nF 630V,0.45,0,1,", "pack", "one piece or more")]
    [InlineData("B,film 22nF 630V,0.45,2.5,1,", "pack", "whole pieces")]
    [InlineData("B,film 22nF 630V,0.45,1,-3,", "minimum", "one piece or more")]
    [InlineData("B,film 22nF 630V,0.45,1,1,some day", "stock", "no number of pieces")]
    [InlineData("B,film 22 parsec 630V,0.45,1,1,", "description", "no value")]
    [InlineData("B,22nF 630V,0.45,1,1,", "description", "what kind")]
    [InlineData("B,film 22nF,0.45,1,1,", "volts", "rated voltage is not stated")]
    [InlineData("A,film 22nF 630V,0.45,1,1,", "item", "twice")]
    public void A_bad_line_is_refused_by_name_and_the_good_ones_stand(string line, string column, string says)
    {
        var read = Listed.Offers($"item,description,price,pack,minimum,stock\nA,film 47nF 630V,0.50,1,1,\n{line}\nC,film 100nF 630V,0.60,1,1,\n");
        var complaint = Assert.Single(read.Complaints);
        Assert.StartsWith($"list.csv, line 3, {column}", complaint.Place, StringComparison.Ordinal);
        Assert.Contains(says, complaint.Problem, StringComparison.Ordinal);
        Assert.NotEmpty(complaint.Remedy);
        Assert.Equal(["A", "C"], read.Lists.Single().Offers.Select(o => o.Item));
    }

    [Fact]
    public void A_price_that_rises_with_the_quantity_is_refused() =>
        Assert.Contains("costs more", Assert.Single(Listed.Offers("description,breaks\nfilm 22nF 630V,1:0.3 10:0.4\n").Complaints).Problem, StringComparison.Ordinal);

    [Fact]
    public void A_comma_that_may_be_either_is_asked_about_and_told_by_the_rest_of_the_list()
    {
        Assert.Contains("may be", Assert.Single(Listed.Offers("description;price\nfilm 22nF 630V;1,250\n").Complaints).Problem, StringComparison.Ordinal);
        var read = Listed.Offers("description;price\nfilm 22nF 630V;1,250\nfilm 47nF 630V;0,35\n");
        Assert.Equal([1.25m, 0.35m], read.Lists.Single().Offers.Select(o => o.Prices[0].Price));
    }

    [Fact]
    public void A_list_without_a_header_is_refused_with_what_to_write() =>
        Assert.Contains("Head the columns", Assert.Single(Listed.Offers("hello,world\n1,2\n").Complaints).Remedy, StringComparison.Ordinal);

    [Fact]
    public void A_million_lines_end_at_the_limit_with_one_complaint_in_bounded_time()
    {
        var text = new StringBuilder("item,kind,value,volts,price\n");
        for (var i = 0; i < 1_000_000; i++) text.Append('Z').Append(i).Append(",film,22nF,630,9\n");
        var clock = Stopwatch.StartNew();
        var read = Listed.Offers(text.ToString());
        Assert.Equal(ListLimits.Rows, read.Lists.Single().Offers.Length);
        Assert.Contains("not read", Assert.Single(read.Complaints).Problem, StringComparison.Ordinal);
        Assert.True(clock.Elapsed < TimeSpan.FromSeconds(30), $"{clock.Elapsed}");   // a runaway takes minutes
    }

    [Fact]
    public void A_list_that_is_kept_reads_back_the_same()
    {
        var first = Listed.Offers("supplier,N\npostage,4.95\nitem,description,breaks,pack,stock\nA,\"film 22nF 630V, 10%\",1:0.45 10:0.38,5,7\nB,100nF 275VAC X2,1:1.5,1,\nC,metal film 4.7k 1/2W 1%,1:0.03,10,\nD,ceramic Y1 4.7nF 500VAC,1:0.9,1,\nE,elko 47uF 450V 105°C,1:2,1,\n");
        Assert.Empty(first.Complaints);
        var again = Listed.Offers(first.Lists.Single().ToCsv());
        Assert.Empty(again.Complaints);
        Assert.Equal(first.Lists.Single().Terms, again.Lists.Single().Terms);
        foreach (var (a, b) in first.Lists.Single().Offers.Zip(again.Lists.Single().Offers))
        {
            Assert.Equal((a.Item, a.Part, a.Pack, a.Minimum, a.Stock), (b.Item, b.Part, b.Pack, b.Minimum, b.Stock));
            Assert.Equal(a.Prices, b.Prices);
        }
    }

    [Fact]
    public void A_workbook_is_read_as_a_text_is()
    {
        static System.Collections.Immutable.ImmutableArray<WrittenCell> Row(params string[] cells) => [.. cells.Select(c => WrittenCell.Of(c))];
        var sheet = new WrittenTable("prices", ["supplier", "North"], [Row("postage", "4,95"), Row("item", "description", "price"), Row("A", "film 22nF 630V", "0,45"), Row("B", "film 22nF", "0,45")]);
        var read = SupplierList.Parse(TableFiles.Read(new("list.xlsx", TableFiles.ToXlsx(sheet)), SupplierList.Understood).Tables.Single(), "shop");
        var list = read.Lists.Single();
        Assert.Equal(("North", 4.95m, 0.45m), (list.Name, list.Terms.Postage, list.Offers.Single().Prices[0].Price));
        Assert.Equal("list.xlsx, sheet prices, row 5, volts", Assert.Single(read.Complaints).Place);
    }

    [Fact]
    public void A_drawer_is_counted_and_bad_lines_are_refused()
    {
        var read = Listed.Drawer("Bezeichnung;Anzahl;Fach\nFolie 22nF 630V;7;A3\nFolie 47nF 630V;viele;A4\nMetallschicht 1M 0,6W 1%;12;B1\n");
        Assert.Contains("line 3", Assert.Single(read.Complaints).Place, StringComparison.Ordinal);
        var drawer = read.Lists.Single();
        Assert.Equal([(7, "A3"), (12, "B1")], drawer.Lines.Select(l => (l.Count, l.Where)));
        Assert.Equal((1e6, Unit.Ohm, (double?)0.6), (drawer.Lines[1].Part.Value, drawer.Lines[1].Part.Unit, drawer.Lines[1].Part.Watts));
        var kept = Listed.Drawer(drawer.ToCsv());
        Assert.Empty(kept.Complaints);
        Assert.Equal(drawer.Lines.Select(l => (l.Item, l.Part, l.Count, l.Where)), kept.Lists.Single().Lines.Select(l => (l.Item, l.Part, l.Count, l.Where)));
        Assert.Equal(4, drawer.Changed([(drawer.Lines[0], -3)]).Lines[0].Count);
        Assert.Equal(0, drawer.Changed([(drawer.Lines[0], -30)]).Lines[0].Count);
    }
}
