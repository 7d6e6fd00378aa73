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
            else lines.Add(new() { Item = list.Cell(row, ListColumn.Item) ?? part.Text, Part = part, Count = count, Where = list.Cell(row, ListColumn.Where) });
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

    /// <summary>The drawer as comma-separated text that reads back the same.</summary>
    public string ToCsv() => ListCsv.Of(this);
}
