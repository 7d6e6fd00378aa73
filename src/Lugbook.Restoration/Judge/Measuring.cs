using System.Globalization;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Judge;

/// <summary>How a part is best measured: in place when that can tell, else with the lead lifted that lifts easiest.</summary>
internal static class Measuring
{
    public static HowToMeasure Of(Part part, ReadingKind kind, InPlace? place, RestAt? restAt, Meter meter, MapResult map, double workingVolts, bool lift)
    {
        if (kind is ReadingKind.Insulation or ReadingKind.Leakage or ReadingKind.SeriesOhms) return Tested(part, kind, map, workingVolts);
        if (FamilyLimits.OfMark(part) is not var (low, high, _, _))
            return new(kind, false, null, null, null, 0, null, $"Measure {part.Name}'s {ReadingWords.Of(kind)}; what it should be is not entered.");
        var limits = new Interval(low, high);
        if (kind == ReadingKind.Farads)
        {
            if (!lift && restAt is { Shunted: false } rest && rest.High - rest.Low < 0.1 * part.Value!.Value)
            {
                var intact = new Interval(low + rest.Low, high + rest.High);
                return new(kind, true, null, null, intact, 1, null, $"Read {part.Name}'s capacitance in place: an intact one shows {Say.Between(kind, intact)}.");
            }
            return Lift(part, kind, limits, map, place, 1);
        }
        if (place?.Of(part) is not { } other) return Lift(part, kind, limits, map, null, 0);
        // In place it can be told when the paths leave a window between "intact" and "out": an intact part in the middle of its tolerance must come out as within.
        var guard = GuardBand.Of(meter.OhmsUncertainty(part.Value!.Value));
        var middle = ValueRule.Together(part.Value.Value, Math.Sqrt(other.Low * Math.Min(other.High, 1e12)));
        var tells = ValueRule.Apart(middle - guard, other.High) >= low && ValueRule.Apart(middle + guard, other.Low) <= high;
        var polarity = other.HasRectifier ? "Read both ways round and take the higher figure: a dry rectifier lies in parallel." : null;
        if (!lift && tells && high < meter.OhmsTop)
        {
            var intact = new Interval(ValueRule.Together(low, other.Low), ValueRule.Together(high, other.High));
            var wait = other.Seconds is > 2 and < 1e5 ? string.Create(CultureInfo.InvariantCulture, $" Wait {other.Seconds:0} s until it stands.") : "";
            return new(kind, true, null, null, intact, double.IsFinite(other.Seconds) ? other.Seconds : 0, polarity, $"Read {part.Name} in place: an intact one shows {Say.Between(kind, intact)}.{wait}{(polarity is null ? "" : $" {polarity}")}");
        }
        return Lift(part, kind, limits, map, place, other.Seconds);
    }

    private static HowToMeasure Tested(Part part, ReadingKind kind, MapResult map, double volts)
    {
        var (name, lug) = Easiest(part, map, null);
        var at = volts > 0 ? string.Create(CultureInfo.InvariantCulture, $" at {volts:0} V, its working voltage here") : "";
        var what = kind switch { ReadingKind.Leakage => "leakage current", ReadingKind.SeriesOhms => "series resistance", _ => "insulation" };
        return new(kind, false, name, lug, null, 60, null, $"Lift {name}'s lead at {lug ?? "either end"} and measure its {what}{at}. Discharge it afterwards.");
    }

    private static HowToMeasure Lift(Part part, ReadingKind kind, Interval limits, MapResult map, InPlace? place, double seconds)
    {
        var (name, lug) = Easiest(part, map, place);
        var whose = name == part.Name ? "its lead" : $"{name}'s lead";
        return new(kind, false, name, lug, limits, double.IsFinite(seconds) ? Math.Min(seconds, 1) : 0, null,
            lug is null ? $"Measure {part.Name} with one lead lifted: {Say.Between(kind, limits)} is good." : $"Lift {whose} at {lug} and measure {part.Name}: {Say.Between(kind, limits)} is good.");
    }

    /// <summary>The lead that lifts easiest: the lug with the fewest other leads; another part's only where that leaves nothing in parallel and has fewer.</summary>
    private static (string Part, string? Lug) Easiest(Part part, MapResult map, InPlace? place)
    {
        var candidates = part.Leads.Where(l => map.NodeByLug.ContainsKey(l.Lug)).Select(l => (Part: part.Name, l.Lug, Others: Others(map, l.Lug, part.Name))).ToList();
        if (place?.Of(part)?.Main is { } main && map.Book.Parts.Named(main) is { } other && other.Name != part.Name && place.Without(part, main) is { } left && left.Low > 50 * (part.Value ?? double.MaxValue))
            candidates.AddRange(other.Leads.Where(l => map.NodeByLug.ContainsKey(l.Lug)).Select(l => (other.Name, l.Lug, Others(map, l.Lug, other.Name) + 1)));
        if (candidates.Count == 0) return (part.Name, null);
        var best = candidates.OrderBy(c => c.Others).ThenBy(c => c.Part == part.Name ? 0 : 1).First();
        return (best.Part, best.Lug);
    }

    private static int Others(MapResult map, string lug, string part) =>
        map.Book.Parts.Count(p => p.Name != part && p.Leads.Any(l => string.Equals(l.Lug, lug, StringComparison.OrdinalIgnoreCase)))
        + map.Book.Wires.Count(w => string.Equals(w.From, lug, StringComparison.OrdinalIgnoreCase) || string.Equals(w.To, lug, StringComparison.OrdinalIgnoreCase));
}
