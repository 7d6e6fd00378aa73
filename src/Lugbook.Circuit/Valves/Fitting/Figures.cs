using System.Collections.Immutable;

namespace Lugbook.Circuit.Valves.Fitting;

/// <summary>The figures of a line: how far each is trusted, and how the law compares.</summary>
/// <remarks>
/// Standard deviations on the logarithm: what handbooks of different makers differ by for the same type. Plate current 3 %, screen current 8 %,
/// transconductance 6 %, amplification factor 4 %, plate resistance 15 % in a triode and 25 % in a pentode (often printed "approximately"), the current at
/// a printed cut-off voltage 35 % ("approximately" again), transconductance far down 25 %, conversion 10 %; half as much again where the line is from memory.
/// </remarks>
internal static class Figures
{
    private const double Robust = 2;

    public static int Count(HandbookLine line) => Given(line).Count;

    public static int Residuals(HandbookLine line, AtLine at, double[] into, int from)
    {
        foreach (var (quantity, given, sigma) in Given(line))
        {
            var off = Math.Log(Math.Max(Value(quantity, at), 1e-30) / given) / sigma;
            into[from++] = Math.Sign(off) * Math.Sqrt(2 * Robust * Robust * (Math.Sqrt(1 + off * off / (Robust * Robust)) - 1));
        }
        return from;
    }

    public static LineFit Compare(HandbookLine line, LineModel model)
    {
        var at = model.At(line);
        var figures = ImmutableArray.CreateBuilder<Comparison>();
        if (line.Kind == LineKind.Cutoff)
            figures.Add(new(Quantity.CutoffVolts, line.GridVolts ?? at.GridVolts, model.GridVoltsFor(line, line.PlateAmperes!.Value)));
        else
        {
            foreach (var (quantity, given, _) in Given(line)) figures.Add(new(quantity, given, Value(quantity, at)));
            if (line.Connection == Connection.Triode && line is { Mu: not null, PlateOhms: { } rp })
                figures.Add(new(Quantity.PlateResistance, rp, Value(Quantity.PlateResistance, at)));
        }
        return new(line, at.GridVolts, figures.ToImmutable());
    }

    private static double Value(Quantity quantity, AtLine at) => quantity switch
    {
        Quantity.PlateCurrent or Quantity.CutoffVolts => at.Flow.PlateAmperes,
        Quantity.ScreenCurrent => at.Flow.ScreenAmperes,
        Quantity.PlateResistance => 1 / at.Flow.PlateSiemens,
        Quantity.AmplificationFactor => at.Flow.Siemens / at.Flow.PlateSiemens,
        Quantity.ConversionTransconductance => at.Conversion,
        _ => at.Flow.Siemens,
    };

    private static List<(Quantity Quantity, double Given, double Sigma)> Given(HandbookLine line)
    {
        var trust = line.Confirmed ? 1 : 1.5;
        var given = new List<(Quantity, double, double)>();
        switch (line.Kind)
        {
            case LineKind.Cutoff:
                given.Add((Quantity.CutoffVolts, line.PlateAmperes!.Value, 0.35 * trust));
                return given;
            case LineKind.RemoteCutoff:
                given.Add((Quantity.RemoteTransconductance, line.Siemens!.Value, 0.25 * trust));
                return given;
        }
        if (line.PlateAmperes is { } ip) given.Add((Quantity.PlateCurrent, ip, (line.Kind == LineKind.Pulse ? 0.1 : 0.03) * trust));
        if (line.ScreenAmperes is { } isc) given.Add((Quantity.ScreenCurrent, isc, (line.Kind == LineKind.Pulse ? 0.2 : 0.08) * trust));
        if (line.Siemens is { } gm)
            given.Add(line.Kind == LineKind.Conversion ? (Quantity.ConversionTransconductance, gm, 0.1 * trust) : (Quantity.Transconductance, gm, 0.06 * trust));
        var triode = line.Connection is Connection.Triode or Connection.TriodeConnected;
        if (triode && line.Mu is { } mu) given.Add((Quantity.AmplificationFactor, mu, 0.04 * trust));
        else if (line.Connection != Connection.OscillatorTriode && line.PlateOhms is { } rp) given.Add((Quantity.PlateResistance, rp, (triode ? 0.15 : 0.25) * trust));
        return given;
    }
}
