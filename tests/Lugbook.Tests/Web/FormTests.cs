using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Readings;
using Lugbook.Web;

namespace Lugbook.Tests.Web;

/// <summary>Forms of the bench: what is typed becomes rows, or is asked back.</summary>
public class FormTests
{
    /// <summary>A form filled from a meter and read again gives the meter's rows.</summary>
    [Fact]
    public void A_meter_passes_through_its_form_unchanged()
    {
        foreach (var meter in MeterShelf.All)
        {
            var lines = OwnMeter.Copy(meter, "mine");
            var (read, complaints) = MeterForm.Of(lines).Read([]);
            Assert.Equal("", string.Join("\n", complaints));
            Assert.Equal(lines.OrderBy(l => l.Function).ThenBy(l => l.Top), read);
        }
    }

    [Fact]
    public void A_meter_with_a_taken_name_or_a_figure_that_is_none_is_refused()
    {
        var form = MeterForm.Of(OwnMeter.Copy(MeterShelf.All[0], "digital-10M"));
        form.Groups[0].ReadingPercent = "half";
        var (lines, complaints) = form.Read(MeterShelf.All.Select(m => m.Name));
        Assert.Empty(lines);
        Assert.Contains(complaints, c => c.Problem.Contains("another meter", StringComparison.Ordinal));
        Assert.Contains(complaints, c => c.Text == "half" && c.Remedy.Length > 0);
    }

    [Fact]
    public void Decimal_commas_and_units_of_ranges_are_read()
    {
        var form = new MeterForm { Name = "mine" };
        form.Groups.Add(new() { Function = MeterFunction.Farads, Ranges = "20 nF; 200nF, 2 µF", ReadingPercent = "2,5" });
        Assert.Equal([(20e-9, 2.5), (200e-9, 2.5), (2e-6, 2.5)], form.Read([]).Lines.Select(l => (l.Top, l.ReadingPercent!.Value)));
    }

    /// <summary>Readings follow a meter that is renamed, and the bench too.</summary>
    [Fact]
    public void A_renamed_meter_keeps_its_readings()
    {
        var book = Book.Empty("b", "B") with
        {
            Facts = new() { Title = "B", Meter = "old" }, Meters = Table<MeterLine>.Of(OwnMeter.Copy(MeterShelf.All[0], "old")),
            Readings = Table<Reading>.Of([new() { Name = "R1", Kind = ReadingKind.Ohms, Value = 1, Meter = "OLD" }]),
        };
        var renamed = BookEdits.KeepMeter(book, "old", OwnMeter.Copy(MeterShelf.All[1], "new"));
        Assert.Equal(("new", "new", 1), (renamed.Facts.Meter, renamed.Readings[0].Meter, BookMeters.Own(renamed).Count()));
        Assert.Equal((null, 0), (BookEdits.KeepMeter(renamed, "new", []).Facts.Meter, BookEdits.KeepMeter(renamed, "new", []).Meters.Count));
    }

    [Theory]
    [InlineData(ReadingKind.Insulation, "5", "as good as a short")]
    [InlineData(ReadingKind.Leakage, "5", "mA or µA")]
    [InlineData(ReadingKind.Farads, "3000µF", "at most")]
    public void What_can_hardly_be_meant_is_asked_back_once(ReadingKind kind, string text, string asked)
    {
        Part part = new() { Name = "C1", KindAsWritten = "paper", Value = 20e-9, Unit = Unit.Farad };
        var outcome = ReadingForm.Read(part, kind, text, false, null, MeterShelf.All[0], null, DateTimeOffset.UnixEpoch);
        Assert.True(outcome is { IsDoubtful: true, Reading: not null });
        Assert.Contains(asked, outcome.Trouble!, StringComparison.Ordinal);
    }

    [Fact]
    public void A_valve_form_gives_the_rows_that_it_was_filled_from()
    {
        var form = ValveForm.Of(Book.Empty("b", "B"), "9XC7");
        (form.Class, form.Pinout, form.HeaterVolts) = ("twin-triode", "2=p1;3=g1;4=g2;5=p2;6=k;7=h;8=h", "6,3");
        (form.Lines[0].Figures[0], form.Lines[0].Figures[2], form.Lines[0].Figures[4]) = ("250", "−2", "2,0");
        var (valve, lines, complaints) = form.Read(Book.Empty("b", "B"));
        Assert.Equal("", string.Join("\n", complaints));
        Assert.Equal((6.3, 250.0, -2.0, 2.0), (valve!.HeaterVolts, lines[0].PlateVolts, lines[0].GridVolts, lines[0].PlateMilliamperes));
        var book = BookEdits.KeepValve(Book.Empty("b", "B"), "9XC7", valve, lines);
        Assert.Equal("-2", ValveForm.Of(book, "9xc7").Lines[0].Figures[2]);
        form.Pinout = "2=zz";
        Assert.Contains(form.Read(book).Complaints, c => c is { Place: "Pins" });
    }
}
