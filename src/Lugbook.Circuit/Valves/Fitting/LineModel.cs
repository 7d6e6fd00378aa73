using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Valves.Fitting;

/// <summary>What a law says at a handbook line.</summary>
/// <param name="Flow">Currents and slopes; plate figures are sums where the screen is on the plate.</param>
/// <param name="GridVolts">Grid to cathode, V.</param>
/// <param name="Conversion">Conversion transconductance, S; 0 unless the oscillator runs.</param>
internal readonly record struct AtLine(Flow Flow, double GridVolts, double Conversion);

/// <summary>Laws of the three kinds behind one face, for fitting.</summary>
internal sealed class LineModel
{
    // Handbook converter lines are taken with separate excitation, 20 kΩ grid leak and 0.5 mA: the conditions printed beside 6SA7, 6BE6 and their like.
    private const double LeakOhms = 20e3;
    private const double LeakAmperes = 0.5e-3;

    private readonly TriodeLaw? _triode;
    private readonly PentodeLaw? _pentode;
    private readonly ConverterLaw? _converter;

    public LineModel(ValveClass valveClass, double[] fitted)
    {
        switch (valveClass)
        {
            case ValveClass.Triode: _triode = Shape.ToTriode(fitted); break;
            case ValveClass.Converter: _converter = Shape.ToConverter(fitted); break;
            default: _pentode = Shape.ToPentode(valveClass, fitted); break;
        }
    }

    /// <summary>Whether lines of such a connection can be fitted to a class.</summary>
    public static bool Fits(ValveClass valveClass, Connection connection) => valveClass switch
    {
        ValveClass.Triode => connection == Connection.Triode,
        ValveClass.Converter => connection is Connection.Converter or Connection.Heptode or Connection.OscillatorTriode,
        _ => connection is Connection.Pentode or Connection.TriodeConnected,
    };

    public AtLine At(HandbookLine line)
    {
        if (line.Connection == Connection.Converter)
        {
            var law = _converter!;
            var peak = law.OscillatorPeakVolts(LeakOhms, LeakAmperes);
            var bias = -LeakOhms * LeakAmperes;
            var flow = law.At(line.PlateVolts, line.ScreenVolts!.Value, line.Grid3Volts, bias, peak);
            return new(flow, bias, law.Conversion(line.PlateVolts, line.ScreenVolts.Value, line.Grid3Volts, bias, peak));
        }
        if (line.CathodeOhms is { } ohms)
        {
            var grid = SelfBias(line, ohms);
            return new(Fixed(line, line.VoltsToCathode ? 0 : -grid, grid), grid, 0);
        }
        return new(Fixed(line, 0, line.GridVolts!.Value), line.GridVolts.Value, 0);
    }

    /// <summary>The grid voltage at which the plate current is the line's, V: what a cut-off line states.</summary>
    public double GridVoltsFor(HandbookLine line, double plateAmperes)
    {
        var (low, high) = (-500.0, 20.0);
        for (var step = 0; step < 60; step++)
        {
            var middle = 0.5 * (low + high);
            if (Fixed(line, 0, middle).PlateAmperes < plateAmperes) low = middle;
            else high = middle;
        }
        return 0.5 * (low + high);
    }

    private Flow Fixed(HandbookLine line, double cathodeVolts, double grid)
    {
        var vp = line.PlateVolts - cathodeVolts;
        return line.Connection switch
        {
            Connection.Triode => _triode!.At(vp, grid),
            Connection.TriodeConnected => _pentode!.Triode(vp, grid),
            Connection.Pentode => _pentode!.At(vp, line.ScreenVolts!.Value - cathodeVolts, grid),
            Connection.Heptode => _converter!.At(vp, line.ScreenVolts!.Value - cathodeVolts, line.Grid3Volts, grid),
            _ => Whole(_converter!.At(vp, vp, line.Grid3Volts, grid)),
        };
    }

    private static Flow Whole(Flow f) => f with { PlateAmperes = f.PlateAmperes + f.ScreenAmperes, ScreenAmperes = 0, Siemens = f.Siemens + f.ScreenSiemens };

    // Grid volts −b at which the current through the resistor makes b: the gap grows steadily with b, so halving the interval is sure.
    private double SelfBias(HandbookLine line, double ohms)
    {
        var (low, high) = (0.0, line.PlateVolts);
        var b = 0.0;
        for (var step = 0; step < 50 && high - low > 1e-10; step++)
        {
            var flow = Fixed(line, line.VoltsToCathode ? 0 : b, -b);
            var gap = b - ohms * (flow.PlateAmperes + flow.ScreenAmperes);
            if (gap < 0) low = b;
            else high = b;
            var next = b - gap / (1 + ohms * (flow.Siemens + flow.ScreenSiemens));
            if (Math.Abs(next - b) < 1e-11) break;
            b = next > low && next < high ? next : 0.5 * (low + high);
        }
        return -b;
    }
}
