using Lugbook.Circuit;
using Lugbook.Circuit.Elements;

namespace Lugbook.Restoration.Tests.Trace;

/// <summary>Direct volts of a set with other valve laws, by a plain Newton iteration on dense matrices: nothing of it is the program's.</summary>
internal static class OtherSolver
{
    private const double LeakSiemens = 1e-12;

    /// <summary>Volts of every node; null where it does not settle.</summary>
    /// <param name="network">The set for direct current.</param>
    /// <param name="laws">Its valves and rectifiers.</param>
    /// <param name="start">Where to start; nodes beyond are 0 V.</param>
    public static double[]? Volts(Network network, IReadOnlyList<OtherLaw> laws, double[] start)
    {
        var n = network.NodeCount;
        var g = new double[n, n];
        var current = new double[n];
        void Conduct(int a, int b, double siemens)
        {
            g[a, a] += siemens;
            g[b, b] += siemens;
            g[a, b] -= siemens;
            g[b, a] -= siemens;
        }
        void Ohms(int a, int b, double ohms) { if (double.IsFinite(ohms)) Conduct(a, b, 1 / Math.Max(ohms, 0.02)); }
        foreach (var element in network.Elements)
        {
            switch (element)
            {
                case Resistor e: Ohms(e.A, e.B, e.Ohms); break;
                case Control e: Ohms(e.A, e.Slider, e.Ohms * e.Position); Ohms(e.Slider, e.B, e.Ohms * (1 - e.Position)); break;
                case Capacitor e: Ohms(e.A, e.B, e.LeakOhms); break;
                case Inductor e: Ohms(e.A, e.B, e.Ohms); break;
                case Transformer e: foreach (var w in e.Windings) Ohms(w.A, w.B, w.Ohms); break;
                case Switch e: if (e.Closed) Ohms(e.A, e.B, 0); break;
                case Fuse e: Ohms(e.A, e.B, e.Ohms); break;
                case Filament e: Ohms(e.A, e.B, e.RatedVolts / e.RatedAmperes); break;
                case Thermistor e: Ohms(e.A, e.B, e.ColdOhms); break;
                case Mains e: Ohms(e.A, e.B, e.Ohms); break;
                case Battery e: Conduct(e.Plus, e.Minus, 1 / e.Ohms); current[e.Plus] += e.Volts / e.Ohms; current[e.Minus] -= e.Volts / e.Ohms; break;
                case CurrentDrain e: current[e.A] -= e.Amperes; current[e.B] += e.Amperes; break;
                case Declared e: g[e.Node, e.Node] += 1e3; current[e.Node] += 1e3 * e.Volts; break;
                case GasRegulator e: Conduct(e.Anode, e.Cathode, 1 / e.SlopeOhms); current[e.Anode] += e.RunVolts / e.SlopeOhms; current[e.Cathode] -= e.RunVolts / e.SlopeOhms; break;
            }
        }
        for (var k = 0; k < n; k++) g[k, k] += LeakSiemens;
        foreach (var begin in new[] { start, new double[start.Length] })
        {
            var v = new double[n];
            Array.Copy(begin, v, Math.Min(begin.Length, n));
            var settled = true;
            foreach (var shunt in begin == start ? new[] { 0.0 } : [1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-10, 0])
                settled = Newton(network.Reference, g, current, laws, v, shunt);
            if (settled) return v;
        }
        return null;
    }

    private static bool Newton(int reference, double[,] g, double[] current, IReadOnlyList<OtherLaw> laws, double[] v, double shunt)
    {
        var n = v.Length;
        var norm = Norm(Residual(reference, g, current, laws, v, shunt));
        for (var step = 0; step < 200; step++)
        {
            var (j, r) = ((double[,])g.Clone(), Residual(reference, g, current, laws, v, shunt));
            for (var k = 0; k < n; k++) j[k, k] += shunt;
            foreach (var law in laws) Slopes(law, v, j);
            for (var k = 0; k < n; k++) j[reference, k] = k == reference ? 1 : 0;
            var d = Solved(j, r);
            if (d is null) return false;
            var largest = d.Max(Math.Abs);
            // Steps are cut to what the laws' bends allow.
            var share = Math.Min(1, 30 / Math.Max(largest, 1e-12));
            var next = new double[n];
            for (var halving = 0; halving < 12; halving++, share /= 2)
            {
                for (var k = 0; k < n; k++) next[k] = v[k] - share * d[k];
                var now = Norm(Residual(reference, g, current, laws, next, shunt));
                if (now <= norm * 1.0001 || now < 1e-9 || halving == 11) { norm = now; break; }
            }
            next.CopyTo(v, 0);
            if (largest < 1e-6 && norm < 1e-8) return true;
        }
        return norm < 1e-8;
    }

    private static double[] Residual(int reference, double[,] g, double[] current, IReadOnlyList<OtherLaw> laws, double[] v, double shunt)
    {
        var n = v.Length;
        var r = new double[n];
        for (var i = 0; i < n; i++)
        {
            var sum = shunt * v[i] - current[i];
            for (var k = 0; k < n; k++) sum += g[i, k] * v[k];
            r[i] = sum;
        }
        foreach (var law in laws)
        {
            var i = law.Amperes([.. law.Nodes.Select(x => v[x])]);
            for (var k = 0; k < i.Length; k++) r[law.Nodes[k]] += i[k];
        }
        r[reference] = v[reference];
        return r;
    }

    private static void Slopes(OtherLaw law, double[] v, double[,] j)
    {
        double[] at = [.. law.Nodes.Select(x => v[x])];
        for (var c = 0; c < at.Length; c++)
        {
            var h = 1e-5 * Math.Max(1, Math.Abs(at[c]));
            var (up, down) = ((double[])at.Clone(), (double[])at.Clone());
            up[c] += h;
            down[c] -= h;
            var (a, b) = (law.Amperes(up), law.Amperes(down));
            for (var k = 0; k < a.Length; k++) j[law.Nodes[k], law.Nodes[c]] += (a[k] - b[k]) / (2 * h);
        }
    }

    private static double Norm(double[] r) => r.Max(x => double.IsNaN(x) ? double.PositiveInfinity : Math.Abs(x));

    private static double[]? Solved(double[,] a, double[] b)
    {
        var n = b.Length;
        var x = (double[])b.Clone();
        for (var c = 0; c < n; c++)
        {
            var p = c;
            for (var r = c + 1; r < n; r++) if (Math.Abs(a[r, c]) > Math.Abs(a[p, c])) p = r;
            if (!(Math.Abs(a[p, c]) > 1e-30)) return null;
            if (p != c)
            {
                for (var k = c; k < n; k++) (a[c, k], a[p, k]) = (a[p, k], a[c, k]);
                (x[c], x[p]) = (x[p], x[c]);
            }
            for (var r = c + 1; r < n; r++)
            {
                var f = a[r, c] / a[c, c];
                if (f == 0) continue;
                for (var k = c; k < n; k++) a[r, k] -= f * a[c, k];
                x[r] -= f * x[c];
            }
        }
        for (var c = n - 1; c >= 0; c--)
        {
            for (var k = c + 1; k < n; k++) x[c] -= a[c, k] * x[k];
            x[c] /= a[c, c];
        }
        return x;
    }
}
