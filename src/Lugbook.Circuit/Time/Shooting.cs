using System.Globalization;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Time;

/// <summary>Newton's method on the state at the start of a cycle.</summary>
internal static class Shooting
{
    private const int FirstCycles = 2, Undamped = 20;
    private const double LeastShare = 0.1, WellShare = 0.2;

    /// <summary>Leaves the stepper in the state that repeats.</summary>
    /// <param name="layout">The network's states.</param>
    /// <param name="stepper">At a state to begin from.</param>
    /// <param name="moments">One cycle.</param>
    /// <param name="options">Tolerance and corrections.</param>
    /// <param name="left">1 − dx/dx0 of a network that is near, or null; afterwards that of this one. Near ones serve until the drift no longer falls well with them.</param>
    /// <param name="residual">Change over a cycle that is left.</param>
    /// <returns>How many corrections it took.</returns>
    /// <exception cref="UnsolvableException">It was not found.</exception>
    public static int Solve(Layout layout, Stepper stepper, double[] moments, SupplyOptions options, ref double[,]? left, out double residual)
    {
        var m = stepper.State.Length;
        var (count, period) = (layout.Warms.Count, moments[^1]);
        residual = double.PositiveInfinity;
        Correction? last = null;
        var drift = new double[m];
        var heat = new (double State, double Change)?[count];
        var borrowed = left is not null;
        var carry = !borrowed;
        for (var correction = 0; correction <= options.MostCorrections; correction++)
        {
            var from = (double[])stepper.State.Clone();
            stepper.By = carry ? Unit(m) : null;
            double[] watts = new double[count], before = [.. Enumerable.Range(0, count).Select(stepper.Watts)];
            var at = 0.0;
            Cycle(stepper, moments, t =>
            {
                for (var k = 0; k < count; k++)
                {
                    var now = stepper.Watts(k);
                    watts[k] += (before[k] + now) / 2 * (t - at) / period;
                    before[k] = now;
                }
                at = t;
            }, first: false);
            var by = stepper.By;
            stepper.By = null;
            for (var k = 0; k < m; k++) drift[k] = stepper.State[k] - from[k];
            var relative = Relative(layout, stepper, drift);
            residual = Math.Max(relative, Warm(layout, stepper, watts, heat, correction >= Undamped));
            if (residual <= options.Tolerance)
            {
                from.CopyTo(stepper.State, 0);
                return correction;
            }
            // What was borrowed and leads away is given back.
            if (borrowed && last is not null && !(relative <= last.Drift) && relative > 10 * options.Tolerance)
            {
                last.From.CopyTo(stepper.State, 0);
                (last, borrowed, carry) = (null, false, true);
                continue;
            }
            // A correction that made the drift grow is halved; what still swings between two states after many is damped.
            if (last is { Share: > LeastShare } && relative > 10 * options.Tolerance && !(relative <= last.Drift))
            {
                carry = true;
                last = last with { Share = last.Share / 2 };
                last.Put(stepper.State);
                continue;
            }
            // x(T; x0) = x0: (1 − dx/dx0)·step = drift. Derivatives take more than half of a cycle's time: those of a cycle before serve as long as the drift falls well with them.
            if (by is not null)
            {
                (left, borrowed) = (Unit(m), false);
                for (var r = 0; r < m; r++)
                    for (var c = 0; c < m; c++) left[r, c] -= by[r, c];
            }
            carry = relative > options.Tolerance && last is not null && relative > WellShare * last.Drift;
            var right = new double[m, 1];
            for (var r = 0; r < m; r++) right[r, 0] = drift[r];
            // Something that a cycle neither charges nor drains leaves the matrix singular: then time itself goes on.
            if (Dense.Solve(left!, right) is not { } step || !Sound(step, layout, from))
            {
                (last, carry) = (null, true);
                continue;
            }
            last = new(from, step, correction < Undamped ? 1 : 0.5, relative);
            last.Put(stepper.State);
        }
        throw Drifting(layout, drift, residual, options.MostCorrections);
    }

    /// <summary>A Newton correction and how much of it was taken.</summary>
    private sealed record Correction(double[] From, double[,] Step, double Share, double Drift)
    {
        public void Put(double[] state)
        {
            for (var k = 0; k < state.Length; k++) state[k] = From[k] + Share * Step[k, 0];
        }
    }

