using Lugbook.Trade;

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
}

/// <summary>One tick as a device sends it, perhaps hours after it was made.</summary>
/// <param name="Id">The device's own name for it; what is sent twice is stored once.</param>
/// <param name="Position">The part's reference.</param>
/// <param name="Kind">What it says.</param>
/// <param name="Words">Its words; null for none.</param>
/// <param name="Was">What the device saw at that position: the words that were there, or "done" or "" for a tick; to find what another device changed meanwhile.</param>
/// <param name="At">When it was made, by the device's clock.</param>
internal sealed record Tick(Guid Id, string Position, TickKind Kind, string? Words, string? Was, DateTimeOffset At);

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
        return Enum.IsDefined(tick.Kind) ? null : $"{tick.Position}: this kind of tick is not known.";
    }

    /// <summary>The book with the tick. Words that another device wrote meanwhile stay and the new ones follow.</summary>
    public static Book Apply(Book book, Tick tick)
    {
        var words = string.IsNullOrWhiteSpace(tick.Words) ? null : tick.Words.Trim();
        return BookEdits.Change(book, tick.Position, work => tick.Kind switch
        {
            TickKind.Done => work with { Done = true, Problem = null },
            TickKind.NotDone => work with { Done = false },
            TickKind.Problem => work with { Problem = Joined(work.Problem, tick.Was, words) },
            _ => work with { Note = Joined(work.Note, tick.Was, words) },
        });
    }

    /// <summary>Did another device change the same thing after this one last looked?</summary>
    public static string? Meanwhile(Book book, Tick tick)
    {
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
