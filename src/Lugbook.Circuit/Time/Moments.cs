namespace Lugbook.Circuit.Time;

/// <summary>The moments of one cycle, from 0 to its period, and where they must stand closer.</summary>
/// <remarks>
/// They are chosen from one cycle and then kept while the state that repeats is sought again: steps that followed the error all the while would make the end of a
/// cycle a broken function of its start, and Newton's method would not close.
/// </remarks>
internal static class Moments
{
    /// <summary>Steps to begin with.</summary>
    public const int Usual = 1024;
    /// <summary>How often steps are divided at most; each time into up to eight.</summary>
    public const int Rounds = 4;

    // Error allowed in the current of a capacitor, as a share of its largest; a coil's current stores, so its error adds up and less is allowed.
    private const double CurrentShare = 2e-4, CoilShare = 2e-5;
    private const int MostPieces = 8, MostMoments = 16_384;

    /// <summary>Equally spaced.</summary>
    public static double[] Equal(double period, int steps) => [.. Enumerable.Range(0, steps + 1).Select(k => k == steps ? period : k * (period / steps))];

    /// <summary>The part of the period that each moment but the first stands for (trapezoidal rule; the first moment and the last are one).</summary>
    public static double[] Shares(double[] moments)
    {
        var n = moments.Length - 1;
        double Length(int k) => moments[k % n + 1] - moments[k % n];
        return [.. Enumerable.Range(0, n).Select(k => (Length(k) + Length(k + 1)) / 2 / moments[n])];
    }

    /// <summary>Runs the cycle once more and divides the steps whose error is too large; null when none is. The stepper ends where it began.</summary>
    public static double[]? Divided(Layout layout, Stepper stepper, double[] moments)
    {
        var start = (double[])stepper.State.Clone();
        var steps = moments.Length - 1;
        var errors = new double[steps, layout.States];
        var largest = new double[layout.States];
        var at = 0;
        Shooting.Cycle(stepper, moments, t =>
        {
            var h = t - moments[at];
            foreach (var s in layout.Stores)
            {
                errors[at, s.State] = Math.Abs(stepper.Error[s.State]) * s.Element.Farads / h;
                largest[s.State] = Math.Max(largest[s.State], Math.Abs(stepper.StoreAmperes(s)));
            }
            foreach (var w in layout.Windings)
            {
                for (var p = w.State; p < w.State + w.Windings.Length; p++)
                {
                    errors[at, p] = Math.Abs(stepper.Error[p]);
                    largest[p] = Math.Max(largest[p], Math.Abs(stepper.State[p]));
                }
            }
            at++;
        }, first: false);
        start.CopyTo(stepper.State, 0);

        var worst = new double[steps];
        // What carries next to nothing shows only the rounding of what carries much.
        var floor = Math.Max(1e-4 * largest.DefaultIfEmpty().Max(), 1e-6);
        foreach (var s in layout.Stores) Judge(s.State, CurrentShare);
        foreach (var w in layout.Windings) for (var p = w.State; p < w.State + w.Windings.Length; p++) Judge(p, CoilShare);
        return worst.Any(w => w > 1) ? Divide(moments, worst) : null;

        void Judge(int state, double share)
        {
            for (var k = 0; k < steps; k++) worst[k] = Math.Max(worst[k], errors[k, state] / (share * Math.Max(largest[state], floor)));
        }
    }

    private static double[]? Divide(double[] moments, double[] worst)
    {
        var n = worst.Length;
        var pieces = new int[n];
        Array.Fill(pieces, 1);
        for (var k = 0; k < n; k++)
        {
            if (!(worst[k] > 1)) continue;
            // The error of a rate falls with the square of the step where all is smooth.
            pieces[k] = Math.Max(pieces[k], Math.Min(MostPieces, (int)Math.Ceiling(1.2 * Math.Sqrt(worst[k]))));
            // A jump moves a little when its steps become finer: its neighbours are divided too.
            foreach (var near in new[] { (k + n - 1) % n, (k + 1) % n }) pieces[near] = Math.Max(pieces[near], 2);
        }
        if (pieces.Sum() > MostMoments) return null;
        var finer = new List<double>(pieces.Sum() + 1) { 0 };
        for (var k = 0; k < n; k++)
        {
            for (var p = 1; p < pieces[k]; p++) finer.Add(moments[k] + (moments[k + 1] - moments[k]) * p / pieces[k]);
            finer.Add(moments[k + 1]);
        }
        return [.. finer];
    }
}
