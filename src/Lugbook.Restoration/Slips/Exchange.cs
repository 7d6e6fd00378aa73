using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Slips;

/// <summary>One position of the work, in its order, with what goes there.</summary>
public sealed record Exchange
{
    /// <summary>The part's reference.</summary>
    public required string Position { get; init; }
    /// <summary>Nominal value of the new part, Ω or F; null when it is not known: then the old value is taken.</summary>
    public double? Value { get; init; }
    /// <summary>How far it may be off, as a fraction of nominal.</summary>
    public double Tolerance { get; init; } = 0.2;
    /// <summary>Resistance that comes with it across its leads (balancing a series pair), Ω; null when there is none.</summary>
    public double? AcrossOhms { get; init; }
    /// <summary>A section of a can, whose old section may stay in parallel by mistake.</summary>
    public bool SharesBody { get; init; }
    /// <summary>Is it exchanged already?</summary>
    public bool Done { get; init; }
    /// <summary>Is it held back, so that it is passed over?</summary>
    public bool HeldBack { get; init; }
}

/// <summary>Reads the order of the work and what goes where.</summary>
internal static class WorkReader
{
    public static ImmutableArray<Exchange> Of(FitResult fit, ChooseResult choices)
    {
        var byPart = choices.Choices.ToDictionary(c => c.PartId);
        return [.. fit.Steps.Where(s => byPart.ContainsKey(s.PartId)).Select(s => Of(s, byPart[s.PartId]))];
    }

    private static Exchange Of(FitStep step, Choice choice)
    {
        var (value, tolerance, across) = New(choice);
        return new() { Position = step.Position, Value = value, Tolerance = tolerance, AcrossOhms = across, SharesBody = choice.Group is not null, Done = step.Done, HeldBack = step.Open is not null };
    }

    private static (double? Value, double Tolerance, double? Across) New(Choice choice)
    {
        if (choice.New is { } words && words == choice.UserReplacement)
        {
            // What the user wrote is read as a marking; new film and resistors without a mark are taken as ±10 %.
            var read = TextMarking.Read(words, new() { Kind = choice.Unit == Unit.Ohm ? PartKind.Resistor : PartKind.Capacitor, ExpectedValue = choice.OldValue }).Meanings.FirstOrDefault(m => m.Unit == choice.Unit);
            return read is null ? (choice.OldValue, 0.2, null) : (read.Value, read.Tolerance is { } t ? Math.Max(t.Minus, t.Plus) : 0.1, null);
        }
        if (choice.Candidates is not [var first, ..]) return (choice.OldValue, 0.2, null);
        var percent = first.TolerancePercent ?? first.Parts.Max(p => p.TolerancePercent) ?? 20;
        return (first.Value, percent / 100, first is { Balancer: { } balancer, Joining: Joining.Series } ? 2 * balancer.Ohms : null);
    }
}
