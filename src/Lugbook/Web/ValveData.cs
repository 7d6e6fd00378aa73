using Lugbook.Circuit.Valves;

namespace Lugbook.Web;

/// <summary>Loads the handbook lines that valve laws are fitted to.</summary>
internal static class ValveData
{
    /// <summary>Reads data/valves (every *-points.csv of characteristic lines, types, rectifiers, spread) and adds the user's own lines.</summary>
    /// <exception cref="InvalidDataException">A line of the user's own cannot be read.</exception>
    public static async Task<ValveLibrary> LoadAsync(string dataFolder, OwnValves own, CancellationToken stop)
    {
        var folder = Path.Combine(dataFolder, "valves");
        Task<string> Text(string name) => File.ReadAllTextAsync(Path.Combine(folder, name), stop);
        var points = new List<string>();
        // The main file first: the order of lines is the order in which every report shows them.
        foreach (var file in Directory.EnumerateFiles(folder, "*-points.csv").OrderBy(f => Path.GetFileName(f) != "tube-points.csv").ThenBy(f => f, StringComparer.Ordinal))
            if (Path.GetFileName(file) != "rectifier-points.csv") points.Add(await File.ReadAllTextAsync(file, stop));
        points.AddRange(await own.ReadPointsAsync(stop));
        return ValveLibrary.Of(new ValveTexts([.. points], await Text("tubes.csv"), await Text("rectifier-points.csv"), await Text("tube-spread.csv")) { Twins = await Text("twins.csv") });
    }
}
