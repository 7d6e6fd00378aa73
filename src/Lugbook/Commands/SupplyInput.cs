using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Order;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Web;

namespace Lugbook.Commands;

/// <summary>Drawer and supplier lists named on the command line.</summary>
internal static class SupplyInput
{
    /// <summary>Reads them; bad lines are told and left out. Null when a file gave nothing at all.</summary>
    public static async Task<OrderSupply?> ReadAsync(string? drawer, IReadOnlyList<string> offers, Catalogue catalogue, TextWriter error, CancellationToken stop)
    {
        var supply = new OrderSupply { Catalogue = catalogue };
        if (drawer is not null)
        {
            var read = await ListFiles.DrawerAsync(drawer, stop);
            if (!await TellAsync(read, drawer, error)) return null;
            supply = supply with { Drawer = read.Lists[0] };
        }
        foreach (var file in offers)
        {
            var read = await ListFiles.OffersAsync(file, stop);
            if (!await TellAsync(read, file, error)) return null;
            supply = supply with { Suppliers = supply.Suppliers.AddRange(read.Lists) };
        }
        return supply;
    }

    private static async Task<bool> TellAsync<T>(ListReading<T> read, string file, TextWriter error)
    {
        foreach (var complaint in read.Complaints) await error.WriteLineAsync(complaint + "\n");
        foreach (var remark in read.Remarks) await error.WriteLineAsync($"Note: {remark}");
        if (read.Lists.IsEmpty)
        {
            await error.WriteLineAsync($"lugbook: nothing in '{file}' can be used; nothing was ordered.");
            return false;
        }
        if (!read.Complaints.IsEmpty) await error.WriteLineAsync($"Note: the other lines of '{file}' are used.");
        return true;
    }
}
