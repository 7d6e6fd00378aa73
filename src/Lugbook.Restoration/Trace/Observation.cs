using Lugbook.Restoration.Map;
using Lugbook.Restoration.Slips;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Trace;

/// <summary>A place and way of measuring, between two lugs: volts with the set running, as a rule to common; ohms and capacitance with the plug out.</summary>
/// <param name="Kind">Volts, ohms or capacitance.</param>
/// <param name="From">Lug of the red lead.</param>
/// <param name="To">Lug of the black one; for volts a lug of common.</param>
public sealed record ProbePlace(ReadingKind Kind, string From, string To);

/// <summary>One reading, on the scale on which its errors are even: volts as they are, ohms and farads by their logarithm.</summary>
/// <param name="Place">Where.</param>
/// <param name="Value">What the meter showed, in its unit.</param>
/// <param name="IsOver">It showed "over".</param>
/// <param name="Meter">The meter.</param>
internal sealed record Observation(ProbePlace Place, double Value, bool IsOver, Meter Meter)
{
    /// <summary>Where the line itself is read: by its logarithm over what the model takes.</summary>
    public static readonly ProbePlace Line = new(ReadingKind.Volts, "the line", "the line");
    /// <summary>How far a hand meter on alternating volts, and the line's own wandering, leave that open (common practice, no source).</summary>
    public const double LineSigma = 0.012;

    /// <summary>The line as read.</summary>
    public static Observation OfLine(double share, Meter meter) => new(Line, Math.Log(share), false, meter);

    // Leads and clips, and stray capacitance of wiring and sockets: below these a ratio says nothing (common practice, no source).
    private const double LeadOhms = 0.5, StrayFarads = 100e-12;
    /// <summary>A short entered as 0 V may be off by so much, V.</summary>
    private const double LeastVolts = 0.02;

    /// <summary>The value on its even scale.</summary>
    public double Scaled => ScaledOf(Place.Kind, Value);

    /// <summary>A value on the even scale of its kind.</summary>
    public static double ScaledOf(ReadingKind kind, double value) => kind switch
    {
        ReadingKind.Volts => value,
        ReadingKind.Ohms => Math.Log(Math.Clamp(value, 0, 1e12) + LeadOhms),
        _ => Math.Log(Math.Clamp(value, 0, 1) + StrayFarads),
    };

    /// <summary>And back.</summary>
    public static double Unscaled(ReadingKind kind, double scaled) => kind switch
    {
        ReadingKind.Volts => scaled,
        ReadingKind.Ohms => Math.Max(0, Math.Exp(scaled) - LeadOhms),
        _ => Math.Max(0, Math.Exp(scaled) - StrayFarads),
    };

    /// <summary>Change on the even scale for a change of the value.</summary>
    public static double SlopeOf(ReadingKind kind, double value) => kind switch
    {
        ReadingKind.Volts => 1,
        ReadingKind.Ohms => 1 / (Math.Max(value, 0) + LeadOhms),
        _ => 1 / (Math.Max(value, 0) + StrayFarads),
    };

    /// <summary>Standard deviation of what the meter makes of a value, on the even scale. The maker's statement is taken as even between its ends.</summary>
    public static double NoiseOf(ProbePlace place, Meter meter, double value)
    {
        var off = place.Kind switch
        {
            ReadingKind.Volts => Math.Min(meter.Volts.Uncertainty(value), 1e3) + LeastVolts,
            ReadingKind.Ohms => value > meter.OhmsTop ? value : meter.OhmsUncertainty(value) + 0.1,
            _ => Math.Min(meter.Farads?.Uncertainty(value) ?? 1, 1) + 20e-12,
        };
        return (place.Kind == ReadingKind.Volts ? off : Math.Min(off * SlopeOf(place.Kind, value), 3)) / Math.Sqrt(3);
    }

    /// <summary>The newest reading of each place among a book's, as far as they are of lugs.</summary>
    /// <param name="readings">Readings, oldest first.</param>
    /// <param name="map">The map.</param>
    /// <param name="volts">The voltmeter, where a reading names none.</param>
    /// <param name="meters">The other meters.</param>
    /// <param name="named">A meter by its name.</param>
    /// <param name="touched">Parts that the work touched: what was read of them before is of another set.</param>
    public static List<Observation> Of(IEnumerable<Reading> readings, MapResult map, Meter volts, BenchMeters meters, Func<string, Meter?> named, IReadOnlySet<string> touched)
    {
        var newest = new Dictionary<string, Observation>(StringComparer.OrdinalIgnoreCase);
        foreach (var r in readings)
        {
            if (!IsOfTheSet(r, touched) || PlaceOf(r, map) is not { } place) continue;
            var meter = (r.Meter is { } name ? named(name) : null) ?? (place.Kind == ReadingKind.Volts ? volts : place.Kind == ReadingKind.Farads ? meters.Farads ?? meters.Ohms : meters.Ohms);
            var key = $"{place.Kind} {place.From} {place.To}";
            newest.Remove(key);
            newest[key] = new(place, r.IsOver && r.Value <= 0 ? meter.TopOf(place.Kind) : r.Value, r.IsOver, meter);
        }
        return [.. newest.Values];
    }

    // A check right after soldering was of a chassis half done.
    private static bool IsOfTheSet(Reading r, IReadOnlySet<string> touched) => r.IsBetweenLugs ? r.Name is TraceStage.Place or Prove.ProveStage.Place || r.Kind == ReadingKind.Volts : !touched.Contains(r.Name);

    /// <summary>Where a reading was taken; null where it is not of lugs that the book knows.</summary>
    public static ProbePlace? PlaceOf(Reading r, MapResult map)
    {
        if (map.Common.Node is not { } common) return null;
        if (r.Kind == ReadingKind.Volts)
        {
            var (lug, far) = (r.FromLug ?? r.Name, r.ToLug ?? common.Lugs[0]);
            return map.NodeOf(lug) is { } at && map.NodeOf(far) is { } other && at.Index != other.Index ? new(ReadingKind.Volts, lug, far) : null;
        }
        if (r.Kind is not (ReadingKind.Ohms or ReadingKind.Farads) || r.IsLifted || r.LiftedPart is not null) return null;
        // Across a part where it sits, between two lugs, or from a lug to common.
        var part = r.IsBetweenLugs ? null : map.Book.Parts.Named(r.Name);
        var (from, to) = r.IsBetweenLugs ? (r.FromLug, r.ToLug) : part is not null ? (part.LeadA, part.LeadB) : (r.Name, common.Lugs[0]);
        return map.NodeOf(from) is { } a && map.NodeOf(to) is { } b && a.Index != b.Index ? new(r.Kind, from!, to!) : null;
    }
}
