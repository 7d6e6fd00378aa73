using System.Collections.Immutable;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Solving;

/// <summary>How the currents of one element change with its parameters and with the voltages at its nodes.</summary>
internal static class Changes
{
    /// <summary>For each parameter: change of the current out of each node into the element for d(ln parameter) = 1, A.</summary>
    public static IEnumerable<(Parameter Parameter, int Index, (int Node, double Amperes)[] Change)> Of(Element element, ImmutableArray<double> volts)
    {
        switch (element)
        {
            case Control e:
                var (below, above) = (e.Ohms * e.Position, e.Ohms * (1 - e.Position));
                var (first, second) = (Ohms(e.A, e.Slider, below), Ohms(e.Slider, e.B, above));
                yield return (Parameter.Ohms, 0, [.. first, .. second]);
                // d ln(1 − p) = −p/(1 − p)·d ln p
                var share = -e.Position / (1 - e.Position);
                yield return (Parameter.Position, 0, [.. first, .. second.Select(c => (c.Node, share * c.Amperes))]);
                break;
            case Battery e:
                var emf = e.Volts / e.Ohms;
                yield return (Parameter.Ohms, 0, [.. Ohms(e.Plus, e.Minus, e.Ohms), (e.Plus, emf), (e.Minus, -emf)]);
                yield return (Parameter.Volts, 0, [(e.Plus, -emf), (e.Minus, emf)]);
                break;
            case CurrentDrain e: yield return (Parameter.Amperes, 0, [(e.A, e.Amperes), (e.B, -e.Amperes)]); break;
            case Diode e: yield return (Parameter.Perveance, 0, Numeric(h => e with { Law = e.Law with { Perveance = e.Law.Perveance * h } })); break;
            case GasRegulator e:
                // What the running voltage takes away is as if the anode stood lower.
                var slope = Slopes.Of(e, volts)!.Value.Siemens[0] * e.RunVolts;
                yield return (Parameter.Volts, 0, [(e.Anode, -slope), (e.Cathode, slope)]);
                yield return (Parameter.Ohms, 0, Numeric(h => e with { SlopeOhms = e.SlopeOhms * h }));
                break;
            case Triode e:
                yield return (Parameter.Perveance, 0, Numeric(h => e with { Law = e.Law with { Perveance = e.Law.Perveance * h } }));
                yield return (Parameter.Mu, 0, Numeric(h => e with { Law = e.Law with { Mu = e.Law.Mu * h } }));
                break;
            case Pentode e:
                yield return (Parameter.Perveance, 0, Numeric(h => e with { Law = e.Law with { Perveance = e.Law.Perveance * h } }));
                yield return (Parameter.Mu, 0, Numeric(h => e with { Law = e.Law with { ScreenMu = e.Law.ScreenMu * h } }));
                break;
            case Converter e:
                yield return (Parameter.Perveance, 0, Numeric(h => e with { Law = e.Law with { Perveance = e.Law.Perveance * h } }));
                yield return (Parameter.Mu, 0, Numeric(h => e with { Law = e.Law with { ScreenMu = e.Law.ScreenMu * h } }));
                if (e.OscillatorPeakVolts > 0) yield return (Parameter.OscillatorVolts, 0, Numeric(h => e with { OscillatorPeakVolts = e.OscillatorPeakVolts * h }));
                break;
            default:
                var index = 0;
                foreach (var (a, b, ohms) in Resistances(element)) yield return (Parameter.Ohms, index++, Ohms(a, b, ohms));
                break;
        }

        (int Node, double Amperes)[] Ohms(int a, int b, double ohms)
        {
            if (ohms == 0) return [];
            var amperes = (volts[a] - volts[b]) / ohms;
            return [(a, -amperes), (b, amperes)];
        }

        // The laws are smooth: a central difference over ±0.01 % is good to 1e-8.
        (int Node, double Amperes)[] Numeric(Func<double, Element> scaled)
        {
            const double h = 1e-4;
            var (up, down) = (Slopes.At(scaled(Math.Exp(h)), volts)!.Value, Slopes.At(scaled(Math.Exp(-h)), volts)!.Value);
            return [.. up.Nodes.Select((n, t) => (n, (up.Amperes[t] - down.Amperes[t]) / (2 * h)))];
        }
    }

    /// <summary>Entries of the nodal matrix: change of the current out of Row for 1 V at Column, S.</summary>
    public static IEnumerable<(int Row, int Column, double Siemens)> Conductances(Element element, ImmutableArray<double> volts)
    {
        if (Slopes.Of(element, volts) is { } slopes)
        {
            var n = slopes.Nodes.Length;
            for (var k = 0; k < n * n; k++) yield return (slopes.Nodes[k / n], slopes.Nodes[k % n], slopes.Siemens[k]);
        }
        foreach (var (a, b, ohms) in Resistances(element))
        {
            if (ohms == 0) continue;
            yield return (a, a, 1 / ohms);
            yield return (b, b, 1 / ohms);
            yield return (a, b, -1 / ohms);
            yield return (b, a, -1 / ohms);
        }
    }

    /// <summary>The resistances that direct current sees in an element.</summary>
    private static IEnumerable<(int A, int B, double Ohms)> Resistances(Element element) => element switch
    {
        Resistor e => [(e.A, e.B, e.Ohms)],
        Control e => [(e.A, e.Slider, e.Ohms * e.Position), (e.Slider, e.B, e.Ohms * (1 - e.Position))],
        Capacitor e => [(e.A, e.B, e.LeakOhms)],
        Inductor e => [(e.A, e.B, e.Ohms)],
        Transformer e => e.Windings.Select(w => (w.A, w.B, w.Ohms)),
        Fuse e => [(e.A, e.B, e.Ohms)],
        Filament e => [(e.A, e.B, e.RatedVolts / e.RatedAmperes)],
        Thermistor e => [(e.A, e.B, e.ColdOhms)],
        Mains e => [(e.A, e.B, e.Ohms)],
        Battery e => [(e.Plus, e.Minus, e.Ohms)],
        _ => [],
    };
}
