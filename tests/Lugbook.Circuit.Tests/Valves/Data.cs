using Lugbook.Circuit.Valves;

namespace Lugbook.Circuit.Tests.Valves;

/// <summary>The library of data/valves, read once.</summary>
internal static class Data
{
    private static readonly Lazy<ValveLibrary> Read = new(() => ValveLibrary.Of(new ValveTexts([Text("tube-points.csv"), Text("more-points.csv")], Text("tubes.csv"), Text("rectifier-points.csv"), Text("tube-spread.csv")) { Twins = Text("twins.csv") }));
    private static readonly Lazy<System.Collections.Immutable.ImmutableArray<ValveAccuracy.Row>> Measured = new(() => ValveAccuracy.Table(Library));

    public static ValveLibrary Library => Read.Value;
    public static System.Collections.Immutable.ImmutableArray<ValveAccuracy.Row> Accuracy => Measured.Value;
    public static string Text(string file) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "data", "valves", file));
}
