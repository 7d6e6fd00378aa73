using System.Collections.Immutable;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Valves.Fitting;

namespace Lugbook.Circuit.Valves;

/// <summary>What a handbook states of a valve at a line.</summary>
public enum Quantity
{
    /// <summary>Plate current, A.</summary>
    PlateCurrent,
    /// <summary>Screen current, A.</summary>
    ScreenCurrent,
    /// <summary>Transconductance, S.</summary>
    Transconductance,
    /// <summary>Plate resistance, Ω.</summary>
    PlateResistance,
    /// <summary>Amplification factor.</summary>
    AmplificationFactor,
    /// <summary>Grid voltage for a small plate current, V.</summary>
    CutoffVolts,
    /// <summary>Transconductance far down, S.</summary>
    RemoteTransconductance,
    /// <summary>Conversion transconductance, S.</summary>
    ConversionTransconductance,
}

/// <summary>A figure of a line beside the law's.</summary>
/// <param name="Quantity">What it is.</param>
/// <param name="Given">The handbook's.</param>
/// <param name="Predicted">The law's.</param>
public readonly record struct Comparison(Quantity Quantity, double Given, double Predicted)
{
    /// <summary>Predicted over given, less 1.</summary>
    public double Error => Predicted / Given - 1;
}

/// <summary>A line beside the law.</summary>
/// <param name="Line">The line.</param>
/// <param name="GridVolts">Grid to cathode there, V: as given, or as the self-bias makes it.</param>
/// <param name="Figures">Each figure that the line gives.</param>
public sealed record LineFit(HandbookLine Line, double GridVolts, ImmutableArray<Comparison> Figures);

/// <summary>A fitted number.</summary>
/// <param name="Name">Name.</param>
/// <param name="Value">Value, in the law's unit.</param>
/// <param name="Spread">Standard deviation of the fitted number: relative where the number is fitted as a logarithm, else in its own unit.</param>
/// <param name="Expected">What the class would have made it.</param>
/// <param name="Told">0 to 1: how much of it the lines told; the rest is expectation.</param>
public sealed record Parameter(string Name, double Value, double Spread, double Expected, double Told);

/// <summary>A law fitted to handbook lines. Exactly one of the three laws is there.</summary>
/// <param name="Class">Class.</param>
/// <param name="Triode">Law of a triode.</param>
/// <param name="Pentode">Law of a pentode or beam valve.</param>
/// <param name="Converter">Law of a converter.</param>
/// <param name="Lines">Each line beside the law.</param>
/// <param name="Parameters">The fitted numbers.</param>
/// <param name="Covariance">Covariance of the fitted numbers, in the order of <paramref name="Parameters"/>, on their fitted scales.</param>
/// <param name="Weak">Predictions that rest on the class rather than on this type's lines, in words, with the reason.</param>
public sealed record FittedLaw(
    ValveClass Class, TriodeLaw? Triode, PentodeLaw? Pentode, ConverterLaw? Converter,
    ImmutableArray<LineFit> Lines, ImmutableArray<Parameter> Parameters, ImmutableArray<ImmutableArray<double>> Covariance, ImmutableArray<string> Weak)
{
    /// <summary>Fitted numbers on their fitted scales.</summary>
    internal double[] Fitted { get; init; } = [];
    /// <summary>Standard deviations of the fitted numbers over those expected.</summary>
    internal double[] Untold { get; init; } = [];
}

