using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Choose;
using Lugbook.Trade.Text;

namespace Lugbook.Restoration.Order.Lists;

/// <summary>One sort of part in the drawer, counted.</summary>
public sealed record DrawerLine
{
    /// <summary>What to call it; unique in the drawer.</summary>
    public required string Item { get; init; }
    /// <summary>What it is.</summary>
    public required ChosenPart Part { get; init; }
    /// <summary>How many, 0 or more.</summary>
    public required int Count { get; init; }
    /// <summary>Where it lies, in the user's words.</summary>
    public string? Where { get; init; }
    /// <summary>Places that one piece each was fitted to and counted for: "amp/C5"; with a minus before it while that is taken back.</summary>
    public ImmutableArray<string> Fitted { get; init; } = [];
}

/// <summary>What the user has: it costs nothing and runs out.</summary>
/// <param name="Lines">Counted lines.</param>
public sealed record Drawer(ImmutableArray<DrawerLine> Lines)
{
    /// <summary>Nothing.</summary>
    public static Drawer Empty { get; } = new([]);

    /// <summary>How many cells of a row are headers of a drawer's list.</summary>
    public static int Understood(IReadOnlyList<string> cells) => cells.Count(c => ListWords.ColumnOf(c, true) is not null);

    /// <summary>Reads a table: one drawer, or none when there is no header. Bad lines are refused by name, the good ones stand.</summary>
    public static ListReading<Drawer> Parse(LooseTable table)
    {
        var (list, complaint) = ListTable.Find(table, counts: true);
        if (list is null) return new([], [complaint!], []);
        var refusals = new Refusals(table.Place);
        var lines = ImmutableArray.CreateBuilder<DrawerLine>();
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        var read = 0;
        foreach (var row in list.Body)
        {
            if (read++ == ListLimits.Rows)
            {
                refusals.Add(new(list.PlaceOf(row), "", 0, $"a drawer is read up to {ListLimits.Rows} lines; from here on it was not read", "Split it."));
                break;
            }
            if (row.Cells.All(string.IsNullOrWhiteSpace)) continue;
            var (part, at, problem, remedy) = ListedPart.Read(c => list.Cell(row, c));
            var counted = list.Cell(row, ListColumn.Count);
            if (part is null) refusals.Add(new(list.Place(row, at.ToString().ToLowerInvariant()), list.Cell(row, at) ?? list.Cell(row, ListColumn.Description) ?? "", 0, problem, remedy));
            else if (!int.TryParse(counted, NumberStyles.None, CultureInfo.InvariantCulture, out var count) || count > ListLimits.Pieces)
                refusals.Add(new(list.Place(row, "count"), counted ?? "", 0, "this is no number of pieces", "Write a whole number, 0 or more."));
            else if (!seen.Add(list.Cell(row, ListColumn.Item) ?? $"{part.Text} {list.Cell(row, ListColumn.Where)}"))
                refusals.Add(new(list.PlaceOf(row), list.Cell(row, ListColumn.Item) ?? part.Text, 0, "this line is there twice", "Add the two counts, or write where each lies; the first stands."));
            else lines.Add(new() { Item = list.Cell(row, ListColumn.Item) ?? part.Text, Part = part, Count = count, Where = list.Cell(row, ListColumn.Where), Fitted = [.. (list.Cell(row, ListColumn.Fitted) ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries)] });
        }
        return new([new(lines.ToImmutable())], refusals.All(), list.Unknown.IsEmpty ? [] : [$"{table.Place}: not used: {string.Join(", ", list.Unknown)}."]);
    }

    /// <summary>The drawer after some pieces were taken out or put in; never below nothing.</summary>
    /// <param name="changes">Item and how many come or go.</param>
    public Drawer Changed(IEnumerable<(DrawerLine Line, int By)> changes)
    {
        var lines = Lines.ToList();
        foreach (var (line, by) in changes)
        {
            var at = lines.FindIndex(l => string.Equals(l.Item, line.Item, StringComparison.OrdinalIgnoreCase) && l.Where == line.Where);
            if (at >= 0) lines[at] = lines[at] with { Count = Math.Max(0, lines[at].Count + by) };
            else if (by > 0) lines.Add(line with { Count = by });
        }
        return new([.. lines]);
    }

    /// <summary>The line that a place was fitted from and counted for; null when it was from none.</summary>
    /// <param name="place">Book and position: "amp/C5".</param>
    public DrawerLine? FittedAt(string place) => Lines.FirstOrDefault(l => l.Fitted.Contains(place, StringComparer.OrdinalIgnoreCase));

    /// <summary>One piece of a line was fitted at a place: it is counted once, however often this is said. Without a piece left nothing changes.</summary>
    public Drawer Fit(string place, DrawerLine line) => FittedAt(place) is not null ? this : Edited(line, l => l.Count > 0 ? l with { Count = l.Count - 1, Fitted = [.. Without(l, place), place] } : l);

    /// <summary>What was fitted at a place is of no line, and never was: a piece that was counted goes back.</summary>
    public Drawer Forget(string place) => Lines.Where(l => l.Fitted.Any(f => IsOf(f, place))).Aggregate(this, (drawer, line) => drawer.Edited(line, l => l with { Count = l.Count + (IsOut(l, place) ? 1 : 0), Fitted = Without(l, place) }));

    /// <summary>Brought into step with the books: a piece fitted where the exchange is taken back goes back into the drawer, and out again when the exchange stands again.</summary>
    /// <param name="isDone">Is the exchange at a place done? Null: not this caller's book, left as it is.</param>
    public Drawer InStep(Func<string, bool?> isDone)
    {
        var lines = Lines;
        foreach (var (line, mark) in Lines.SelectMany(l => l.Fitted.Select(f => (l, f))))
        {
            var place = mark.TrimStart('-');
            var (isOut, at) = (mark[0] != '-', lines.ToList().FindIndex(l => IsSame(l, line)));
            if (isDone(place) is not { } done || done == isOut || done && lines[at].Count == 0) continue;
            lines = lines.SetItem(at, lines[at] with { Count = lines[at].Count + (done ? -1 : 1), Fitted = [.. Without(lines[at], place), done ? place : $"-{place}"] });
        }
        return lines == Lines ? this : new(lines);
    }

    private Drawer Edited(DrawerLine line, Func<DrawerLine, DrawerLine> edit) => new([.. Lines.Select(l => IsSame(l, line) ? edit(l) : l)]);
    private static bool IsSame(DrawerLine a, DrawerLine b) => string.Equals(a.Item, b.Item, StringComparison.OrdinalIgnoreCase) && a.Where == b.Where;
    private static bool IsOf(string mark, string place) => string.Equals(mark.TrimStart('-'), place, StringComparison.OrdinalIgnoreCase);
    private static bool IsOut(DrawerLine line, string place) => line.Fitted.Contains(place, StringComparer.OrdinalIgnoreCase);
    private static ImmutableArray<string> Without(DrawerLine line, string place) => line.Fitted.RemoveAll(f => IsOf(f, place));

    /// <summary>The drawer as comma-separated text that reads back the same.</summary>
    public string ToCsv() => ListCsv.Of(this);
}
