using System.Numerics;
using Lugbook.Circuit.Alternating;
using Lugbook.Circuit.Cold;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit.Local;

/// <summary>Elements of a cold set as admittances at one frequency; 0 Hz is direct current.</summary>
internal static class ColdAdmittance
{
    // Between the windings of a transformer lie some tens of picofarads; they also keep a winding that nothing else ties from floating.
    private const double BetweenWindings = 50e-12;

    /// <summary>Hands out joins and admittances.</summary>
    /// <param name="elements">Any; what is open when cold is passed over.</param>
    /// <param name="hertz">Frequency, Hz; 0 for direct current.</param>
    /// <param name="join">Called for what joins two nodes.</param>
    /// <param name="add">Called for an admittance between two nodes, S.</param>
    public static void Of(IEnumerable<Element> elements, double hertz, Action<int, int> join, Action<int, int, Complex> add)
    {
        var omega = 2 * Math.PI * hertz;
        foreach (var element in elements)
        {
            switch (ColdView.Of(element))
            {
                case Resistor e: Ohms(e.A, e.B, e.Ohms); break;
                case Control e:
                    Ohms(e.A, e.Slider, e.Ohms * e.Position);
                    Ohms(e.Slider, e.B, e.Ohms * (1 - e.Position));
                    break;
                case Capacitor e when hertz == 0: Ohms(e.A, e.B, e.LeakOhms); break;
                case Capacitor e:
                    var inner = new Complex(1 / e.LeakOhms, omega * e.Farads);
                    if (inner != Complex.Zero) Ohms(e.A, e.B, e.SeriesOhms + 1 / inner);
                    break;
                case Inductor e: Ohms(e.A, e.B, new(e.Ohms, omega * e.Henries)); break;
                case Transformer e: Coupled(e); break;
                case Switch e: if (e.Closed) join(e.A, e.B); break;
                case Diode e: Ohms(e.Anode, e.Cathode, Rectifiers.OhmsAtRest(e.Law)); break;
            }
        }

        void Ohms(int a, int b, Complex ohms)
        {
            if (Complex.Abs(ohms) < AssemblyBuilder.LeastOhms) join(a, b);
            else if (Complex.IsFinite(ohms)) add(a, b, 1 / ohms);
        }

        void Coupled(Transformer e)
        {
            if (hertz == 0)
            {
                foreach (var w in e.Windings) Ohms(w.A, w.B, w.Ohms);
                return;
            }
            var n = e.Windings.Length;
            var z = new Complex[n, n];
            for (var i = 0; i < n; i++)
                for (var j = 0; j < n; j++)
                    z[i, j] = new(i == j ? e.Windings[i].Ohms : 0, omega * Math.Sqrt(e.Windings[i].Henries * e.Windings[j].Henries) * (i == j ? 1 : e.Coupling));
            var y = AtFrequency.Inverse(z);
            for (var i = 0; i < n; i++)
            {
                var w = e.Windings[i];
                add(w.A, w.B, y[i, i]);
                if (i > 0) add(e.Windings[0].A, w.A, new(0, omega * BetweenWindings));
                // Rows of the nodal matrix sum to 0, so that what one winding does to another is four admittances, two of them negative.
                for (var j = 0; j < i; j++)
                {
                    var v = e.Windings[j];
                    add(w.A, v.A, -y[i, j]);
                    add(w.B, v.B, -y[i, j]);
                    add(w.A, v.B, y[i, j]);
                    add(w.B, v.A, y[i, j]);
                }
            }
        }
    }
}
