using System.Collections.Concurrent;
using Lugbook.Circuit.Valves;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Solve;
using Lugbook.Trade;

namespace Lugbook.Restoration.Tests;

/// <summary>Books solved with the laws of the data folder.</summary>
internal static class Solved
{
    private static readonly Lazy<ValveLibrary> LazyLaws = new(() =>
    {
        var folder = Path.Combine(AppContext.BaseDirectory, "data", "valves");
        string Text(string name) => File.ReadAllText(Path.Combine(folder, name));
        var points = Directory.EnumerateFiles(folder, "*-points.csv").Order(StringComparer.Ordinal).Where(f => Path.GetFileName(f) != "rectifier-points.csv").Select(File.ReadAllText);
        return ValveLibrary.Of(new ValveTexts([.. points], Text("tubes.csv"), Text("rectifier-points.csv"), Text("tube-spread.csv")) { Twins = Text("twins.csv") });
    });

    private static readonly ConcurrentDictionary<string, SolveResult> Demos = new(StringComparer.Ordinal);

    public static ValveLibrary Laws => LazyLaws.Value;
    public static NetlistResult Netlist(Book book) => NetlistStage.Run(MapStage.Run(book, DemoBooks.Handbook), DemoBooks.Handbook, Laws);
    public static SolveResult Of(Book book) => SolveStage.Run(Netlist(book));
    public static SolveResult Demo(string name) => Demos.GetOrAdd(name, n => Of(DemoBooks.Named(n)));

    /// <summary>Direct volts of a lug.</summary>
    public static double Volts(this SolveResult solved, string lug) => solved.Point!.Volts[solved.Netlist.Map.NodeOf(lug)!.Index];

    /// <summary>Rms volts of a lug, direct part included.</summary>
    public static double Rms(this SolveResult solved, string lug)
    {
        var node = solved.Cycle!.Nodes[solved.Netlist.Map.NodeOf(lug)!.Index];
        return Math.Sqrt(node.Average * node.Average + node.RippleRms * node.RippleRms);
    }
}