    private static UnsolvableException Drifting(Layout layout, double[] drift, double residual, int corrections)
    {
        // The capacitor that moves most; without one the winding; without either what does not come to its heat.
        var element = layout.Stores.OrderByDescending(s => Math.Abs(drift[s.State])).Select(s => (Element)s.Element).FirstOrDefault()
            ?? layout.Windings.OrderByDescending(w => Math.Abs(drift[w.State])).Select(w => w.Element).FirstOrDefault() ?? layout.Warms[0].Element;
        var node = layout.Network.NodeNames[Terminals.Of(element)[0]];
        return new(
            string.Create(CultureInfo.InvariantCulture, $"The supply still drifts by {residual:0.#e+0} of its voltage a cycle after {corrections} corrections, most at '{element.Name}', node {node}. Check for a capacitor that nothing discharges, or allow more corrections."),
            node, element.Name, double.NaN);
    }

    /// <summary>A few cycles from nothing, to come near.</summary>
    public static void Begin(Stepper stepper, double[] moments)
    {
        for (var k = 0; k < FirstCycles; k++) Cycle(stepper, moments, null);
    }

    /// <summary>One cycle from moment to moment; a step that does not settle is divided.</summary>
    public static void Cycle(Stepper stepper, double[] moments, Action<double>? each, bool first = true)
    {
        if (first && each is not null)
        {
            if (!stepper.Rest(0, moments[1] * 1e-3)) throw stepper.Stuck(0);
            each(0);
        }
        var volts = new Lanes.One[stepper.Volts.Length];
        for (var k = 0; k + 1 < moments.Length; k++)
        {
            stepper.Volts.CopyTo(volts, 0);
            var h = moments[k + 1] - moments[k];
            if (!stepper.Step(moments[k], h))
            {
                volts.CopyTo(stepper.Volts, 0);
                Divided(stepper, moments[k], h, 1);
            }
            stepper.SetGlows();
            each?.Invoke(moments[k + 1]);
        }
    }

    private static void Divided(Stepper stepper, double t, double h, int depth)
    {
        if (depth > 12) throw stepper.Stuck(t);
        for (var k = 0; k < 2; k++)
        {
            var volts = stepper.Volts.ToArray();
            if (stepper.Step(t + k * h / 2, h / 2)) continue;
            volts.CopyTo(stepper.Volts, 0);
            Divided(stepper, t + k * h / 2, h / 2, depth + 1);
        }
    }

    /// <summary>Largest drift as a share of the largest state of its sort; of a volt and ten milliamperes where all is dead, as behind a short.</summary>
    private static double Relative(Layout layout, Stepper stepper, double[] drift)
    {
        double volts = 1, amperes = 0.01, worst = 0;
        foreach (var s in layout.Stores) volts = Math.Max(volts, Math.Abs(stepper.State[s.State]));
        foreach (var w in layout.Windings) for (var p = 0; p < w.Windings.Length; p++) amperes = Math.Max(amperes, Math.Abs(stepper.State[w.State + p]));
        foreach (var s in layout.Stores) worst = Math.Max(worst, Math.Abs(drift[s.State]) / volts);
        foreach (var w in layout.Windings) for (var p = 0; p < w.Windings.Length; p++) worst = Math.Max(worst, Math.Abs(drift[w.State + p]) / amperes);
        return worst;
    }

    /// <summary>Brings heat to what the mean power asks for; returns the change as a share. A filament by the secant of its last two changes, a thermistor, which may run away, and what swings for long, half-way.</summary>
    private static double Warm(Layout layout, Stepper stepper, double[] watts, (double State, double Change)?[] before, bool damped)
    {
        double worst = 0;
        for (var k = 0; k < watts.Length; k++)
        {
            var element = layout.Warms[k].Element;
            var state = stepper.HeatStates[k];
            var change = Heat.AtRest(element, watts[k]) - state;
            worst = Math.Max(worst, Math.Abs(change) / (element is Filament ? 1 : 100));
            // Heat falls with what resistance takes: by about −1.3 for a filament on a fixed voltage, −0.7 for one on a fixed current.
            var slope = before[k] is { } last && state != last.State ? Math.Clamp((change - last.Change) / (state - last.State), -2, -0.6) : -1;
            before[k] = (state, change);
            stepper.HeatStates[k] += element is Filament && !damped ? -change / slope : 0.5 * change;
        }
        stepper.SetHeat();
        return worst;
    }

    private static bool Sound(double[,] step, Layout layout, double[] from)
    {
        double most = 1;
        foreach (var s in layout.Stores) most = Math.Max(most, Math.Abs(from[s.State]));
        foreach (var l in layout.Lines) most = Math.Max(most, 2 * l.Element.VoltsRms);
        foreach (var v in step) if (!double.IsFinite(v)) return false;
        foreach (var s in layout.Stores) if (Math.Abs(step[s.State, 0]) > 20 * most) return false;
        return true;
    }

    private static double[,] Unit(int m)
    {
        var unit = new double[m, m];
        for (var k = 0; k < m; k++) unit[k, k] = 1;
        return unit;
    }
}
