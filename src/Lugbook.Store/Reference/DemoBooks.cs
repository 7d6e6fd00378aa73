using System.Collections.Immutable;
using Lugbook.Store.Exchange;

namespace Lugbook.Store.Reference;

/// <summary>The invented sets that come with Lugbook, for trying everything out.</summary>
public static class DemoBooks
{
    /// <summary>Reads every set under data/demo.</summary>
    /// <param name="dataFolder">The folder "data".</param>
    /// <param name="stop">Cancels.</param>
    /// <returns>A result for each folder there, by the folders' names; one with a complaint when there is none.</returns>
    public static async Task<ImmutableArray<ImportResult>> ReadAllAsync(string dataFolder, CancellationToken stop)
    {
        var demo = Path.Combine(dataFolder, "demo");
        var results = ImmutableArray.CreateBuilder<ImportResult>();
        try
        {
            foreach (var folder in Directory.EnumerateDirectories(demo).Order(StringComparer.Ordinal)) results.Add(await BookFiles.ReadAsync(folder, stop));
        }
        catch (Exception e) when (BookFiles.IsDisk(e))
        {
            return [ImportResult.Failed(BookFiles.Disk(demo, e))];
        }
        return results.Count > 0 ? results.ToImmutable() : [ImportResult.Failed(new Trade.Text.Complaint(demo, "", 0, "there is no demo set in this folder.", "Restore data/demo from the repository."))];
    }
}