/// <summary>Fits a valve's law to handbook lines.</summary>
public static class ValveFit
{
    /// <summary>The most probable law of a class, given lines.</summary>
    /// <param name="lines">Lines of one type and section; one or more.</param>
    /// <param name="valveClass">Its class.</param>
    /// <param name="priors">What is expected of the class; <see cref="ClassPriors.Physical"/> when nothing was learned.</param>
    /// <exception cref="ArgumentException">There is no line, or one whose connection does not go with the class.</exception>
    /// <remarks>
    /// Weighted least squares on the logarithms of the figures and on the expectations, pseudo-Huber beyond two standard deviations so that
    /// one misprinted line does not bend the law; Levenberg-Marquardt from three starts. Weights: docs/valves.md.
    /// </remarks>
    public static FittedLaw Of(IEnumerable<HandbookLine> lines, ValveClass valveClass, ClassPriors priors)
    {
        ArgumentNullException.ThrowIfNull(priors);
        ImmutableArray<HandbookLine> all = [.. lines];
        if (all.IsEmpty) throw new ArgumentException("A fit needs at least one handbook line.", nameof(lines));
        if (all.FirstOrDefault(l => !LineModel.Fits(valveClass, l.Connection)) is { } stranger)
            throw new ArgumentException($"Line {stranger.Line} ({stranger.Type}, {stranger.Connection}) is not of a {valveClass}.", nameof(lines));
        var shape = priors.For(valveClass);
        var figures = all.Sum(l => Figures.Count(l));
        void Residuals(double[] at, double[] r)
        {
            var model = new LineModel(valveClass, at);
            var k = 0;
            foreach (var line in all) k = Figures.Residuals(line, model.At(line), r, k);
            for (var a = 0; a < shape.Length; a++) r[k++] = (at[a] - shape[a].Mean) / shape[a].Spread;
        }

        LeastSquares.Minimum? best = null;
        foreach (var start in Starts(all, valveClass, shape))
        {
            var found = LeastSquares.From(Residuals, figures + shape.Length, start);
            if (best is null || found.Cost < best.Cost) best = found;
            // Half a standard deviation a figure on average: another start has nothing better to find.
            if (best.Cost < 0.125 * figures) break;
        }
        return Result(all, valveClass, shape, best!);
    }

    private static IEnumerable<double[]> Starts(ImmutableArray<HandbookLine> lines, ValveClass valveClass, ImmutableArray<Expectation> shape)
    {
        foreach (var shift in (double[])[0, 0.4, -0.4])
        {
            var start = shape.Select(e => e.Mean).ToArray();
            if (lines.Where(l => l.Connection is Connection.Triode or Connection.TriodeConnected or Connection.OscillatorTriode).Select(l => l.Mu ?? l.Siemens * l.PlateOhms).FirstOrDefault(m => m is not null) is { } mu)
                start[0] = Math.Log(mu);
            start[0] += shift;
            // The perveance that meets the first current given.
            var line = lines.FirstOrDefault(l => l.PlateAmperes is not null && l.Kind is not (LineKind.Cutoff or LineKind.RemoteCutoff)) ?? lines[0];
            for (var turn = 0; turn < 4; turn++)
            {
                var predicted = new LineModel(valveClass, start).At(line).Flow;
                var ratio = line.PlateAmperes is { } given ? given / predicted.PlateAmperes : line.Siemens!.Value / predicted.Siemens;
                if (double.IsFinite(ratio) && ratio > 0) start[1] += Math.Clamp(Math.Log(ratio), -4, 4);
            }
            yield return start;
        }
    }

    private static FittedLaw Result(ImmutableArray<HandbookLine> lines, ValveClass valveClass, ImmutableArray<Expectation> shape, LeastSquares.Minimum best)
    {
        var n = shape.Length;
        var rows = best.Jacobian.GetLength(0);
        var normal = new double[n, n];
        for (var a = 0; a < n; a++)
            for (var b = 0; b < n; b++)
                for (var k = 0; k < rows; k++) normal[a, b] += best.Jacobian[k, a] * best.Jacobian[k, b];
        var covariance = Cholesky.Inverse(normal) ?? new double[n, n];
        var untold = shape.Select((e, a) => Math.Min(1, Math.Sqrt(Math.Max(covariance[a, a], 0)) / e.Spread)).ToArray();
        var model = new LineModel(valveClass, best.At);
        var isTriode = valveClass == ValveClass.Triode;
        var isConverter = valveClass == ValveClass.Converter;
        return new(valveClass,
            isTriode ? Shape.ToTriode(best.At) : null,
            isTriode || isConverter ? null : Shape.ToPentode(valveClass, best.At),
            isConverter ? Shape.ToConverter(best.At) : null,
            [.. lines.Select(l => Figures.Compare(l, model))],
            [.. shape.Select((e, a) => new Parameter(e.Name, e.Value(best.At[a]), Math.Sqrt(Math.Max(covariance[a, a], 0)), e.Value(e.Mean), 1 - untold[a] * untold[a]))],
            [.. Enumerable.Range(0, n).Select(a => Enumerable.Range(0, n).Select(b => covariance[a, b]).ToImmutableArray())],
            Weakness.Of(lines, shape, untold))
        { Fitted = best.At, Untold = untold };
    }
}
