using Lugbook.Store.Sqlite;
using Lugbook.Trade;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Tests.Shelves;

/// <summary>Writes the shelf that each release leaves in fixtures/ for all later ones to open. How: docs/store.md.</summary>
internal static class ReleaseFixture
{
    /// <summary>The environment variable that makes this program write one: the new file.</summary>
    public const string FileVariable = "LUGBOOK_STORE_TESTS_FIXTURE";

    /// <summary>The set that is in it: something in every table.</summary>
    public static Book Book { get; } = new()
    {
        Name = "bench-radio",
        Facts = new() { Title = "Receiver of no make", Year = 1938, Story = "Hums. Ω µ 📻", LineVolts = 117, LineHertz = 60, CommonLug = "A-2", MegHabit = MegHabit.Thousand },
        Mounts = Table<Trade.Chassis.Mount>.Of([new() { Name = "A", KindAsWritten = "tag strip" }, new() { Name = "V1", KindAsWritten = "octal socket", Note = "loose" }]),
        Lugs = Table<Trade.Chassis.Lug>.Of([new() { Name = "A-1", Mount = "A", No = 1, X = 12.5, Y = -0.1 }, new() { Name = "A-2", Mount = "A", No = 2, Function = "foot" }, new() { Name = "V1-3", Mount = "V1", No = 3 }]),
        Wires = Table<Trade.Chassis.Wire>.Of([new() { Name = "W1", From = "A-1", To = "V1-3", KindAsWritten = "bare", Colour = "red" }]),
        Parts = Table<Trade.Parts.Part>.Of(
        [
            new() { Name = "C1", KindAsWritten = "electrolytic", Marked = "8 MFD 450V", Value = 8e-6, Unit = Unit.Farad, RatedVolts = 450, Tolerance = Tolerance.Between(0.1, 1), LeadA = "A-1", LeadB = "A-2", PlusLead = 'a' },
            new() { Name = "R1", KindAsWritten = "resistor", Value = 47e3, Unit = Unit.Ohm, RatedWatts = 0.5, Tolerance = Tolerance.Percent(20), LeadA = "A-1", LeadB = "V1-3", Extras = Extras.From([KeyValuePair.Create("Drawer", "B2"), KeyValuePair.Create("Seen", "")]) },
        ]),
        Declared = Table<Trade.Sheets.DeclaredVoltage>.Of([new() { Name = "A-1", Volts = 245.5, Why = "the sheet" }]),
        SheetReadings = Table<Trade.Sheets.SheetReading>.Of([new() { Name = "V1-3", Valve = "V1", Pin = "3", Volts = 98, Ohms = double.PositiveInfinity }, new() { Name = "V1-cap", Valve = "V1", Pin = "cap", IsAc = true, Volts = 6.3 }]),
        SheetParts = Table<Trade.Sheets.SheetPart>.Of([new() { Name = "R1", KindAsWritten = "resistor", Marked = "47M", Value = 47e3, Unit = Unit.Ohm, Tolerance = Tolerance.Percent(10) }]),
        Work = Table<Trade.Work.PositionWork>.Of([new() { Name = "C1", Decision = Trade.Work.Decision.Goes, Reason = "leaky", Replacement = "10u 450V", Done = true }]),
    };

    public static async Task<int> WriteAsync(string file)
    {
        var stop = CancellationToken.None;
        await using (var shelf = await SqliteShelf.OpenAsync(file + ".open", new SetClock(), stop))
        {
            await shelf.AddAsync(Book, "Ada", "begun", stop);
            await shelf.AddAsync(Book.Empty("empty-1", ""), "Ada", "begun", stop);
            foreach (var part in new[] { "R2", "R3", "R4" })
                await shelf.EditAsync(Book.Name, "Ada", $"{part} entered", Bench.Adds(Bench.Resistor(part)), stop);
            await shelf.UndoAsync(Book.Name, "Ben", stop);
            await shelf.EditAsync(Book.Name, "Ada", "turned round", TurnedRound, stop);
            await shelf.EditAsync(Book.Name, "Ada", "R2 gone", b => b with { Parts = b.Parts.Remove(b.Parts.Named("R2")!.Id) }, stop);
            await shelf.UndoAsync(Book.Name, "Ben", stop);
            await shelf.BackupAsync(file, stop);
        }
        File.Delete(file + ".open");
        return 0;
    }

    private static Book TurnedRound(Book book) => book with
    {
        Parts = Table<Trade.Parts.Part>.Of(book.Parts.Reverse()), Facts = book.Facts with { Year = 1939 },
    };
}
