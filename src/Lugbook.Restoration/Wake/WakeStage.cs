using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Solve;

namespace Lugbook.Restoration.Wake;

/// <summary>How do I apply power for the first time? Steps from the lamp to the full line, with the numbers of this set.</summary>
public static class WakeStage
{
    // The user's own line is measured, but it moves: common practice, no source.
    private const double LineShare = 0.05;

    /// <summary>Pure: the same set and equipment, the same plan. It follows the line's cycle some hundred times: seconds to a minute for a large set.</summary>
    /// <param name="solved">The set.</param>
    /// <param name="equipment">What there is to wake it with.</param>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <param name="stop">Ends it early.</param>
    /// <exception cref="OperationCanceledException"><paramref name="stop"/> was raised.</exception>
    public static WakeResult Run(SolveResult solved, WakeEquipment equipment, IProgress<double>? progress = null, CancellationToken stop = default)
    {
        if (solved.Direct is null) return new() { Reason = solved.Reason };
        if (solved.Cycle is null || !solved.Netlist.Network!.Elements.Any(e => e is Mains)) return new() { Reason = "No line is entered, so nothing can be said of the first power: enter where the line cord ends." };
        var set = new WakeSet(solved, equipment.LineVolts);
        var full = set.Settled(set.Network, new(null, 1, []));
        if (full is null) return new() { Reason = "The set on its full line does not settle, so no expected numbers can be given." };
        var shown = set.Shown(full.Cycle);
        ImmutableArray<LampCase> lamps = [.. equipment.LampWatts.Where(w => w > 0).Distinct().Order().Select(w =>
        {
            stop.ThrowIfCancellationRequested();
            var hooked = set.Hooked(set.Network, new(w, 1, []));
            return Lamps.Of(set, w, set.Settled(hooked, new(w, 1, []), full), hooked, shown.Length > 2 ? Math.Abs(shown[2]) : 0, shown[0]);
        })];
        var plan = Plan.Of(set, equipment, lamps);
        var faults = SeriousFaults.Of(set);
        var samples = Samples(set, equipment.Samples);
        var steps = ImmutableArray.CreateBuilder<WakeStep>();
        var done = 0;
        foreach (var step in plan)
        {
            steps.Add(Worked(set, step, steps.Count + 1, samples, faults, full, () => progress?.Report(Interlocked.Increment(ref done) / (double)(plan.Length * (samples.Length + faults.Length) + 1)), stop));
        }
        var first = steps.FirstOrDefault(s => s.Out.IsEmpty);
        return new()
        {
            LineVolts = set.LineVolts,
            Watched = set.Watched,
            Lamps = lamps,
            Steps = steps.ToImmutable(),
            Course = first is null ? [] : Course(set, new(first.LampWatts, first.LineShare, first.Out), stop),
            CourseStep = first?.Number ?? 0,
            Stores = Draining.Of(set, equipment.BleederOhms, stop),
            Remarks = Remarks(set),
            Cautions = WakeCautions.Of(set, equipment),
        };
    }

    private static WakeStep Worked(WakeSet set, PlannedStep step, int number, ImmutableArray<Network> samples, ImmutableArray<SeriousFault> faults, WarmedState full, Action tick, CancellationToken stop)
    {
        var hookup = new Hookup(step.LampWatts, step.LineShare, step.Out);
        var hooked = set.Hooked(set.Network, hookup);
        var nominal = set.Settled(hooked, hookup, full);
        var values = nominal is null ? [] : set.Shown(nominal.Cycle);
        ImmutableArray<double>?[] Many(IReadOnlyList<Network> networks)
        {
            var results = new ImmutableArray<double>?[networks.Count];
            Parallel.For(0, networks.Count, new() { CancellationToken = stop }, k =>
            {
                results[k] = set.Settled(set.Hooked(networks[k], hookup), hookup, nominal) is { } s ? set.Shown(s.Cycle) : null;
                tick();
            });
            return results;
        }
        var healthy = Many(samples).OfType<ImmutableArray<double>>().ToArray();
        var broken = Many([.. faults.Select(f => f.In(set.Network))]);
        var expected = nominal is null ? [] : set.Watched.Select((w, k) => StopLimits.Of(w, values[k], [.. healthy.Select(h => h[k])],
            [.. faults.Select((f, i) => (f.Words, Value: broken[i]?[k] ?? double.NaN)).Where(f => double.IsFinite(f.Value))])).ToImmutableArray();
        return new()
        {
            Number = number, Title = step.Title, Connect = step.Connect, Purpose = step.Purpose, LampWatts = step.LampWatts, LineShare = step.LineShare, Out = step.Out, WaitSeconds = step.WaitSeconds,
            Glow = step.LampWatts is null || nominal is null ? null : Lamps.Glow(WakeSet.LampShare(nominal.Cycle, hooked)),
            Expected = [.. expected],
            Faults = [.. faults.Select((f, i) => new FaultShown(f.Words, f.Position, broken[i] ?? [], broken[i] is { } b && IsCaught([.. expected], b)))],
            Needs = step.Needs, Cautions = step.Cautions,
        };
    }

