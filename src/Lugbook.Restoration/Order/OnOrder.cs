using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Trade.Text;

namespace Lugbook.Restoration.Order;

/// <summary>A line that was ordered, or taken from the drawer, and how much of it came.</summary>
public sealed record OrderedLine
{
    /// <summary>The supplier; null: the drawer.</summary>
    public string? Supplier { get; init; }
    /// <summary>The item's number or text.</summary>
    public required string Item { get; init; }
    /// <summary>What it is.</summary>
    public required ChosenPart Part { get; init; }
    /// <summary>Ordered.</summary>
    public required int Count { get; init; }
    /// <summary>Fitted; the rest is spare.</summary>
    public required int Needed { get; init; }
    /// <summary>Came so far.</summary>
    public int Received { get; init; }
    /// <summary>Where they go: "radio/C5".</summary>
    public required ImmutableArray<string> Places { get; init; }
    /// <summary>Is all of it there?</summary>
    public bool IsComplete => Received >= Count;
    /// <summary>Pieces that came beyond what is fitted: they go into the drawer.</summary>
    public int Spare => Math.Max(0, Received - Needed);
}

/// <summary>What is on order, over all books. Kept as text of the bench; every change is a new one.</summary>
/// <param name="Lines">In the order of the plans.</param>
public sealed record OnOrder(ImmutableArray<OrderedLine> Lines)
{
    /// <summary>Nothing.</summary>
    public static OnOrder Empty { get; } = new([]);

    /// <summary>This and a plan. What comes from the drawer counts as received.</summary>
    public OnOrder With(OrderPlan plan) => new(
    [
        .. Lines, .. plan.Lines.Select(l => new OrderedLine
        {
            Supplier = l.Supplier, Item = l.Item, Part = l.Part, Count = l.Count, Needed = l.Needed, Received = l.Supplier is null ? l.Count : 0,
            Places = [.. l.Positions.Select(p => $"{p.Book}/{p.Position}")],
        }),
    ]);

    /// <summary>A line's count of what came is so many; the drawer gains or loses the spares by which that changes.</summary>
    /// <param name="at">Index of the line.</param>
    /// <param name="received">0 or more; more than was ordered may come.</param>
    /// <param name="drawer">The drawer before; the one after is given back.</param>
    public (OnOrder Order, Drawer Drawer) Receive(int at, int received, Drawer drawer)
    {
        ArgumentNullException.ThrowIfNull(drawer);
        var before = Lines[at];
        if (before.Supplier is null) return (this, drawer);
        var after = before with { Received = Math.Clamp(received, 0, ListLimits.Pieces) };
        var by = after.Spare - before.Spare;
        var line = drawer.Lines.FirstOrDefault(l => l.Part.Text == after.Part.Text) ?? new DrawerLine { Item = after.Part.Text, Part = after.Part, Count = 0 };
        return (new(Lines.SetItem(at, after)), by == 0 ? drawer : drawer.Changed([(line, by)]));
    }

    /// <summary>Takes over the counts of a list that was filled in, by supplier and item. Lines that are not on order are refused by name.</summary>
    public (OnOrder Order, Drawer Drawer, ImmutableArray<Complaint> Complaints, int Taken) Fill(LooseTable table, Drawer drawer)
    {
        ArgumentNullException.ThrowIfNull(table);
        var (order, kept, taken) = (this, drawer, 0);
        var complaints = ImmutableArray.CreateBuilder<Complaint>();
        var header = table.Rows.Take(25).ToList().FindIndex(r => At(r, "item") >= 0 && At(r, "received") >= 0);
        if (header < 0) return (this, drawer, [new(table.Place, "", 0, "no header with the columns item and received was found", "Save the order as CSV or XLSX, fill in the column received, and bring it back.")], 0);
        var (item, received, supplier) = (At(table.Rows[header], "item"), At(table.Rows[header], "received"), At(table.Rows[header], "supplier"));
        foreach (var row in table.Rows.Skip(header + 1))
        {
            if (row[received] is not { } text) continue;
            var place = string.Create(CultureInfo.InvariantCulture, $"{table.Place}, {table.LineWord} {row.Line}");
            if (string.Equals(row[supplier], "drawer", StringComparison.OrdinalIgnoreCase)) continue;
            var at = order.Lines.Select((l, i) => (l, i)).Where(x => x.l.Supplier is not null && string.Equals(x.l.Item, row[item]?.TrimStart('\''), StringComparison.OrdinalIgnoreCase)
                && (supplier < 0 || row[supplier] is null || string.Equals(x.l.Supplier, row[supplier], StringComparison.OrdinalIgnoreCase))).Select(x => x.i).ToArray();
            if (at.Length != 1) complaints.Add(new(place, row[item] ?? "", 0, at.Length == 0 ? "this is not on order" : "this is on order twice", at.Length == 0 ? "Leave the line out, or correct supplier and item." : "Name the supplier, or tick it on the page."));
            else if (!int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count) || count > ListLimits.Pieces) complaints.Add(new($"{place}, received", text, 0, "this is no number of pieces", "Write a whole number, 0 or more."));
            else
            {
                (order, kept) = order.Receive(at[0], count, kept);
                taken++;
            }
        }
        return (order, kept, complaints.ToImmutable(), taken);

        static int At(LooseRow row, string word) => row.Cells.IsDefault ? -1 : row.Cells.ToList().FindIndex(c => ListWords.IsReceiving(c, word));
    }

    /// <summary>Without the lines that are complete.</summary>
    public OnOrder Tidied() => new([.. Lines.Where(l => !l.IsComplete)]);

    /// <summary>As comma-separated text that reads back the same.</summary>
    public string ToCsv()
    {
        var text = new StringBuilder(CsvText.Line("supplier", "item", "count", "needed", "received", "places", "part", "kind", "value", "volts", "line volts", "watts", "tolerance", "class", "celsius", "ripple"));
        foreach (var l in Lines)
            text.Append(CsvText.Line([l.Supplier, l.Item, N(l.Count), N(l.Needed), N(l.Received), string.Join(' ', l.Places), l.Part.Text, .. ListCsv.Part(l.Part)]));
        return text.ToString();
    }

    /// <summary>Reads what <see cref="ToCsv"/> wrote; lines that cannot be read are left out.</summary>
    public static OnOrder Parse(string? text)
    {
        if (string.IsNullOrWhiteSpace(text)) return Empty;
        var lines = ImmutableArray.CreateBuilder<OrderedLine>();
        foreach (var row in CsvText.Read(text).Rows)
        {
            var (part, _, _, _) = ListedPart.Read(c => c switch
            {
                ListColumn.Kind => row["kind"], ListColumn.Value => row["value"], ListColumn.Volts => row["volts"], ListColumn.LineVolts => row["line volts"],
                ListColumn.Watts => row["watts"], ListColumn.Tolerance => row["tolerance"], ListColumn.Class => row["class"], ListColumn.Celsius => row["celsius"], ListColumn.Ripple => row["ripple"], _ => null,
            });
            if (part is null || row["item"] is not { } item || !int.TryParse(row["count"], out var count) || !int.TryParse(row["needed"], out var needed)) continue;
            lines.Add(new()
            {
                Supplier = row["supplier"], Item = item, Part = part with { Text = row["part"] ?? part.Text }, Count = count, Needed = needed,
                Received = int.TryParse(row["received"], out var received) ? received : 0, Places = [.. (row["places"] ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries)],
            });
        }
        return new(lines.ToImmutable());
    }

    private static string N(int number) => number.ToString(CultureInfo.InvariantCulture);
}
