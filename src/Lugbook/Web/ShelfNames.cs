using System.Globalization;
using Lugbook.Output;
using Lugbook.Store.Shelves;

namespace Lugbook.Web;

/// <summary>Short names for new books.</summary>
internal static class ShelfNames
{
    /// <summary>A short name made from a title that no book on the shelf has.</summary>
    public static async Task<string> FreeAsync(IShelf shelf, string title, CancellationToken stop)
    {
        var taken = (await shelf.ListAsync(stop)).Select(c => c.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var wanted = Words.ShortName(title);
        var name = wanted;
        for (var i = 2; taken.Contains(name); i++) name = string.Create(CultureInfo.InvariantCulture, $"{wanted}-{i}");
        return name;
    }
}
