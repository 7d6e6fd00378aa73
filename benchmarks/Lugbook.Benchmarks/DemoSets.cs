using Lugbook.Circuit;
using Lugbook.Circuit.Valves;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Solve;
using Lugbook.Store.Exchange;
using Lugbook.Store.Reference;

namespace Lugbook.Benchmarks;

/// <summary>The demo books as networks for direct current.</summary>
internal static class DemoSets
{
    /// <summary>A demo book, mapped and solved as it should be.</summary>
    /// <exception cref="InvalidOperationException">The book cannot be read or solved; the message says why.</exception>
    public static Network Network(string book)
    {
        var data = Path.Combine(AppContext.BaseDirectory, "data");
        var valves = Path.Combine(data, "valves");
        var handbook = HandbookFiles.ReadAsync(valves, CancellationToken.None).GetAwaiter().GetResult();
        string Text(string name) => File.ReadAllText(Path.Combine(valves, name));
        var points = Directory.EnumerateFiles(valves, "*-points.csv").Order(StringComparer.Ordinal).Where(f => Path.GetFileName(f) != "rectifier-points.csv").Select(File.ReadAllText);
        var library = ValveLibrary.Of(new ValveTexts([.. points], Text("tubes.csv"), Text("rectifier-points.csv"), Text("tube-spread.csv")) { Twins = Text("twins.csv") });
        var read = BookFiles.ReadAsync(Path.Combine(data, "demo", book), CancellationToken.None).GetAwaiter().GetResult();
        if (read.Book is null) throw new InvalidOperationException(string.Join('\n', read.Complaints));
        var solved = SolveStage.Run(NetlistStage.Run(MapStage.Run(read.Book, handbook), handbook, library));
        return solved.Direct ?? throw new InvalidOperationException(solved.Reason);
    }
}
