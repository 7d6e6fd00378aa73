using Lugbook.Circuit;
using Lugbook.Circuit.Elements;

namespace Lugbook.Restoration.Tests.Trace;

/// <summary>A valve or rectifier with other equations than the program's: space charge to the power of three halves (Child 1911, Langmuir 1913), grid current of the retarding field (exponential), an arctangent for the pentode's knee.</summary>
/// <remarks>Each is set so that it passes, in the set as it should be, what the program's law passes there; away from that point they part ways. A real piece then differs by its own emission and amplification.</remarks>
internal sealed record OtherLaw(string Name, int[] Nodes, Func<double[], double[]> Amperes)
{
    private const double GridVolts = 0.11, ContactVolts = 0.6, KneeVolts = 18;

    /// <summary>The law for one element of the set; null where it is no valve.</summary>
    /// <param name="element">The element.</param>
    /// <param name="at">Volts of the nodes at the nominal operating point.</param>
    /// <param name="now">The same element of the set at hand: on other nodes, or with less emission.</param>
    /// <param name="emission">This piece's emission over a usual one's.</param>
    /// <param name="gain">Its amplification factor over a usual one's.</param>
    public static OtherLaw? Of(Element element, double[] at, Element now, double emission, double gain)
    {
        var currents = Currents.Into(element, at);
        double Into(int node) => currents.Where(c => c.Node == node).Sum(c => c.Amperes);
        switch (element, now)
        {
            case (Triode e, Triode n):
            {
                var mu = e.Law.Mu * gain;
                var plate = Math.Max(Into(e.Plate), 1e-9);
                var drive = Drive(at[e.Grid] - at[e.Cathode], at[e.Plate] - at[e.Cathode], e.Law.Mu);
                var k = plate / Math.Pow(drive, 1.5) * emission * (n.Law.Perveance / e.Law.Perveance);
                var grid = Grid(at[e.Grid] - at[e.Cathode], Into(e.Grid));
                return new(e.Name, [n.Plate, n.Grid, n.Cathode], v =>
                {
                    var (vp, vg) = (v[0] - v[2], v[1] - v[2]);
                    var space = k * Math.Pow(Drive(vg, vp, mu), 1.5);
                    var p = vp > 0 ? space * vp / (vp + 2) : 0;
                    var g = grid(vg);
                    return [p, g, -p - g];
                });
            }
            case (Pentode e, Pentode n):
            {
                var (muS, muP) = (e.Law.ScreenMu * gain, e.Law.PlateMu);
                var (plate, screen) = (Math.Max(Into(e.Plate), 1e-9), e.Plate == e.Screen ? 0 : Math.Max(Into(e.Screen), 1e-10));
                var triode = e.Plate == e.Screen;
                var (vk, vs, vp) = (at[e.Cathode], at[e.Screen] - at[e.Cathode], at[e.Plate] - at[e.Cathode]);
                var drive = Drive(at[e.Grid] - vk, vs, e.Law.ScreenMu, vp / muP);
                var k = (plate + screen) / Math.Pow(drive, 1.5) * emission * (n.Law.Perveance / e.Law.Perveance);
                var knee = Math.Max(Knee(vp), 1e-3);
                var share = triode ? 1 : Math.Min(plate / (plate + screen) / knee, 0.98);
                var grid = Grid(at[e.Grid] - vk, Into(e.Grid));
                return new(e.Name, [n.Plate, n.Screen, n.Grid, n.Cathode], v =>
                {
                    var space = k * Math.Pow(Drive(v[2] - v[3], v[1] - v[3], muS, (v[0] - v[3]) / muP), 1.5);
                    var p = triode ? space : space * share * Knee(v[0] - v[3]);
                    var s = v[1] - v[3] > 0 ? space - p : 0;
                    var g = grid(v[2] - v[3]);
                    return [p, s, g, -p - s - g];
                });
            }
            case (Converter e, Converter n):
            {
                var (plate, screen, signal) = (Math.Max(Into(e.Plate), 1e-9), Math.Max(Into(e.Screen), 1e-9), at[e.Signal] - at[e.Cathode]);
                var mu = Math.Max(e.Law.ScreenMu, 5);
                var drive = Drive(signal * 0.5, at[e.Screen] - at[e.Cathode], mu);
                var k = (plate + screen) / Math.Pow(drive, 1.5) * emission * (n.Law.Perveance / e.Law.Perveance);
                var share = Math.Min(plate / (plate + screen) / Math.Max(Knee(at[e.Plate] - at[e.Cathode]), 1e-3), 0.95);
                var oscillator = Into(e.Oscillator) * (n.Law.Perveance / e.Law.Perveance > 1e-3 ? 1 : 0);
                var grid = Grid(signal, Into(e.Signal));
                return new(e.Name, [n.Plate, n.Screen, n.Signal, n.Oscillator, n.Cathode], v =>
                {
                    var space = k * Math.Pow(Drive((v[2] - v[4]) * 0.5, v[1] - v[4], mu), 1.5);
                    var p = space * share * Knee(v[0] - v[4]);
                    var g = grid(v[2] - v[4]);
                    return [p, space - p, g, oscillator, -space - g - oscillator];
                });
            }
            case (Diode e, Diode n):
            {
                var volts = at[e.Anode] - at[e.Cathode];
                var nominal = Math.Max(Into(e.Anode), 1e-10);
                var alive = emission * (n.Law.Perveance / e.Law.Perveance);
                // A rectifier that conducts, or a small diode near nothing.
                if (volts > 1)
                {
                    var k = nominal / Math.Pow(volts, 1.5) * alive;
                    return new(e.Name, [n.Anode, n.Cathode], v => { var i = k * Math.Pow(Soft(v[0] - v[1], 0.05), 1.5); return [i, -i]; });
                }
                var saturation = nominal / Math.Exp(Math.Min(volts, 2) / GridVolts) * alive;
                return new(e.Name, [n.Anode, n.Cathode], v => { var i = Exponential(saturation, v[0] - v[1]); return [i, -i]; });
            }
            default: return null;
        }
    }

    private static double Drive(double grid, double plate, double mu, double more = 0) => Math.Max(Soft(grid + ContactVolts + plate / mu + more, 0.12), 1e-6);
    private static double Knee(double volts) => volts <= 0 ? 0 : 2 / Math.PI * Math.Atan(volts / KneeVolts * 2);
    private static double Soft(double x, double width) => x > 30 * width ? x : width * Math.Log(1 + Math.Exp(x / width));

    // The grid's retarding field: a decade for a quarter of a volt; straight above a milliampere.
    private static Func<double, double> Grid(double at, double nominal)
    {
        var saturation = Math.Max(nominal, 1e-13) / Math.Exp(Math.Clamp(at, -5, 1) / GridVolts);
        saturation = Math.Clamp(saturation, 1e-10, 1e-5);
        return v => Exponential(saturation, v);
    }

    private static double Exponential(double saturation, double volts)
    {
        var knee = GridVolts * Math.Log(1e-3 / saturation);
        if (volts < knee) return saturation * Math.Exp(Math.Max(volts, -20) / GridVolts);
        return 1e-3 * (1 + (volts - knee) / GridVolts * 0.2);
    }
}
