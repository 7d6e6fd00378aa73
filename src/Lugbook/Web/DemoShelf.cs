using Lugbook.Store.Reference;
using Lugbook.Store.Shelves;

namespace Lugbook.Web;

/// <summary>Puts the invented demo books on a shelf.</summary>
internal static class DemoShelf
{
    /// <summary>Adds each demo book whose name is free.</summary>
    /// <returns>Names of those added.</returns>
    public static async Task<IReadOnlyList<string>> FillAsync(IShelf shelf, BenchData data, CancellationToken stop)
    {
        var taken = (await shelf.ListAsync(stop)).Select(c => c.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var added = new List<string>();
        foreach (var read in await DemoBooks.ReadAllAsync(data.Folder, stop))
        {
            if (read.Book is not { } book || taken.Contains(book.Name)) continue;
            await shelf.AddAsync(book, Bench.Who, "demo book", stop);
            added.Add(book.Name);
        }
        return added;
    }
}
