using System.CommandLine;
using Lugbook.Store.Reference;
using Lugbook.Web;

namespace Lugbook.Commands;

/// <summary>The data folder with the user's own valves, for a command.</summary>
internal static class DataInput
{
    public static Option<string?> Valves() => new("--valves") { Description = "A CSV file of your own handbook lines, or a folder of *-points.csv and *-pinouts.csv; docs/valves.md." };

    /// <summary>Loads; on trouble writes what is wrong and returns null.</summary>
    public static async Task<BenchData?> LoadAsync(string? ownValves, TextWriter error, CancellationToken stop)
    {
        try
        {
            return await BenchData.LoadAsync(BenchOptions.UsualDataFolder(), OwnValves.Find(ownValves), stop);
        }
        catch (Exception trouble) when (trouble is InvalidDataException or HandbookException)
        {
            await error.WriteLineAsync($"{trouble.Message}\n\nlugbook: the valve data could not be used; nothing was done.");
            return null;
        }
    }
}
