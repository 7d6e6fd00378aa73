using System.Globalization;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Judge;

/// <summary>How a part is best measured: in place when that can tell, else with the lead lifted that lifts easiest.</summary>
internal static class Measuring
{
    /// <param name="part">What is measured.</param>
    /// <param name="kind">What of it.</param>
    /// <param name="place">What lies in parallel; null where it is not known.</param>
    /// <param name="meter">The meter.</param>
    /// <param name="map">The map.</param>
    /// <param name="workingVolts">Direct volts across it, V.</param>
    /// <param name="tried">It was tried in place and told nothing.</param>
    /// <param name="onlyOwn">And with another part's lead lifted: now its own.</param>
    /// <returns>Null where this meter has told what it can.</returns>
    public static HowToMeasure? Of(Part part, ReadingKind kind, InPlace? place, Meter meter, MapResult map, double workingVolts, bool tried, bool onlyOwn)
    {
        if (kind is ReadingKind.Insulation or ReadingKind.Leakage or ReadingKind.SeriesOhms) return Tested(part, kind, map, workingVolts);
        if (FamilyLimits.OfMark(part) is not var (low, high, _, _))
            return new(kind, false, null, null, null, 0, null, $"Measure {part.Name}'s {ReadingWords.Of(kind)}; what it should be is not entered.");
        return kind == ReadingKind.Farads ? Farads(part, new(low, high), place, meter, map, tried, onlyOwn) : Ohms(part, new(low, high), place, meter, map, tried, onlyOwn);
    }

    private static HowToMeasure? Ohms(Part part, Interval limits, InPlace? place, Meter meter, MapResult map, bool tried, bool onlyOwn)
    {
        // An intact part in the middle of its tolerance must come out as within: the true values that its reading allows, as a share of the tolerance.
        var guard = GuardBand.Of(meter.OhmsUncertainty(part.Value!.Value));
        double Width(Rest other)
        {
            var middle = ValueRule.Together(part.Value.Value, Math.Sqrt(other.Low * Math.Min(other.High, 1e12)));
            var (from, to) = (ValueRule.Apart(middle - guard, other.High), ValueRule.Apart(middle + guard, other.Low));
            return from >= limits.Low && to <= limits.High ? (to - from) / (limits.High - limits.Low) : double.PositiveInfinity;
        }
        if (!(Width(Rest.None) <= 1)) return tried ? null : Coarse(part, ReadingKind.Ohms, place?.Of(part) is { } beside ? ValueRule.Seen(limits.Low, limits.High, beside) : limits, meter, meter.OhmsUncertainty(part.Value.Value));
        if (place?.Of(part) is not { } rest) return Lift(part, ReadingKind.Ohms, limits, LeadChoice.ForOhms(part, map, null, Width), 0, "");
        if (!tried && Width(rest) <= 1 && limits.High < meter.OhmsTop)
        {
            var polarity = rest.HasRectifier ? "Read both ways round and take the higher figure: a dry rectifier lies in parallel." : null;
            var intact = ValueRule.Seen(limits.Low, limits.High, rest);
            var wait = rest.Seconds is > 2 and < 1e5 ? string.Create(CultureInfo.InvariantCulture, $" Wait {rest.Seconds:0} s until it stands.") : "";
            return new(ReadingKind.Ohms, true, null, null, intact, double.IsFinite(rest.Seconds) ? rest.Seconds : 0, polarity, $"Read {part.Name} in place: an intact one shows {Say.Between(ReadingKind.Ohms, intact)}.{wait}{(polarity is null ? "" : $" {polarity}")}");
        }
        var choice = LeadChoice.ForOhms(part, map, onlyOwn ? null : place, Width);
        return Lift(part, ReadingKind.Ohms, choice?.Left is { } left ? ValueRule.Seen(limits.Low, limits.High, left) : limits, choice, rest.Seconds,
            double.IsInfinity(rest.Low) ? "" : $"In place, {Say.Between(ReadingKind.Ohms, new(rest.Low, rest.High))} in parallel hides it. ");
    }

