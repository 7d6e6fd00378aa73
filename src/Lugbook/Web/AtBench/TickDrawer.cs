using Lugbook.Trade;

namespace Lugbook.Web.AtBench;

/// <summary>What a tick takes from the drawer.</summary>
internal static class TickDrawer
{
    /// <summary>Counts the piece of a tick that is stored; once, however often the tick arrives.</summary>
    /// <param name="desk">The drawer.</param>
    /// <param name="book">The book after the tick.</param>
    /// <param name="tick">A tick "done".</param>
    /// <param name="fresh">Did this very tick close an open position?</param>
    /// <param name="stop">Gives up.</param>
    /// <returns>Why nothing was counted although a piece was named; null when all is well.</returns>
    public static async Task<string?> CountAsync(SupplyDesk desk, Book book, Tick tick, bool fresh, CancellationToken stop)
    {
        var place = $"{book.Name}/{tick.Position}";
        // A piece that was fitted here once and taken back is of no account to a new exchange.
        if (fresh) await desk.ForgetAsync(place, stop);
        if (tick.Piece is not { } piece || book.Work.Named(tick.Position) is not { Done: true }) return null;
        var drawer = (await desk.ReadAsync(stop)).Drawer;
        if (drawer.FittedAt(place) is not null) return null;
        if (drawer.Lines.FirstOrDefault(l => string.Equals(l.Item, piece.Item, StringComparison.OrdinalIgnoreCase) && l.Where == piece.Where) is not { Count: > 0 } line)
            return $"{tick.Position} is ticked, but the drawer counts no {piece.Item} any more: count what lies there.";
        await desk.FitAsync(place, line, stop);
        return null;
    }
}
