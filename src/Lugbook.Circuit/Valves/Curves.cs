using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Valves;

/// <summary>Currents and slopes of a valve at given voltages to cathode: A and S.</summary>
/// <param name="PlateAmperes">Plate current.</param>
/// <param name="ScreenAmperes">Screen current; 0 in a triode.</param>
/// <param name="GridAmperes">Current of grid 1.</param>
/// <param name="Siemens">Plate current by grid 1.</param>
/// <param name="PlateSiemens">Plate current by plate voltage: one over the plate resistance.</param>
/// <param name="ScreenSiemens">Screen current by grid 1.</param>
/// <param name="SignalSiemens">Plate current by grid 3; 0 without one.</param>
public readonly record struct Flow(double PlateAmperes, double ScreenAmperes, double GridAmperes, double Siemens, double PlateSiemens, double ScreenSiemens, double SignalSiemens);

/// <summary>The curves of a law, point by point: the same equations that the solver uses.</summary>
public static class Curves
{
    /// <summary>A triode at plate and grid volts.</summary>
    public static Flow At(this TriodeLaw law, double plateVolts, double gridVolts)
    {
        Span<One> i = stackalloc One[3];
        Span<One> g = stackalloc One[9];
        Run<TriodeDevice>(TriodeDevice.Of(law), [plateVolts, gridVolts, 0], i, g);
        return new(i[0].Value, 0, i[1].Value, g[1].Value, g[0].Value, 0, 0);
    }

    /// <summary>A pentode or beam valve at plate, screen and grid volts.</summary>
    public static Flow At(this PentodeLaw law, double plateVolts, double screenVolts, double gridVolts)
    {
        Span<One> i = stackalloc One[4];
        Span<One> g = stackalloc One[16];
        Run<PentodeDevice>(PentodeDevice.Of(law), [plateVolts, screenVolts, gridVolts, 0], i, g);
        return new(i[0].Value, i[1].Value, i[2].Value, g[2].Value, g[0].Value, g[6].Value, 0);
    }

    /// <summary>The same with the screen on the plate: the plate's figures are the sums.</summary>
    public static Flow Triode(this PentodeLaw law, double plateVolts, double gridVolts)
    {
        Span<One> i = stackalloc One[4];
        Span<One> g = stackalloc One[16];
        Run<PentodeDevice>(PentodeDevice.Of(law), [plateVolts, plateVolts, gridVolts, 0], i, g);
        return new(i[0].Value + i[1].Value, 0, i[2].Value, g[2].Value + g[6].Value, g[0].Value + g[1].Value + g[4].Value + g[5].Value, 0, 0);
    }

    /// <summary>A converter; currents are means over a cycle of the oscillation on grid 1, whose peak is given (0: none).</summary>
    public static Flow At(this ConverterLaw law, double plateVolts, double screenVolts, double signalVolts, double gridVolts, double oscillatorPeakVolts = 0)
    {
        Span<One> i = stackalloc One[5];
        Span<One> g = stackalloc One[25];
        Run<ConverterDevice>(ConverterDevice.Of(law, oscillatorPeakVolts), [plateVolts, screenVolts, signalVolts, gridVolts, 0], i, g);
        return new(i[0].Value, i[1].Value, i[3].Value, g[3].Value, g[0].Value, g[8].Value, g[2].Value);
    }

    /// <summary>A diode's current at a voltage, A.</summary>
    public static double At(this DiodeLaw law, double volts)
    {
        Span<One> i = stackalloc One[2];
        Span<One> g = stackalloc One[4];
        Run<DiodeDevice>(DiodeDevice.Of(law), [volts, 0], i, g);
        return i[0].Value;
    }

    /// <summary>Conversion transconductance: plate current at the difference frequency by signal voltage on grid 3, S.</summary>
    /// <remarks>Half the fundamental of the signal transconductance over a cycle (Herold, Proc. IRE 30, 1942).</remarks>
    public static double Conversion(this ConverterLaw law, double plateVolts, double screenVolts, double signalVolts, double gridVolts, double oscillatorPeakVolts)
    {
        var sum = 0.0;
        for (var k = 0; k < ConverterDevice.Points; k++)
        {
            var cosine = Math.Cos((k + 0.5) * Math.PI / ConverterDevice.Points);
            sum += law.At(plateVolts, screenVolts, signalVolts, gridVolts + oscillatorPeakVolts * cosine).SignalSiemens * cosine;
        }
        return sum / ConverterDevice.Points;
    }

    /// <summary>The peak of the oscillation that makes a given mean grid current through a grid leak, V.</summary>
    /// <param name="law">The converter.</param>
    /// <param name="leakOhms">Grid leak, Ω; above 0.</param>
    /// <param name="gridAmperes">Mean grid current, A; above 0. With a measured or printed grid voltage: that voltage over the leak.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public static double OscillatorPeakVolts(this ConverterLaw law, double leakOhms, double gridAmperes)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(leakOhms);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(gridAmperes);
        var bias = -leakOhms * gridAmperes;
        var (low, high) = (0.0, 100 - 4 * bias);
        for (var step = 0; step < 60; step++)
        {
            var middle = 0.5 * (low + high);
            if (law.At(0, 0, 0, bias, middle).GridAmperes < gridAmperes) low = middle;
            else high = middle;
        }
        return 0.5 * (low + high);
    }

    private static void Run<TDevice>(double[] parameters, ReadOnlySpan<double> volts, Span<One> i, Span<One> g) where TDevice : IDevice
    {
        Span<One> p = stackalloc One[parameters.Length];
        for (var k = 0; k < p.Length; k++) p[k] = new(parameters[k]);
        Span<One> v = stackalloc One[volts.Length];
        for (var k = 0; k < v.Length; k++) v[k] = new(volts[k]);
        TDevice.Evaluate<One>(p, v, i, g);
    }
}
