using System.Collections.Immutable;
using Lugbook.Components;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Store.Shelves;
using Lugbook.Trade;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Markings.Colours;
using Lugbook.Trade.Photographs;
using Lugbook.Trade.Quantities;

namespace Lugbook.Web.AtBench;

/// <summary>A colour band to hold beside the part in hand.</summary>
/// <param name="Name">Its colour in words: colour never speaks alone.</param>
/// <param name="Style">Its paint, and ink that can be read on it.</param>
internal sealed record BandShown(string Name, string Style);

/// <summary>One position as the bench shows it, huge.</summary>
internal sealed record BenchStep
{
    public required int Number { get; init; }
    public required string Position { get; init; }
    public required string Old { get; init; }
    public required ImmutableArray<BandShown> OldBands { get; init; }
    public required string? New { get; init; }
    public required ImmutableArray<BandShown> NewBands { get; init; }
    /// <summary>What may be printed on the new part: "22 nF", "22n", "223".</summary>
    public required ImmutableArray<string> NewMarks { get; init; }
    public required string Turn { get; init; }
    public required ImmutableArray<LeadWork> Off { get; init; }
    public required ImmutableArray<LeadWork> On { get; init; }
    public required string? Polarity { get; init; }
    public required string Forming { get; init; }
    public required string? Alike { get; init; }
    public required string? Open { get; init; }
    public required ImmutableArray<string> Cautions { get; init; }
    public required bool Done { get; init; }
    public required string? Problem { get; init; }
    public required string? Note { get; init; }
    /// <summary>Its own photographs, then those of the mounts at which it works.</summary>
    public required ImmutableArray<BenchPhoto> Photos { get; init; }
    /// <summary>What the drawer offers for it.</summary>
    public required BenchOffer? Offer { get; init; }
    /// <summary>What the drawer has to do with it, in a sentence.</summary>
    public required string? Drawer { get; init; }
    /// <summary>The piece of the drawer that is in it.</summary>
    public required DrawerPiece? Fitted { get; init; }
}

/// <summary>A photograph beside a position.</summary>
/// <param name="Name">Its name in the book.</param>
/// <param name="Moment">"as found", "before", "after".</param>
/// <param name="Place">What it shows.</param>
/// <param name="Caption">In words; null for none.</param>
/// <param name="Small">Address of its small copy.</param>
/// <param name="Large">Address of its large copy.</param>
internal sealed record BenchPhoto(string Name, string Moment, string Place, string? Caption, string Small, string Large);

/// <summary>What the drawer offers for a position.</summary>
/// <param name="Piece">The line.</param>
/// <param name="Text">What it is, and where it lies.</param>
/// <param name="Left">How many are there.</param>
internal sealed record BenchOffer(DrawerPiece Piece, string Text, int Left);

/// <summary>Where the hand left off.</summary>
/// <param name="Position">The last position that was ticked.</param>
/// <param name="When">When, UTC.</param>
/// <param name="What">In the history's words.</param>
internal sealed record LeftOff(string Position, DateTimeOffset When, string What);

/// <summary>All that a device needs to go on alone while the network is gone.</summary>
internal sealed record BenchSheet
{
    public required string Book { get; init; }
    public required string Title { get; init; }
    public required long Version { get; init; }
    /// <summary>False while the circuit is still being solved: what is here rests on wiring and practice, and is asked for again.</summary>
    public required bool WorkedOut { get; init; }
    public required ImmutableArray<BenchStep> Steps { get; init; }
    public required ImmutableArray<string> Cautions { get; init; }
    public required ImmutableArray<NotOnSheet> NotOnSheet { get; init; }
    public required LeftOff? LeftOff { get; init; }

    /// <summary>The sheet of a book as it is seen now.</summary>
    public static BenchSheet Of(BookView view, IReadOnlyList<HistoryEntry> history, BenchSupply supply)
    {
        var fit = view.Fit;
        return new()
        {
            Book = view.Book.Name,
            Title = view.Book.Facts.Title,
            Version = view.Stored.Version,
            WorkedOut = view.IsWorkedOut,
            Steps = [.. fit.Steps.Select(s => Step(view, s, supply))],
            Cautions = [.. fit.Cautions.Select(c => c.Sentence)],
            NotOnSheet = fit.NotOnSheet,
            LeftOff = LastTick(view, history),
        };
    }

