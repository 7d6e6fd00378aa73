using System.Text;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Store.Exchange;

namespace Lugbook.Restoration.Tests.Order.Lists;

/// <summary>Short ways from text to lists, through the reader of files that the program uses.</summary>
internal static class Listed
{
    public static ListReading<SupplierList> Offers(string text, string name = "shop") =>
        SupplierList.Parse(TableFiles.Read(new("list.csv", Encoding.UTF8.GetBytes(text)), SupplierList.Understood).Tables.Single(), name);

    public static ListReading<Drawer> Drawer(string text) =>
        Restoration.Order.Lists.Drawer.Parse(TableFiles.Read(new("drawer.csv", Encoding.UTF8.GetBytes(text)), Restoration.Order.Lists.Drawer.Understood).Tables.Single());

    /// <summary>The only line of a list of two lines, header and offer.</summary>
    public static Offer One(string header, string line)
    {
        var read = Offers($"{header}\n{line}\n");
        Assert.Empty(read.Complaints);
        return read.Lists.Single().Offers.Single();
    }
}
