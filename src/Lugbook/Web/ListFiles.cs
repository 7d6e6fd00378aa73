using System.Collections.Immutable;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Store.Exchange;
using Lugbook.Trade.Text;

namespace Lugbook.Web;

/// <summary>Files and what is kept of them, as lists of parts.</summary>
internal static class ListFiles
{
    public static async Task<ListReading<SupplierList>> OffersAsync(string path, CancellationToken stop) =>
        Parse(await TableFiles.ReadAsync(path, SupplierList.Understood, stop), t => SupplierList.Parse(t, Path.GetFileNameWithoutExtension(path)));

    public static async Task<ListReading<Drawer>> DrawerAsync(string path, CancellationToken stop) => One(Parse(await TableFiles.ReadAsync(path, Drawer.Understood, stop), Drawer.Parse));

    public static ListReading<SupplierList> Offers(NamedBytes file) =>
        Parse(TableFiles.Read(file, SupplierList.Understood), t => SupplierList.Parse(t, Path.GetFileNameWithoutExtension(file.Name)));

    public static ListReading<Drawer> DrawerOf(NamedBytes file) => One(Parse(TableFiles.Read(file, Drawer.Understood), Drawer.Parse));

    private static ListReading<T> Parse<T>(LooseReading read, Func<LooseTable, ListReading<T>> parse)
    {
        var each = read.Tables.Select(parse).ToArray();
        // A workbook often has sheets that are no lists: they matter only when none is one.
        var good = each.Where(e => !e.Lists.IsEmpty).ToArray();
        var told = good.Length > 0 ? good : each;
        return new([.. good.SelectMany(e => e.Lists)], [.. read.Complaints, .. told.SelectMany(e => e.Complaints)], [.. read.Remarks, .. told.SelectMany(e => e.Remarks)]);
    }

    private static ListReading<Drawer> One(ListReading<Drawer> read) => read.Lists.Length < 2 ? read : read with { Lists = [new(read.Lists.SelectMany(l => l.Lines).ToImmutableArray())] };
}
