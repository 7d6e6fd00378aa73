using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Text;
using Lugbook.Output;
using Lugbook.Restoration.Order;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Store.Exchange;
using Lugbook.Store.Shelves;
using Lugbook.Trade.Text;

namespace Lugbook.Web;

/// <summary>A supplier's list as it is kept.</summary>
/// <param name="Paper">Name of the paper.</param>
/// <param name="List">The list.</param>
public sealed record KeptList(string Paper, SupplierList List);

/// <summary>What the bench has and buys from, parsed.</summary>
/// <param name="Drawer">The drawer.</param>
/// <param name="Lists">Suppliers' lists.</param>
/// <param name="OnOrder">What was ordered.</param>
/// <param name="Supplied">Places whose part came with an order that is put away.</param>
/// <param name="Wishes">Pins and bans.</param>
/// <param name="UndoWhat">What an undo would take back.</param>
public sealed record BenchSupply(Drawer Drawer, ImmutableArray<KeptList> Lists, OnOrder OnOrder, ImmutableArray<string> Supplied, Wishes Wishes, string? UndoWhat)
{
    /// <summary>Did, or does, the part of this place come with an order? Then the drawer was counted when the order was placed.</summary>
    public bool IsOrdered(string place) => Supplied.Contains(place, StringComparer.OrdinalIgnoreCase) || OnOrder.Lines.Any(l => l.Places.Contains(place, StringComparer.OrdinalIgnoreCase));

    /// <summary>Nothing was brought: the catalogue alone tells what to buy.</summary>
    public bool IsBare => Lists.IsEmpty && Drawer.Lines.IsEmpty;
}

/// <summary>The user's pins and bans, over all books.</summary>
/// <param name="Pins">Settled positions.</param>
/// <param name="Bans">Items that are not wanted.</param>
public sealed record Wishes(ImmutableArray<Pin> Pins, ImmutableArray<string> Bans)
{
    public static Wishes Parse(string? text)
    {
        var (pins, bans) = (ImmutableArray.CreateBuilder<Pin>(), ImmutableArray.CreateBuilder<string>());
        foreach (var line in (text ?? "").Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            var cells = line.Split('\t');
            if (cells is ["pin", var book, var position, var item]) pins.Add(new(book, position, item));
            else if (cells is ["ban", var banned]) bans.Add(banned);
        }
        return new(pins.ToImmutable(), bans.ToImmutable());
    }

    public Wishes Pinned(Pin pin, bool on)
    {
        var others = Pins.RemoveAll(p => p.Book == pin.Book && p.Position == pin.Position);
        return this with { Pins = on ? others.Add(pin) : others };
    }

    public Wishes Banned(string item, bool on) => this with { Bans = on ? Bans.Remove(item).Add(item) : Bans.Remove(item) };

    public override string ToString() => string.Concat(Pins.Select(p => $"pin\t{p.Book}\t{p.Position}\t{p.Item}\n")) + string.Concat(Bans.Select(b => $"ban\t{b}\n"));
}

/// <summary>Keeps drawer, lists and orders of the bench as papers in the store; every change is stored at once and can be taken back.</summary>
internal sealed class SupplyDesk(IBenchPapers papers)
{
    private const string DrawerPaper = "drawer", OrderPaper = "on-order", SuppliedPaper = "supplied", WishesPaper = "wishes", ListPrefix = "list/";
    private readonly ConcurrentDictionary<string, (string Text, KeptList List)> _parsed = new(StringComparer.Ordinal);
    private (string? Text, Drawer Drawer) _drawer = (null, Drawer.Empty);

    /// <summary>The last plan of each book, for the files that are saved from it.</summary>
    public ConcurrentDictionary<string, OrderPlan> Plans { get; } = new(StringComparer.OrdinalIgnoreCase);

    public event Action? Changed
    {
        add => papers.PapersChanged += value;
        remove => papers.PapersChanged -= value;
    }

    public async Task<BenchSupply> ReadAsync(CancellationToken stop) => Parsed(await papers.PapersAsync(stop));

