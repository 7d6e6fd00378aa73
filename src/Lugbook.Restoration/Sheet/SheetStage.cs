using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Restoration.Solve;

namespace Lugbook.Restoration.Sheet;

/// <summary>The set's own voltage sheet: what every pin should read, how far healthy sets differ, and what every part bears.</summary>
public static class SheetStage
{
    private const double NearShare = 0.1;
    // Heater volts of a healthy set go with the line, and a few per cent with the string.
    private const double HeaterShare = 0.11;

    /// <summary>Pure: the same solved set and conditions, the same sheet.</summary>
    public static SheetResult Run(SolveResult solved, SheetConditions how)
    {
        var facts = solved.Netlist.Map.Book.Facts;
        var line = (facts.LineVolts ?? 0) * how.TodayLineShare;
        var unknowns = solved.Netlist.Unknowns.Select(u => u.Sentence).Distinct().ToImmutableArray();
        if (solved.Direct is null)
            return new() { Reason = solved.Reason, LineVolts = line, Meter = how.Meter, Lines = [], Parts = [], Valves = [], Moments = [], Unknowns = unknowns, Remarks = [] };
        var places = Places.Of(solved.Netlist);
        var volts = new VoltsColumn(solved, how, places);
        var ohms = new OhmsColumn(solved.Netlist, how.Meter, places.Select(p => p.Node));
        var stresses = Stresses.Of(solved, how);
        return new()
        {
            LineVolts = line,
            Meter = how.Meter,
            ChartMeter = solved.Netlist.Map.Book.SheetReadings.Count > 0 ? how.ChartMeter : null,
            Lines = [.. places.Select(p => Line(p, solved, how, volts, ohms))],
            Parts = stresses.Parts,
            Valves = stresses.Valves,
            Moments = stresses.Moments,
            Unknowns = unknowns,
            Remarks = solved.Remarks,
        };
    }

    /// <summary>Parts that move a node of the solved set most, largest first; empty where nothing is solved.</summary>
    public static ImmutableArray<Mover> MoversOf(SolveResult solved, int node, int most = 6) => Movers.Of(solved, node, most);

    private static SheetLine Line(Place place, SolveResult solved, SheetConditions how, VoltsColumn volts, OhmsColumn ohms)
    {
        var cycle = solved.Cycle?.Nodes[place.Node];
        // A heater that stands on a supply is read in direct volts; its few alternating ones are across its pins.
        var ac = place.IsHeater && !(cycle is { } h && Math.Abs(h.Average) > 3 * h.RippleRms) || place.Chart?.IsAc == true || cycle is { } c && c.RippleRms > Math.Abs(c.Average);
        var chart = place.Chart;
        var line = new SheetLine { Lug = place.Lug, Node = place.Node, What = place.What, Valve = place.Valve, IsAc = ac, RippleRms = cycle?.RippleRms, ChartVolts = chart?.Volts, ChartOhms = chart?.Ohms, Note = chart?.Note };
        line = ac ? Alternating(line, cycle, how) : Direct(line, place, how, volts);
        if (ohms.At(place.Node) is not var (reading, low, high)) return line;
        return line with
        {
            Ohms = reading.Ohms, ReversedOhms = reading.ReversedOhms, OhmsLow = low, OhmsHigh = high, SettlingSeconds = reading.SettlingSeconds,
            OhmsAgreement = chart?.Ohms is { } printed ? OhmsAgree(printed, reading, low, high, how.ChartMeter.OhmsTop) : Agreement.None,
        };
    }

    private static SheetLine Alternating(SheetLine line, CycleVolts? cycle, SheetConditions how)
    {
        if (cycle is null) return line with { Unpredictable = "depends on the line, which is not entered" };
        var rms = Math.Sqrt(cycle.RippleRms * cycle.RippleRms + cycle.Average * cycle.Average);
        var today = rms * how.TodayLineShare;
        var (low, high) = (today * (1 - HeaterShare), today * (1 + HeaterShare));
        return line with
        {
            Volts = today, Low = low, High = high, Meter = new(today, how.Meter.AcVolts.RangeFor(today) ?? how.Meter.AcVolts.Top, how.Meter.AcVolts.Uncertainty(today)), MeterSpread = (low, high),
            ChartExpected = rms * how.ChartLineShare, VoltsAgreement = Agree(line.ChartVolts, rms * how.ChartLineShare, low, high, today),
        };
    }

    private static SheetLine Direct(SheetLine line, Place place, SheetConditions how, VoltsColumn volts)
    {
        var nominal = volts.Nominal(place.Node);
        var (low, high) = volts.Spread(place.Node);
        // Contact potential: half as much again or as little from valve to valve, and 0.2 V at least (common practice, no source).
        if (place.IsContact && nominal is > -1.2 and < -0.05)
        {
            var contact = Math.Max(0.5 * -nominal, 0.2);
            (low, high) = (Math.Min(low, nominal - contact), Math.Max(high, Math.Min(nominal + contact, 0)));
        }
        var meter = volts.OwnMeter(place.Node, how.Meter);
        // What the meter's load does to the nominal set it does, in proportion, to its neighbours.
        var load = meter is not null && Math.Abs(nominal) > 1e-3 ? meter.Shown / nominal : 1;
        var unpredictable = volts.Unpredictable(place.Node);
        var expected = volts.ChartMeter(place.Node);
        var chartLoad = Math.Abs(nominal) > 1e-3 ? expected / nominal : 1;
        return line with
        {
            Volts = nominal, Low = low, High = high, Meter = meter, MeterSpread = (Math.Min(low * load, high * load), Math.Max(low * load, high * load)),
            ChartExpected = expected, Unpredictable = unpredictable, Setting = volts.Setting(place.Node),
            VoltsAgreement = unpredictable is null ? Agree(line.ChartVolts, expected, Math.Min(low * chartLoad, high * chartLoad), Math.Max(low * chartLoad, high * chartLoad), expected) : Agreement.None,
        };
    }

    private static Agreement Agree(double? printed, double expected, double low, double high, double centre)
    {
        if (printed is not { } chart || !double.IsFinite(expected)) return Agreement.None;
        // The spread is carried to where the chart was taken; a chart is printed in steps of a tenth of a volt at best.
        var (l, h) = (low + expected - centre, high + expected - centre);
        const double step = 0.15;
        if (chart >= l - step && chart <= h + step) return Agreement.Agrees;
        return Math.Min(Math.Abs(chart - l), Math.Abs(chart - h)) <= NearShare * Math.Abs(chart) + step ? Agreement.Near : Agreement.Differs;
    }

    private static Agreement OhmsAgree(double printed, OhmsReading reading, double low, double high, double top)
    {
        var settled = Math.Max(reading.Ohms, reading.ReversedOhms);
        if (double.IsInfinity(printed)) return !double.IsFinite(settled) || settled > top ? Agreement.Agrees : settled > 1e6 ? Agreement.Near : Agreement.Differs;
        if (printed < 1 && reading.Ohms < 1) return Agreement.Agrees;
        foreach (var ohms in new[] { reading.Ohms, reading.ReversedOhms })
        {
            if (!double.IsFinite(ohms) || ohms <= 0) continue;
            var scale = ohms / reading.Ohms;
            if (printed >= low * scale * 0.95 - 0.1 && printed <= high * scale * 1.05 + 0.1) return Agreement.Agrees;
        }
        return Math.Abs(printed - reading.Ohms) <= 0.2 * printed + 0.5 ? Agreement.Near : Agreement.Differs;
    }
}