    // Lifted or not, such a meter can only condemn.
    private static HowToMeasure Coarse(Part part, ReadingKind kind, Interval intact, Meter meter, double a)
    {
        var why = double.IsInfinity(a) ? $"{meter.Name} ends at {Say.Of(kind, meter.TopOf(kind))}" : $"{meter.Name} may be off by {Say.Error(kind, a)} there";
        return new(kind, true, null, null, intact, 0, null, $"Read {part.Name}{(kind == ReadingKind.Farads ? "'s capacitance" : "")} in place: an intact one shows {Say.Between(kind, intact)}. {why}: enough to condemn it, too coarse to prove it good; a finer meter would.");
    }

    private static HowToMeasure? Farads(Part part, Interval limits, InPlace? place, Meter meter, MapResult map, bool tried, bool onlyOwn)
    {
        Interval Seen(RestAt other) => new(limits.Low + other.Low, limits.High + other.High);
        var beside = place?.At(part, meter.FaradsHertz);
        var a = meter.Farads?.Uncertainty(part.Value!.Value) ?? 0;
        if (2 * GuardBand.Of(a) > limits.High - limits.Low) return tried ? null : Coarse(part, ReadingKind.Farads, beside is null ? limits : Seen(beside), meter, a);
        if (!tried && beside is { Shunted: false } rest && rest.High - rest.Low < 0.1 * part.Value!.Value)
            return new(ReadingKind.Farads, true, null, null, Seen(rest), 1, null, $"Read {part.Name}'s capacitance in place: an intact one shows {Say.Between(ReadingKind.Farads, Seen(rest))}.");
        var choice = LeadChoice.ForFarads(part, map, onlyOwn ? null : place, meter.FaradsHertz, other => other.High - other.Low < 0.1 * part.Value!.Value ? (other.High - other.Low) / (limits.High - limits.Low) : double.PositiveInfinity);
        return Lift(part, ReadingKind.Farads, choice?.LeftAt is { } left ? Seen(left) : limits, choice, 1, "");
    }

    private static HowToMeasure Tested(Part part, ReadingKind kind, MapResult map, double volts)
    {
        var own = LeadChoice.Own(part, map).FirstOrDefault();
        var at = volts > 0 ? string.Create(CultureInfo.InvariantCulture, $" at {volts:0} V, its working voltage here") : "";
        var what = kind switch { ReadingKind.Leakage => "leakage current", ReadingKind.SeriesOhms => "series resistance", _ => "insulation" };
        return new(kind, false, part.Name, own?.Lug, null, 60, null, $"Lift {part.Name}'s lead {own?.Where ?? "at either end"} and measure its {what}{at}. Discharge it afterwards.");
    }

    private static HowToMeasure Lift(Part part, ReadingKind kind, Interval intact, LeadChoice? choice, double seconds, string before)
    {
        var wait = double.IsFinite(seconds) ? Math.Min(seconds, 1) : 0;
        if (choice is null) return new(kind, false, part.Name, null, intact, wait, null, $"{before}Measure {part.Name} with one lead lifted: {Say.Between(kind, intact)} is good.");
        if (choice.Part == part.Name) return new(kind, false, part.Name, choice.Lug, intact, wait, null, $"{before}Lift its lead {choice.Where} and measure {part.Name}: {Say.Between(kind, intact)} is good.");
        var left = choice.Left is { } rest
            ? double.IsInfinity(rest.Low) ? "nothing stays in parallel" : $"{Say.Between(kind, new(rest.Low, rest.High))} stays in parallel"
            : choice.LeftAt!.High < 0.005 * part.Value!.Value ? "next to nothing stays in parallel" : $"{Say.Between(kind, new(choice.LeftAt.Low, choice.LeftAt.High))} stays in parallel";
        return new(kind, false, choice.Part, choice.Lug, intact, wait, null,
            $"{before}Lift {choice.Part}'s lead {choice.Where}, easier than {part.Name}'s own {choice.InPlaceOf!.Where}, and measure {part.Name} where it sits: {left}, and an intact one shows {Say.Between(kind, intact)}.");
    }
}
