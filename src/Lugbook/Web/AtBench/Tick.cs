using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;

namespace Lugbook.Web.AtBench;

/// <summary>What a hand at the bench says of a position.</summary>
internal enum TickKind
{
    /// <summary>It is exchanged.</summary>
    Done,
    /// <summary>It is not exchanged after all.</summary>
    NotDone,
    /// <summary>Something stopped the exchange; no words: it is settled.</summary>
    Problem,
    /// <summary>Something to remember; no words: forget it.</summary>
    Note,
    /// <summary>A reading right after soldering; its words are what the meter shows.</summary>
    Reading,
}

/// <summary>A piece of the drawer that went in, by its line.</summary>
/// <param name="Item">The line's name.</param>
/// <param name="Where">Where it lies; null when that is not written.</param>
internal sealed record DrawerPiece(string Item, string? Where);

/// <summary>Between which lugs something was read.</summary>
/// <param name="Kind">Ohms or capacitance.</param>
/// <param name="From">Lug of the red lead.</param>
/// <param name="To">Lug of the black lead.</param>
/// <param name="Meter">The meter's name.</param>
internal sealed record ReadAt(ReadingKind Kind, string From, string To, string? Meter);

/// <summary>One tick as a device sends it, perhaps hours after it was made.</summary>
/// <param name="Id">The device's own name for it; what is sent twice is stored once.</param>
/// <param name="Position">The part's reference.</param>
/// <param name="Kind">What it says.</param>
/// <param name="Words">Its words; null for none.</param>
/// <param name="Was">What the device saw at that position: the words that were there, or "done" or "" for a tick; to find what another device changed meanwhile.</param>
/// <param name="At">When it was made, by the device's clock.</param>
/// <param name="Piece">With "done": the piece of the drawer that went in; null for none.</param>
/// <param name="Read">With a reading: where it was taken.</param>
internal sealed record Tick(Guid Id, string Position, TickKind Kind, string? Words, string? Was, DateTimeOffset At, DrawerPiece? Piece = null, ReadAt? Read = null);

/// <summary>Applies ticks to a book. Pure.</summary>
internal static class Ticks
{
    /// <summary>Longest words that are kept.</summary>
    public const int MostWords = 2000;

    /// <summary>What is wrong with a tick; null when nothing is.</summary>
    public static string? Fault(Book book, Tick tick)
    {
        if (book.Parts.Named(tick.Position) is null) return $"There is no part {tick.Position} in this book: it was renamed or taken out meanwhile.";
        if (tick.Words?.Length > MostWords) return $"{tick.Position}: the words are longer than {MostWords} characters.";
        if (tick.Piece is not null && (tick.Kind != TickKind.Done || tick.Piece.Item is null)) return $"{tick.Position}: a piece of the drawer goes with a tick, by its line.";
        if (tick.Kind == TickKind.Reading) return Taken(book, tick).Fault;
        return Enum.IsDefined(tick.Kind) ? null : $"{tick.Position}: this kind of tick is not known.";
    }

    // What was read, or why that is no reading.
    private static (Reading? Reading, string? Fault) Taken(Book book, Tick tick)
    {
        if (tick.Read is not { From: { } from, To: { } to } at) return (null, $"{tick.Position}: between which two lugs was it read?");
        if (new[] { from, to }.FirstOrDefault(l => book.Lugs.Named(l) is null) is { } missing) return (null, $"{tick.Position}: there is no lug {missing} in this book: it was renamed or taken out meanwhile.");
        if (at.Kind is not (ReadingKind.Ohms or ReadingKind.Farads)) return (null, $"{tick.Position}: after soldering, ohms or capacitance is read.");
        var (reading, trouble) = ReadingForm.ReadBetween(tick.Position, at.Kind, from, to, tick.Words, BookMeters.Named(book, at.Meter) ?? BookMeters.AtBench(book), tick.At);
        return (reading, trouble is null ? null : $"{tick.Position}, {from} to {to}, '{tick.Words}': {trouble}");
    }

    /// <summary>The book with the tick. Words that another device wrote meanwhile stay and the new ones follow.</summary>
    /// <param name="book">The book.</param>
    /// <param name="tick">The tick.</param>
    /// <param name="step">Number of the position's step on the sheet, so that the sheet keeps it there.</param>
    public static Book Apply(Book book, Tick tick, int? step = null)
    {
        if (tick.Kind == TickKind.Reading) return Taken(book, tick).Reading is { } taken ? book with { Readings = book.Readings.Add(taken) } : book;
        var words = string.IsNullOrWhiteSpace(tick.Words) ? null : tick.Words.Trim();
        return BookEdits.Change(book, tick.Position, work => tick.Kind switch
        {
            TickKind.Done => work with { Done = true, DoneAt = tick.At, DoneStep = step ?? work.DoneStep, Problem = null },
            TickKind.NotDone => work with { Done = false, DoneAt = null, DoneStep = null },
            TickKind.Problem => work with { Problem = Joined(work.Problem, tick.Was, words) },
            _ => work with { Note = Joined(work.Note, tick.Was, words) },
        });
    }

    /// <summary>Did another device change the same thing after this one last looked?</summary>
    public static string? Meanwhile(Book book, Tick tick)
    {
        if (tick.Kind == TickKind.Reading) return null;
        var work = book.Work.Named(tick.Position);
        var now = tick.Kind switch
        {
            TickKind.Done or TickKind.NotDone => work is { Done: true } ? "done" : "",
            TickKind.Problem => work?.Problem ?? "",
            _ => work?.Note ?? "",
        };
        if (tick.Was is null || now == tick.Was || tick.Kind is TickKind.Done or TickKind.NotDone && now == (tick.Kind == TickKind.Done ? "done" : "")) return null;
        return tick.Kind is TickKind.Done or TickKind.NotDone
            ? $"{tick.Position} was {(now == "done" ? "ticked" : "opened again")} on another device meanwhile; your tick, made later, stands."
            : now.Length == 0 ? $"{tick.Position}: the words that you changed were taken out on another device meanwhile; yours stand."
            : $"{tick.Position}: another device wrote \"{now}\" meanwhile; both are kept.";
    }

    /// <summary>The tick in the words of the history.</summary>
    public static string Say(Tick tick)
    {
        var at = tick.At.ToUniversalTime().ToString("yyyy-MM-dd HH:mm", System.Globalization.CultureInfo.InvariantCulture);
        var what = (tick.Kind, string.IsNullOrWhiteSpace(tick.Words)) switch
        {
            (TickKind.Done, _) => $"{tick.Position} exchanged",
            (TickKind.NotDone, _) => $"{tick.Position} not exchanged after all",
            (TickKind.Reading, _) => $"{tick.Position} read after soldering, {tick.Read?.From} to {tick.Read?.To}",
            (TickKind.Problem, true) => $"{tick.Position}: problem settled",
            (TickKind.Problem, false) => $"{tick.Position}: problem",
            (_, true) => $"{tick.Position}: note taken out",
            _ => $"{tick.Position}: note",
        };
        return $"{what}, at the bench {at}";
    }

    private static string? Joined(string? now, string? was, string? words) =>
        string.IsNullOrEmpty(now) || was is null || now == was || words is null || now == words ? words : $"{now} / {words}";
}
