using System.Collections.Immutable;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>The complaint about colours that mean nothing: the likeliest code says what it misses.</summary>
internal static class Refusal
{
    public static Complaint Of(string text, ImmutableArray<Sighting> seen, Found found, CodeLayout? named, MarkingContext context)
    {
        var faults = found.Faults;
        if (faults.Count == 0) return Count(text, seen, named);
        var (layout, _, fault, row) = faults.MaxBy(f => f.Nearness)!;
        return new("the marking", text, row[fault.Slot].At, fault.Problem, Remedy(layout, fault, row, named, context));
    }

    private static string Remedy(CodeLayout layout, Fault fault, ImmutableArray<Sighting> seen, CodeLayout? named, MarkingContext context)
    {
        if (fault.Problem.StartsWith("too little", StringComparison.Ordinal))
            return "Measure the part, or clean it and look again in daylight.";
        var asIs = context with { ColourCode = null };
        foreach (var turned in Turning.Of(layout, seen))
        {
            // With a band unread there is no one reading to offer.
            if (Colours(turned).Any(c => c is null)) continue;
            var read = layout.Forms.Where(f => f.Slots.Length == seen.Length).Select(f => Decoder.Read(layout, f, Colours(turned)).Decoded).FirstOrDefault(d => d is not null);
            if (read is not null && Belief.InReading(read, asIs).Fit > Fit.None)
                return $"Turn the part: {Names(turned)} reads {Shown.Reading(read)}.";
        }
        if (Changed(layout, fault, seen) is { } changed) return changed;
        if (named is not null)
        {
            var other = Search.Run(CodeLayouts.All.Where(l => l != named), seen, asIs, false).Candidates
                .Where(c => !c.Turned && c.Altered.Length == 0 && c.Fit > Fit.None && c.Read.Layout.IsCapacitor == named.IsCapacitor)
                .MaxBy(c => c.Weight);
            if (other is not null) return $"Try the code {other.Read.Layout.Id}: there it reads {Shown.Reading(other.Read)}.";
        }
        return "Look at the colours again in daylight and from the other end; write ? for one that cannot be read, or measure the part.";
    }

    private static string? Changed(CodeLayout layout, Fault fault, ImmutableArray<Sighting> seen)
    {
        if (seen[fault.Slot].Colour is not { } colour) return null;
        foreach (var form in layout.Forms.Where(f => f.Slots.Length == seen.Length && f.Slots[fault.Slot].Role != Role.Type))
            foreach (var (was, why) in Ageing.Before(colour, form.Slots[fault.Slot].Role))
            {
                var colours = Colours(seen).SetItem(fault.Slot, was);
                if (Decoder.Read(layout, form, colours).Decoded is { } read && Belief.InReading(read, MarkingContext.None).Fit >= Fit.Round)
                    return $"Look again: {why}; {Names([.. seen.Select((s, i) => i == fault.Slot ? s with { Colour = was } : s)])} would be {Shown.Reading(read)}.";
            }
        return null;
    }

    private static Complaint Count(string text, ImmutableArray<Sighting> seen, CodeLayout? named)
    {
        var counts = (named is null ? CodeLayouts.All : [named]).SelectMany(l => l.Forms).Select(f => f.Slots.Length).Distinct().Order().ToList();
        var at = counts.Where(c => c < seen.Length).DefaultIfEmpty(0).Max() is > 0 and var fewer ? seen[fewer].At : text.Length;
        var have = $"{seen.Length} {(seen.Length == 1 ? "colour" : "colours")}";
        if (seen.Length < counts[0])
            return new("the marking", text, text.Length, $"{have}: not enough for {(named is null ? "any code" : $"the code '{named.Title}'")}",
                named is { IsCapacitor: true } ? $"Write {Or(counts)} colours, in the order: {named.Order}."
                : "Write all bands. If one colour covers the whole body, say so: body red, end green, dot orange; what is not seen is the same as the body.");
        return named is null
            ? new("the marking", text, at, $"no code has {have}", $"Write {Or(counts)} colours.")
            : new("the marking", text, at, $"{have}: the code '{named.Title}' has {Or(counts)}", $"Write the colours in this order: {named.Order}.");
    }

    private static string Or(List<int> counts) => counts.Count == 1 ? Text(counts[0]) : $"{string.Join(", ", counts[..^1].Select(Text))} or {Text(counts[^1])}";

    private static string Text(int count) => count switch
    {
        3 => "three",
        4 => "four",
        5 => "five",
        6 => "six",
        9 => "nine",
        _ => Shown.Number(count),
    };

    private static ImmutableArray<Colour?> Colours(ImmutableArray<Sighting> seen) => [.. seen.Select(s => s.Colour)];
    private static string Names(ImmutableArray<Sighting> seen) => string.Join(' ', seen.Select(s => s.Colour?.Name() ?? "?"));
}
