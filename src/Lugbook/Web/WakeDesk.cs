using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Wake;
using Lugbook.Store.Shelves;

namespace Lugbook.Web;

/// <summary>A reading taken while a set wakes.</summary>
/// <param name="Step">Number of the step.</param>
/// <param name="Id">What was watched.</param>
/// <param name="Value">In its unit.</param>
/// <param name="At">When, UTC.</param>
public sealed record WakeReading(int Step, string Id, double Value, DateTimeOffset At);

/// <summary>Keeps the bench's equipment, and what was read while a set woke, as papers; every change is stored at once and can be taken back.</summary>
internal sealed class WakeDesk(IBenchPapers papers, TimeProvider clock)
{
    private const string EquipmentPaper = "wake-equipment";

    public event Action? Changed
    {
        add => papers.PapersChanged += value;
        remove => papers.PapersChanged -= value;
    }

    private static string PaperOf(string book) => $"wake/{book.ToUpperInvariant()}";

    /// <summary>What there is, and what was read in this book.</summary>
    public async Task<(WakeEquipment Equipment, ImmutableArray<WakeReading> Readings)> ReadAsync(string book, CancellationToken stop)
    {
        var kept = await papers.PapersAsync(stop);
        return (Equipment(kept[EquipmentPaper]), Readings(kept[PaperOf(book)]));
    }

    public Task KeepAsync(WakeEquipment equipment, CancellationToken stop) =>
        papers.EditPapersAsync(Bench.Who, "equipment to wake sets", p => p.SetItem(EquipmentPaper, Text(equipment)), stop);

    public Task NoteAsync(string book, int step, string id, double value, CancellationToken stop) =>
        papers.EditPapersAsync(Bench.Who, $"{book}: reading at step {step}", p =>
        {
            var kept = Readings(p.GetValueOrDefault(PaperOf(book))).RemoveAll(r => r.Step == step && r.Id == id);
            return p.SetItem(PaperOf(book), Text(kept.Add(new(step, id, value, clock.GetUtcNow()))));
        }, stop);

    public Task ForgetAsync(string book, CancellationToken stop) => papers.EditPapersAsync(Bench.Who, $"{book}: readings of the waking cleared", p => p.Remove(PaperOf(book)), stop);

    /// <summary>Reads what was kept; what cannot be read is left at its usual value.</summary>
    internal static WakeEquipment Equipment(string? text)
    {
        var usual = new WakeEquipment();
        foreach (var line in (text ?? "").Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            var cells = line.Split('\t');
            if (cells.Length != 2) continue;
            var numbers = cells[1].Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Number).ToArray();
            usual = cells[0] switch
            {
                "lamps" when numbers.All(n => n is >= 5 and <= 1000) => usual with { LampWatts = [.. numbers.OfType<double>().Distinct().Order()] },
                "variable" => usual with { VariableTransformer = cells[1] == "yes" },
                "isolation" => usual with { IsolationVoltAmperes = numbers is [{ } va] ? va : null },
                "samples" when numbers is [>= 8 and <= 500] => usual with { Samples = (int)numbers[0]!.Value },
                "bleeder" => usual with { BleederOhms = numbers is [{ } ohms] ? ohms : null },
                _ => usual,
            };
        }
        return usual;
    }

    internal static string Text(WakeEquipment e) =>
        $"lamps\t{string.Join(' ', e.LampWatts.Select(Said))}\nvariable\t{(e.VariableTransformer ? "yes" : "no")}\nisolation\t{Said(e.IsolationVoltAmperes)}\nbleeder\t{Said(e.BleederOhms)}\nsamples\t{e.Samples.ToString(CultureInfo.InvariantCulture)}\n";

    internal static ImmutableArray<WakeReading> Readings(string? text) =>
    [
        .. (text ?? "").Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => l.Split('\t')).Where(c => c.Length == 4)
            .Select(c => int.TryParse(c[0], CultureInfo.InvariantCulture, out var step) && Number(c[2]) is { } value && DateTimeOffset.TryParse(c[3], CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind, out var at)
                ? new WakeReading(step, c[1], value, at) : null).OfType<WakeReading>(),
    ];

    internal static string Text(ImmutableArray<WakeReading> readings) => string.Concat(readings.Select(r => $"{r.Step.ToString(CultureInfo.InvariantCulture)}\t{r.Id}\t{Said(r.Value)}\t{r.At.ToString("O", CultureInfo.InvariantCulture)}\n"));

    private static double? Number(string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var n) && double.IsFinite(n) ? n : null;
    private static string Said(double? value) => value?.ToString("R", CultureInfo.InvariantCulture) ?? "";
    private static string Said(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