    /// <summary>Keeps the lists of a file; a list of the same supplier takes the place of the one before.</summary>
    public async Task<ListReading<SupplierList>> BringOffersAsync(NamedBytes file, CancellationToken stop)
    {
        var read = ListFiles.Offers(file);
        if (!read.Lists.IsEmpty)
            await EditAsync($"list of {Words.And([.. read.Lists.Select(l => l.Name).Distinct()])} brought", p => p.SetItems(read.Lists.Select(l => KeyValuePair.Create(ListPrefix + l.Name, l.ToCsv()))), stop);
        return read;
    }

    public async Task<ListReading<Drawer>> BringDrawerAsync(NamedBytes file, CancellationToken stop)
    {
        var read = ListFiles.DrawerOf(file);
        if (!read.Lists.IsEmpty) await EditAsync("drawer brought", p => p.SetItem(DrawerPaper, read.Lists[0].ToCsv()), stop);
        return read;
    }

    public Task RemoveAsync(KeptList list, CancellationToken stop) => EditAsync($"list of {list.List.Name} taken away", p => p.Remove(list.Paper), stop);

    public Task TermsAsync(KeptList list, SupplierTerms terms, CancellationToken stop) =>
        EditAsync($"terms of {list.List.Name}", p => p.ContainsKey(list.Paper) ? p.SetItem(list.Paper, (list.List with { Terms = terms }).ToCsv()) : p, stop);

    public Task WishAsync(string what, Func<Wishes, Wishes> wish, CancellationToken stop) => EditAsync(what, p => p.SetItem(WishesPaper, wish(Wishes.Parse(p.GetValueOrDefault(WishesPaper))).ToString()), stop);

    /// <summary>The plan was ordered: it waits to be received, and the drawer gives what the plan takes from it.</summary>
    public Task PlaceAsync(OrderPlan plan, CancellationToken stop) => EditAsync("order placed", p =>
    {
        var drawer = DrawerIn(p);
        var takes = plan.FromDrawer.Select(l => (Line: drawer.Lines.FirstOrDefault(d => string.Equals(d.Item, l.Item, StringComparison.OrdinalIgnoreCase) && d.Where == l.Where), By: -l.Count)).Where(t => t.Line is not null).Select(t => (t.Line!, t.By));
        var after = p.SetItem(OrderPaper, OnOrder.Parse(p.GetValueOrDefault(OrderPaper)).With(plan).ToCsv());
        return plan.FromDrawer.IsEmpty ? after : after.SetItem(DrawerPaper, drawer.Changed(takes).ToCsv());
    }, stop);

    public Task ReceiveAsync(OrderedLine line, int received, CancellationToken stop) => EditAsync($"{received.ToString(System.Globalization.CultureInfo.InvariantCulture)} of {line.Item} came", p =>
    {
        var order = OnOrder.Parse(p.GetValueOrDefault(OrderPaper));
        // Found by what it is: another device may have put lines away meanwhile.
        var at = order.Lines.ToList().FindIndex(l => l.Supplier == line.Supplier && l.Item == line.Item && l.Count == line.Count && l.Places.SequenceEqual(line.Places));
        return at < 0 ? p : Kept(p, order.Receive(at, received, DrawerIn(p)));
    }, stop);

    /// <summary>Takes over a list that was filled in.</summary>
    public async Task<(ImmutableArray<Complaint> Complaints, int Taken)> FillAsync(NamedBytes file, CancellationToken stop)
    {
        var read = TableFiles.Read(file, SupplierList.Understood);
        var (complaints, taken) = (read.Complaints, 0);
        if (read.Tables.IsEmpty) return (complaints, 0);
        await EditAsync($"{file.Name} filled in", p =>
        {
            var (order, drawer, refused, count) = OnOrder.Parse(p.GetValueOrDefault(OrderPaper)).Fill(read.Tables[0], DrawerIn(p));
            (complaints, taken) = ([.. read.Complaints, .. refused], count);
            return count == 0 ? p : Kept(p, (order, drawer));
        }, stop);
        return (complaints, taken);
    }

