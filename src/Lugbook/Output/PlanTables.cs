using System.Collections.Immutable;
using Lugbook.Restoration.Order;
using Lugbook.Store.Exchange;

namespace Lugbook.Output;

/// <summary>A plan as tables for files. The column "received" is left for the day the parcels come, and read back by Receive.</summary>
internal static class PlanTables
{
    public static ImmutableArray<WrittenTable> Of(OrderPlan plan)
    {
        var several = plan.Positions.Select(p => p.At.Book).Distinct().Count() > 1;
        return
        [
            new("order", ["supplier", "item", "count", "part", "needed", "price", "sum", "positions", "why", "received"],
                [.. plan.Lines.Select(l => Row(Words(l.Supplier ?? "drawer"), Words(l.Item), WrittenCell.Of(l.Count), Words(l.Part.Text), WrittenCell.Of(l.Needed), WrittenCell.Of(l.Each), WrittenCell.Of(l.Sum),
                    Words(string.Join(' ', l.Positions.Select(p => PlanText.Place(p, several)))), Words(l.Why), Words("")))]),
            new("positions", ["book", "position", "supplier", "item", "part", "difference"],
                [.. plan.Positions.Select(p => Row(Words(p.At.Book), Words(p.At.Position), Words(p.Supplier ?? "drawer"), Words(string.Join(" + ", p.Also.Select(a => a.Item).Prepend(p.Item))), Words(p.Text), Words(p.Why)))]),
            new("open", ["book", "position", "reason"], [.. plan.Open.Concat(plan.NotOrdered).Select(o => Row(Words(o.At.Book), Words(o.At.Position), Words(o.Reason)))]),
        ];
    }

    /// <summary>The lines alone, for CSV; no cell begins with a sign that a spreadsheet would take for a formula.</summary>
    public static WrittenTable Lines(OrderPlan plan)
    {
        var table = Of(plan)[0];
        return table with { Rows = [.. table.Rows.Select(r => r.Select(c => c.Number is null && c.Text is ['=' or '+' or '-' or '@', ..] ? c with { Text = "'" + c.Text } : c).ToImmutableArray())] };
    }

    private static ImmutableArray<WrittenCell> Row(params ReadOnlySpan<WrittenCell> cells) => [.. cells];
    private static WrittenCell Words(string? words) => WrittenCell.Of(words);
}
