using System.Collections.Immutable;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Choose;

/// <summary>One of the three ways with the sections of a can.</summary>
/// <param name="Name">"in the emptied can", "beneath the chassis", "a new can".</param>
/// <param name="IsPossible">Can it be done with what was chosen?</param>
/// <param name="Sentence">Why or why not, with the sizes.</param>
/// <param name="PriceLow">Example price of its parts, low end; null when it cannot be done or is not known.</param>
/// <param name="PriceHigh">High end.</param>
public sealed record CanWay(string Name, bool IsPossible, string Sentence, decimal? PriceLow, decimal? PriceHigh);

/// <summary>Compares the three ways and puts the best first: in the emptied can, where the new bodies find room; else beneath the chassis; else a new can.</summary>
/// <remarks>The order is common practice, no source: the emptied can keeps the look, the lugs and a cool place; beneath costs no opening of the can; a new can is the dearest and keeps all of it.</remarks>
internal static class CanWays
{
    // Beneath a chassis of 2 1/2 to 3 in there is room for bodies of this size (common practice, no source).
    private const double BeneathDiameter = 32, BeneathLength = 60;
    // Sleeve and wires round each body, mm.
    private const double Sleeve = 1;

    public static ImmutableArray<CanWay> Of(MapResult map, string can, IReadOnlyList<Part> sections, ImmutableArray<Choice> choices, ImmutableArray<NewCan> cans)
    {
        Choice[] going = [.. sections.Select(s => choices.FirstOrDefault(c => c.Position == s.Name)).OfType<Choice>().Where(c => c.Decision == Decision.Goes)];
        if (going.Length == 0) return [];
        ChosenPart[] parts = [.. going.Where(c => !c.Candidates.IsEmpty).SelectMany(c => c.Candidates[0].Parts)];
        var complete = going.All(c => !c.Candidates.IsEmpty) && parts.All(p => p is { BodyMm: not null, DiameterMm: not null });
        var size = CanSize.Of(map, can, sections);
        CanWay[] ways =
        [
            complete ? Emptied(parts, size) : Unknown("in the emptied can", going),
            complete ? Beneath(parts) : Unknown("beneath the chassis", going),
            New(going, size, cans),
        ];
        return [.. ways.OrderBy(w => !w.IsPossible)];
    }

    private static CanWay Unknown(string name, Choice[] going) => new(name, false, $"Not known: {Show.List([.. going.Where(c => c.Candidates.IsEmpty || c.Candidates[0].Parts.Any(p => p.BodyMm is null)).Select(c => c.Position)])} has no part of known size yet.", null, null);

    private static CanWay Emptied(ChosenPart[] parts, CanSize size)
    {
        var room = $"the can's bore is about {Show.Number(Math.Round(size.BoreMm))} mm and {Show.Number(Math.Round(size.DepthMm))} mm deep (outside {Show.Number(size.DiameterMm)} × {Show.Number(size.LengthMm)} mm, {size.From})";
        var (layers, bore, depth) = Layers(parts, size);
        var fits = bore <= size.BoreMm && depth <= size.DepthMm;
        var how = layers == 1 ? "side by side" : "in two layers";
        return new("in the emptied can", fits, fits
            ? $"{Bodies(parts)} stand {how} in a bore of {Show.Number(Math.Ceiling(bore))} mm; {room}. The look and the lugs stay, and it is cooler there than beneath. Leave a vent open, and fix nothing against a vent of the new parts."
            : $"{Bodies(parts)} would need {Show.Number(Math.Ceiling(bore))} mm of bore and {Show.Number(Math.Ceiling(depth))} mm of depth {how}; {room}.",
            Low(parts), High(parts));
    }