    /// <summary>How an electrolytic that stays is re-formed; <see cref="Reforming.Reason"/> says why not.</summary>
    /// <param name="solved">The set.</param>
    /// <param name="position">The capacitor.</param>
    /// <param name="with">Supply, resistors, months of storage.</param>
    public static Reforming Reform(SolveResult solved, string position, ReformingWith with) => Reforms.Of(solved, position, with);

    /// <summary>Every electrolytic that was decided to stay.</summary>
    public static ImmutableArray<string> Staying(SolveResult solved) => [.. Reforms.Staying(solved.Netlist.Map.Book)];

    /// <summary>Readings of a re-forming (minutes since it was joined, volts across the resistor), in order of time.</summary>
    public static ImmutableArray<ReformingReading> Judged(Reforming plan, ImmutableArray<(double Minutes, double Volts)> readings) => Reforms.Judged(plan, readings);

    /// <summary>Does any limit of a step catch these values?</summary>
    public static bool IsCaught(ImmutableArray<Expected> expected, ImmutableArray<double> shown) =>
        expected.Select((e, k) => (e, v: shown[k])).Any(x => x.v > x.e.StopAbove || x.v < x.e.StopBelow);

    /// <summary>The serious faults that look most like what was read at a step, nearest first; the number is how far off, 1 being as far as healthy sets and meters differ.</summary>
    /// <param name="step">The step.</param>
    /// <param name="read">Value of each watched quantity; null where not read.</param>
    public static ImmutableArray<(FaultShown Fault, double Off)> LikelyAt(WakeStep step, ImmutableArray<double?> read) => Likely.Of(step, read);

    /// <summary>Healthy sets: every part within its tolerance, every valve within the spread of new ones, the line a little off.</summary>
    private static ImmutableArray<Network> Samples(WakeSet set, int samples)
    {
        Spread[] spreads = [.. set.Solved.Netlist.Spreads.Where(s => s.Cause is SpreadCause.Tolerance or SpreadCause.Valve or SpreadCause.Declared)];
        var line = new Spread(set.Line.Name, Parameter.Volts, set.LineVolts, set.LineVolts * (1 - LineShare), set.LineVolts * (1 + LineShare), SpreadCause.Line);
        return [.. HealthySamples.Of([.. spreads, line], Math.Max(8, samples)).Select(changes =>
        {
            var volts = changes.First(c => c.Item1 == line.Element && c.Item2 == Parameter.Volts).Item3;
            return set.Network.Changed(changes.Where(c => c.Item1 != line.Element)).With(set.Line with { VoltsRms = volts });
        })];
    }

    private static ImmutableArray<CourseMoment> Course(WakeSet set, Hookup hookup, CancellationToken stop) =>
        [.. set.Warming(set.Hooked(set.Network, hookup), hookup, stop).Select(m => new CourseMoment(m.Seconds, set.Shown(m.State.Cycle), m.HeaterVolts.IsEmpty ? (0, 0) : (m.HeaterVolts.Values.Min(), m.HeaterVolts.Values.Max())))];

    private static ImmutableArray<string> Remarks(WakeSet set)
    {
        var remarks = ImmutableArray.CreateBuilder<string>();
        remarks.Add(string.Create(CultureInfo.InvariantCulture, $"Healthy sets: every part within its tolerance, valves within the spread of new ones, the line within {LineShare * 100:0} %; shown is the mean and {StopLimits.Deviations} standard deviations, never less than 3 % for meter and line."));
        remarks.Add("What lasts less than half a second is not computed: the reservoir filling, the iron's first inrush. The lamp may flash once at switch-on.");
        if (set.Network.Elements.Any(e => e is Transformer)) remarks.Add("What the transformer's iron takes by itself is computed from its inductance as far as that is known; a good one makes a limiter lamp glow hardly at all.");
        remarks.AddRange(set.Solved.Remarks);
        return remarks.ToImmutable();
    }
}