    private static BenchStep Step(BookView view, FitStep step, BenchSupply supply)
    {
        var part = view.Book.Parts.ById(step.PartId);
        var work = view.Book.Work.Named(step.Position);
        var made = view.Choose.For(step.Position)?.Part is { } chosen && chosen.Text == step.New ? chosen : null;
        return new()
        {
            Number = step.Number, Position = step.Position, Old = step.Old, New = step.New, Turn = step.Turn,
            OldBands = part?.Code is { } code && ColourMarking.LooksLikeColours(code) ? Bands(code.Split(' ', StringSplitOptions.RemoveEmptyEntries)) : [],
            NewBands = made is { Unit: Unit.Ohm } ? NewBandsOf(made) : [],
            NewMarks = made is null ? [] : Marks(made),
            Off = step.Off, On = step.On, Polarity = step.Polarity, Forming = step.Forming, Alike = step.Alike, Open = step.Open,
            Cautions = [.. step.Cautions.Select(c => c.Sentence)],
            Done = step.Done, Problem = work?.Problem, Note = work?.Note,
            Photos = Photos(view.Book, step),
            Offer = FitDrawer.Offer(view, supply, step) is { } line ? new(new(line.Item, line.Where), line.Where is null ? line.Part.Text : $"{line.Part.Text}, {line.Where}", line.Count) : null,
            Drawer = FitDrawer.Note(view, supply, step),
            Fitted = supply.Drawer.FittedAt(FitDrawer.Place(view, step.Position)) is { } fitted ? new(fitted.Item, fitted.Where) : null,
        };
    }

    private static ImmutableArray<BenchPhoto> Photos(Book book, FitStep step)
    {
        var mounts = step.Off.Concat(step.On).Select(l => book.Lugs.Named(l.Lug)?.Mount).OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase);
        return [.. mounts.Prepend(step.Position).SelectMany(book.PhotographsAt)
            .Select(p => new BenchPhoto(p.Name, PhotoWords.Of(p.Moment), p.Place!, p.Caption, PhotoRoutes.Copy(book.Name, p), PhotoRoutes.Copy(book.Name, p, large: true)))];
    }

    private static ImmutableArray<BandShown> Bands(IEnumerable<string> names) => [.. names.Select(n => new BandShown(n, ColourSwatches.Style(n)))];

    /// <summary>Today's resistors bear four bands at 5 %, five at 2 % and less.</summary>
    /// <remarks>Source: IEC 60062; which tolerance bears which is common practice, no source.</remarks>
    private static ImmutableArray<BandShown> NewBandsOf(ChosenPart part)
    {
        var looks = ColourCodes.LookFor(part.Value, Unit.Ohm, part.TolerancePercent is { } t ? Tolerance.Percent(t) : null).Where(l => l.Exact).ToArray();
        var bands = part.TolerancePercent is <= 2 ? 5 : 4;
        var look = looks.FirstOrDefault(l => l.Marks.Length == bands && l.Marks[0].Place.StartsWith("band", StringComparison.Ordinal));
        return look is null ? [] : Bands(look.Marks.Select(m => m.Colour.Name()));
    }

    private static ImmutableArray<string> Marks(ChosenPart part) =>
    [
        .. new[] { Notation.Print(part.Value, part.Unit), Notation.Print(part.Value, part.Unit, NotationStyle.LetterCode), part.Unit == Unit.Farad && part.Kind != NewKind.Electrolytic ? FigureCode.Of(part.Value) : null }
            .OfType<string>().Distinct(),
    ];

    /// <summary>The newest entry of the history that ticked a position and stands.</summary>
    private static LeftOff? LastTick(BookView view, IReadOnlyList<HistoryEntry> history)
    {
        foreach (var entry in history)
        {
            if (entry.Undone) continue;
            var at = entry.What.IndexOf(" exchanged", StringComparison.Ordinal);
            if (at > 0 && view.Book.Parts.Named(entry.What[..at]) is { } part) return new(part.Name, entry.When, entry.What);
        }
        return null;
    }
}
