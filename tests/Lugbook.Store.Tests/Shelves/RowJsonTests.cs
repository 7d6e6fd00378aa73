using System.Text.Json;
using CsCheck;
using Lugbook.Store.History;
using Lugbook.Trade;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Sheets;
using Lugbook.Trade.Work;

namespace Lugbook.Store.Tests.Shelves;

/// <summary>Source: RFC 8259 for JSON itself; the shape of a body is ours, docs/decisions/0002-rows-as-json.md.</summary>
public class RowJsonTests
{
    [Fact]
    public void Every_row_comes_back_as_it_was() =>
        RandomBooks.Any.Sample(book => BookTables.All.All(table =>
            table.RowsOf(book).All(row => table.Read(row.Id, table.Write(row)).Equals(row)))
            && RowJson.Read<BookFacts>(RowJson.Write(book.Facts)).Equals(book.Facts), iter: 300);

    [Fact]
    public void Every_double_comes_back_to_the_bit() =>
        Gen.Double.Sample(d => BitConverter.DoubleToInt64Bits(RowJson.Read<double>(RowJson.Write(d))) == BitConverter.DoubleToInt64Bits(d)
            || double.IsNaN(d) && double.IsNaN(RowJson.Read<double>(RowJson.Write(d))));

    [Fact]
    public void A_body_says_what_is_known_and_nothing_else()
    {
        var part = new Part
        {
            Id = 7, Name = "C7", KindAsWritten = "paper", Value = 22e-9, Unit = Unit.Farad, Tolerance = Tolerance.Between(0.1, 1), PlusLead = 'a', Marked = "µ",
        };
        Assert.Equal(
            """{"kindAsWritten":"paper","marked":"µ","value":2.2E-08,"unit":"Farad","tolerance":{"minus":0.1,"plus":1},"plusLead":"a","name":"C7"}""",
            RowJson.Write(part));
        Assert.Contains("\"ohms\":\"Infinity\"", RowJson.Write(new SheetReading { Name = "V1-3", Valve = "V1", Pin = "3", Ohms = double.PositiveInfinity }));
    }

    [Fact]
    public void Members_of_a_newer_version_do_not_disturb_and_are_kept_when_the_row_is_written_again()
    {
        const string newer = """{"name":"C7","decision":"Goes","done":false,"photo":{"file":"a.jpg"},"torque":null,"reason":"leaky"}""";
        var row = RowJson.ReadRow<PositionWork>(7, newer);
        Assert.Equal(new PositionWork { Id = 7, Name = "C7", Decision = Decision.Goes, Reason = "leaky" }, row);
        var merged = RowJson.KeepUnknown(typeof(PositionWork), newer, RowJson.Write(row with { Reason = null, Done = true }));
        Assert.Equal("""{"decision":"Goes","done":true,"name":"C7","photo":{"file":"a.jpg"},"torque":null}""", merged);
    }

    [Theory]
    [InlineData("""{"name":"C7","decision":"Melted"}""")]                                   // a value of a newer version
    [InlineData("""{"decision":"Goes"}""")]                                                 // no name
    [InlineData("""null""")]
    [InlineData("""{"name":"C7","decision":"Goes" """)]
    public void A_body_that_cannot_be_understood_is_an_error_and_not_a_guess(string body) =>
        Assert.ThrowsAny<JsonException>(() => RowJson.ReadRow<PositionWork>(1, body));

    [Fact]
    public void An_impossible_tolerance_is_an_error() =>
        Assert.Throws<JsonException>(() => RowJson.Read<Part>("""{"name":"R1","kindAsWritten":"resistor","tolerance":{"minus":20,"plus":20}}"""));
}
