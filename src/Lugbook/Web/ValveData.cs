using Lugbook.Circuit.Valves;

namespace Lugbook.Web;

/// <summary>Loads the handbook lines that valve laws are fitted to.</summary>
internal static class ValveData
{
    /// <summary>Reads data/valves: every *-points.csv of characteristic lines (the user's own too), types, rectifiers, spread.</summary>
    public static async Task<ValveLibrary> LoadAsync(string dataFolder, CancellationToken stop)
    {
        var folder = Path.Combine(dataFolder, "valves");
        Task<string> Text(string name) => File.ReadAllTextAsync(Path.Combine(folder, name), stop);
        var points = new List<string>();
        foreach (var file in Directory.EnumerateFiles(folder, "*-points.csv").Order(StringComparer.Ordinal))
            if (Path.GetFileName(file) != "rectifier-points.csv") points.Add(await File.ReadAllTextAsync(file, stop));
        return ValveLibrary.Of(new ValveTexts([.. points], await Text("tubes.csv"), await Text("rectifier-points.csv"), await Text("tube-spread.csv")) { Twins = await Text("twins.csv") });
    }
}