    // One layer, or the split in two that needs the least bore within the depth.
    private static (int Layers, double Bore, double Depth) Layers(ChosenPart[] parts, CanSize size)
    {
        double Bore(IEnumerable<ChosenPart> some) => CirclePacking.LeastBore([.. some.Select(p => p.DiameterMm!.Value + Sleeve)]);
        double Depth(IEnumerable<ChosenPart> some) => some.Max(p => p.BodyMm!.Value) + 3;
        (int Layers, double Bore, double Depth) one = (1, Bore(parts), Depth(parts));
        if (one.Bore <= size.BoreMm || parts.Length is < 2 or > 8) return one;
        var best = one;
        for (var mask = 1; mask < (1 << parts.Length) / 2; mask++)
        {
            ChosenPart[] upper = [.. parts.Where((_, i) => (mask >> i & 1) != 0)], lower = [.. parts.Where((_, i) => (mask >> i & 1) == 0)];
            var two = (2, Math.Max(Bore(upper), Bore(lower)), Depth(upper) + Depth(lower));
            if (two.Item3 <= size.DepthMm && two.Item2 < best.Bore) best = two;
        }
        return best;
    }

    private static CanWay Beneath(ChosenPart[] parts)
    {
        var large = parts.Where(p => p.DiameterMm > BeneathDiameter || p.BodyMm > BeneathLength).Select(p => p.Text).ToArray();
        return new("beneath the chassis", large.Length == 0, large.Length == 0
            ? $"{Bodies(parts)}: room for such bodies is usual beneath a chassis. Each wants a free lug for its plus and one for its minus, or a tag strip more, away from hot parts; the old can stays as a dummy, its sections cut off."
            : $"{Show.List(large)} is larger than what usually finds room beneath ({Show.Number(BeneathDiameter)} × {Show.Number(BeneathLength)} mm).", Low(parts), High(parts));
    }

    private static CanWay New(Choice[] going, CanSize size, ImmutableArray<NewCan> cans)
    {
        // Low-volt sections are small: where a can lacks them they go beneath.
        Choice[] high = [.. going.Where(c => c.OldVolts is null or >= 100)];
        if (high.Length == 0) high = going;
        foreach (var (wanted, rest) in new[] { (going, Array.Empty<Choice>()), (high, going.Except(high).ToArray()) })
            if (cans.Where(c => c.Serves([.. wanted.Select(w => w.Requirement)]) is not null).OrderBy(c => c.Sections.Length).ThenBy(c => c.PriceLow).ThenBy(c => c.DiameterMm).FirstOrDefault() is { } can)
            {
                var served = can.Serves([.. wanted.Select(w => w.Requirement)])!.Value;
                var list = Show.List([.. wanted.Select((w, i) => $"{w.Position} on {Show.Value(can.Sections[served[i]].Farads, Trade.Quantities.Unit.Farad)}")]);
                var hole = can.DiameterMm <= size.DiameterMm + 1 ? "" : $" It is {Show.Number(can.DiameterMm)} mm thick, the old one {Show.Number(size.DiameterMm)} mm: hole and clamp want work.";
                var ripple = wanted.Select(w => w.Requirement.RippleAmperes).Max() is > 0.05 and var most ? $" Its sheet must promise {RippleRating.Amperes(most)} of ripple." : "";
                var small = rest.Length == 0 ? "" : $" {Show.List([.. rest.Select(r => r.Position)])} beneath.";
                var restParts = rest.SelectMany(r => r.Candidates.IsEmpty ? [] : r.Candidates[0].Parts).ToArray();
                return new("a new can", true, $"{can.Name}, {Show.Number(can.DiameterMm)} × {Show.Number(can.LengthMm)} mm, {Show.Number(can.Celsius)} °C: {list}.{small}{ripple}{hole}", can.PriceLow + (Low(restParts) ?? 0), can.PriceHigh + (High(restParts) ?? 0));
            }
        return new("a new can", false, $"No new can of the table has sections for {Show.List([.. high.Select(h => h.Position)])} together.", null, null);
    }

    private static string Bodies(ChosenPart[] parts) => Show.List([.. parts.CountBy(p => p).Select(p => $"{(p.Value > 1 ? $"{p.Value} × " : "")}{Show.Value(p.Key.Value, p.Key.Unit)} {Show.Volts(p.Key.Volts ?? 0)} ({Show.Number(p.Key.DiameterMm!.Value)} × {Show.Number(p.Key.BodyMm!.Value)} mm)")]);
    private static decimal? Low(ChosenPart[] parts) => parts.Any(p => p.PriceLow is null) ? null : parts.Sum(p => p.PriceLow);
    private static decimal? High(ChosenPart[] parts) => parts.Any(p => p.PriceHigh is null) ? null : parts.Sum(p => p.PriceHigh);
}