    /// <summary>Complete lines leave the list; which places they were for stays known, so that no part is counted twice.</summary>
    public Task TidyAsync(CancellationToken stop) => EditAsync("complete lines put away", p =>
    {
        var order = OnOrder.Parse(p.GetValueOrDefault(OrderPaper));
        var places = Places(p).Union(order.Lines.Where(l => l.IsComplete).SelectMany(l => l.Places), StringComparer.OrdinalIgnoreCase);
        return p.SetItem(OrderPaper, order.Tidied().ToCsv()).SetItem(SuppliedPaper, string.Join('\n', places));
    }, stop);

    /// <summary>The exchange at a place is done with a piece of the drawer.</summary>
    public Task FitAsync(string place, DrawerLine line, CancellationToken stop) => EditAsync($"{line.Part.Text} fitted at {place}", p => WithDrawer(p, DrawerIn(p).Fit(place, line)), stop);

    /// <summary>The exchange at a place is done with a part from elsewhere.</summary>
    public Task ForgetAsync(string place, CancellationToken stop) => EditAsync($"{place} not from the drawer", p => WithDrawer(p, DrawerIn(p).Forget(place)), stop);

    /// <summary>After an edit, undo or redo in a book: pieces of exchanges that are taken back lie in the drawer again.</summary>
    public Task KeepStepAsync(Lugbook.Trade.Book book, CancellationToken stop) => EditAsync($"drawer in step with {book.Name}", p => WithDrawer(p, DrawerIn(p).InStep(place =>
        place.Split('/', 2) is [var name, var position] && string.Equals(name, book.Name, StringComparison.OrdinalIgnoreCase) ? book.Work.Named(position)?.Done ?? false : null)), stop);

    private ImmutableDictionary<string, string> WithDrawer(ImmutableDictionary<string, string> p, Drawer now) => now == DrawerIn(p) ? p : p.SetItem(DrawerPaper, now.ToCsv());

    private static string[] Places(ImmutableDictionary<string, string> p) => (p.GetValueOrDefault(SuppliedPaper) ?? "").Split('\n', StringSplitOptions.RemoveEmptyEntries);

    public async Task UndoAsync(CancellationToken stop) => await papers.UndoPapersAsync(stop);

    private async Task EditAsync(string what, Func<ImmutableDictionary<string, string>, ImmutableDictionary<string, string>> edit, CancellationToken stop) => await papers.EditPapersAsync(Bench.Who, what, edit, stop);

    private ImmutableDictionary<string, string> Kept(ImmutableDictionary<string, string> p, (OnOrder Order, Drawer Drawer) now) =>
        (now.Drawer == DrawerIn(p) ? p : p.SetItem(DrawerPaper, now.Drawer.ToCsv())).SetItem(OrderPaper, now.Order.ToCsv());

    private BenchSupply Parsed(BenchPapers kept) => new(
        DrawerIn(kept.Papers),
        [.. kept.Papers.Where(p => p.Key.StartsWith(ListPrefix, StringComparison.Ordinal)).OrderBy(p => p.Key, StringComparer.Ordinal).Select(p => ListIn(p.Key, p.Value)).OfType<KeptList>()],
        OnOrder.Parse(kept[OrderPaper]), [.. Places(kept.Papers)], Wishes.Parse(kept[WishesPaper]), kept.UndoWhat);

    private Drawer DrawerIn(ImmutableDictionary<string, string> p)
    {
        if (p.GetValueOrDefault(DrawerPaper) is not { } text) return Drawer.Empty;
        var known = _drawer;
        if (known.Text == text) return known.Drawer;
        var read = ListFiles.DrawerOf(new("drawer.csv", Encoding.UTF8.GetBytes(text)));
        _drawer = (text, read.Lists.IsEmpty ? Drawer.Empty : read.Lists[0]);
        return _drawer.Drawer;
    }

    private KeptList? ListIn(string paper, string text)
    {
        if (_parsed.TryGetValue(paper, out var known) && known.Text == text) return known.List;
        var read = ListFiles.Offers(new(paper[ListPrefix.Length..] + ".csv", Encoding.UTF8.GetBytes(text)));
        if (read.Lists.IsEmpty) return null;
        var list = new KeptList(paper, read.Lists[0]);
        _parsed[paper] = (text, list);
        return list;
    }
}
