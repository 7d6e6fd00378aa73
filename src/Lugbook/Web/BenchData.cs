using Lugbook.Circuit.Valves;
using Lugbook.Restoration.Bounds;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Judge;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Sheet;
using Lugbook.Restoration.Solve;
using Lugbook.Store.Reference;
using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Text;
using Lugbook.Trade.Valves;

namespace Lugbook.Web;

/// <summary>What the answers need besides the book: handbook lines, the catalogue, limits. Loaded once at the edge.</summary>
/// <param name="Folder">Where it came from.</param>
/// <param name="Handbook">Valve types.</param>
/// <param name="Laws">Valve laws, fitted when first asked for.</param>
/// <param name="Policy">Catalogue and limits that parts are chosen by.</param>
internal sealed record BenchData(string Folder, ValveHandbook Handbook, ValveLibrary Laws, ChoosePolicy Policy)
{
    /// <summary>Reads the data folder and the user's own valves.</summary>
    /// <exception cref="HandbookException">The valve data cannot be read; every complaint is in it.</exception>
    /// <exception cref="InvalidDataException">The catalogue or a line of the user's own valves cannot be read.</exception>
    public static async Task<BenchData> LoadAsync(string folder, OwnValves own, CancellationToken stop)
    {
        var valves = Path.Combine(folder, "valves");
        var handbook = await HandbookFiles.ReadAsync(valves, own.Pinouts, stop);
        var series = new List<CatalogueSeries>();
        foreach (var file in Directory.EnumerateFiles(Path.Combine(folder, "catalogue"), "*.csv").Order(StringComparer.Ordinal))
        {
            var read = Catalogue.Parse(await File.ReadAllTextAsync(file, stop), Path.GetFileName(file));
            if (!read.Complaints.IsEmpty) throw new InvalidDataException(string.Join('\n', read.Complaints));
            series.AddRange(read.Series);
        }
        var cans = NewCan.Parse(await File.ReadAllTextAsync(Path.Combine(folder, "catalogue", "cans", "cans.csv"), stop));
        var limits = RectifierLimit.Parse(await File.ReadAllTextAsync(Path.Combine(valves, "rectifier-points.csv"), stop));
        return new(folder, handbook, await ValveData.LoadAsync(folder, own, stop), new ChoosePolicy { Catalogue = new([.. series], []), RectifierLimits = limits, Cans = cans });
    }

    /// <summary>What of the book's own valves cannot be used; empty when all can, or it has none.</summary>
    public System.Collections.Immutable.ImmutableArray<Complaint> Faults { get; init; } = [];

    /// <summary>The same with the valve types and lines that a book carries: its pins come first, its lines are added.</summary>
    public BenchData For(Book book)
    {
        if (!BookValves.Any(book)) return this;
        var (types, complaints) = BookValves.Types(book);
        var laws = Laws.With(BookValves.LinesText(book.ValveLines), BookValves.TypesText(book));
        return this with
        {
            Handbook = new([.. types, .. Handbook.Types]), Laws = laws,
            Faults = [.. complaints, .. laws.Faults.Select(f => new Complaint($"{(f.Line - 2 is >= 0 and var n && n < book.ValveLines.Count ? $"valve line {n + 1}, {book.ValveLines[n].Name}" : "valve lines")}{(f.Column.Length > 0 ? $", {f.Column}" : "")}", f.Text, 0, f.Problem, f.Remedy))],
        };
    }

    /// <summary>The set as it should be, solved.</summary>
    public SolveResult Solve(MapResult map) => SolveStage.Run(NetlistStage.Run(map, Handbook, Laws));

    /// <summary>What verdicts rest on.</summary>
    public static JudgeBasis Basis(SolveResult solved, BoundsResult bounds, Book book, Lazy<SheetResult> sheet) => new(solved, bounds, BookMeters.AtBench(book).OhmsTestVolts, sheet);

    /// <summary>What every pin should read.</summary>
    public SheetResult Sheet(SolveResult solved, Book book) => SheetStage.Run(solved, SheetConditions.Of(book, Handbook));

    /// <summary>May each part stay?</summary>
    public static JudgeResult Judge(Book book, JudgeBasis basis) => JudgeStage.Run(book, basis, FamilyPolicy.Read(book.Facts.Policy).Policy, BookMeters.AtBench(book));

    /// <summary>Chooses by the solved circuit; what was measured or laid down as policy decides first. Solving takes from a fraction of a second to some seconds.</summary>
    public ChooseResult Choose(MapResult map) => ChooseSolved(map).Choices;

    /// <summary>The same, with the solved set that it rests on.</summary>
    public (ChooseResult Choices, SolveResult Solved) ChooseSolved(MapResult map)
    {
        var solved = Solve(map);
        var bounds = BoundsStage.Run(solved);
        var sheet = SheetStage.Run(solved, SheetConditions.Of(map.Book, Handbook) with { Samples = 100 });
        return (Choose(map, new(solved, sheet, bounds), new(() => Judge(map.Book, Basis(solved, bounds, map.Book, new(sheet))))), solved);
    }

    /// <summary>Chooses by a circuit that is solved already. Verdicts are asked for only where something was measured or laid down.</summary>
    public ChooseResult Choose(MapResult map, ChooseBasis basis, Lazy<JudgeResult> judged) => ChooseStage.Run(map, Judges(map.Book) ? Policy with { Judged = judged.Value } : Policy, basis);

    /// <summary>Chooses by wiring, markings and practice alone, at once.</summary>
    public ChooseResult FirstPass(MapResult map) => ChooseStage.Run(map, Policy);

    // Without a reading and without a policy of its own the families decide as they do for every book.
    private static bool Judges(Book book) => book.Readings.Count > 0 || book.Facts.Policy is not null;
}
