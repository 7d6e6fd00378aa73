using System.Collections.Immutable;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Valves.Fitting;

/// <summary>One number that is fitted: its name, how it is written, and what is expected of it before any line is read.</summary>
/// <param name="Name">Name, as in the law.</param>
/// <param name="Scale">How the fitted number makes the law's.</param>
/// <param name="Mean">Expected fitted number.</param>
/// <param name="Spread">Its standard deviation.</param>
/// <param name="OfTheClass">Types of one class resemble each other in it, so that it is worth learning from the others.</param>
/// <param name="Prediction">What is weak when the lines do not tell it.</param>
internal sealed record Expectation(string Name, Scale Scale, double Mean, double Spread, bool OfTheClass, string Prediction)
{
    public double Value(double fitted) => Scale switch
    {
        Scale.Logarithm => Math.Exp(fitted),
        Scale.AboveOne => 1 + Math.Exp(fitted),
        Scale.Share => 1 / (1 + Math.Exp(-fitted)),
        _ => fitted,
    };
}

/// <summary>How a fitted number is written.</summary>
internal enum Scale
{
    /// <summary>As it is.</summary>
    Plain,
    /// <summary>Its natural logarithm: the number stays above 0.</summary>
    Logarithm,
    /// <summary>The logarithm of what it has above 1.</summary>
    AboveOne,
    /// <summary>Log-odds: the number stays between 0 and 1.</summary>
    Share,
}

/// <summary>The fitted numbers of each class and how a law is made of them.</summary>
/// <remarks>
/// Physical starting expectations: exponent near 3/2 (Child and Langmuir); contact potential and initial velocities 0.6 V (of the order of oxide
/// cathodes against plain grids); tail ω = w₁·µ between 0.09 and 0.26, which is µ/kp of the published triode parameter sets in
/// data/valves/published-tube-model-parameters.csv. Knee: from curve families of the class, from memory. <see cref="ClassPriors"/> then learns from
/// the types with several lines. Grid current: Kg = 0.3·K, contact 0.15 V, width 0.15 V puts the grid near −0.7 V through 10 MΩ, as handbooks
/// say of grid-leak bias (common practice, no source).
/// </remarks>
internal static class Shape
{
    private const double OnsetVolts = 0.1;
    private const double GridShare = 0.3;
    private const double GridContact = 0.15;
    private const double GridWidth = 0.15;

    private static Expectation Log(string name, double mean, double spread, bool ofTheClass, string prediction) =>
        new(name, Scale.Logarithm, Math.Log(mean), spread, ofTheClass, prediction);

    private const string Anywhere = "every current";
    private const string Bend = "current far from the lines' own grid voltages";
    private const string Tail = "current near cut-off";

    private static readonly ImmutableArray<Expectation> Triode =
    [
        Log("mu", 30, 1.2, false, "effect of the plate voltage"),
        Log("perveance", 1e-3, 2.5, false, Anywhere),
        new("exponent", Scale.AboveOne, Math.Log(0.48), 0.15, true, Bend),
        new("contact volts", Scale.Plain, 0.6, 0.25, true, "current near zero bias"),
        Log("tail", 0.16, 0.5, true, Tail),
    ];

    private static ImmutableArray<Expectation> Pentode(ValveClass valveClass)
    {
        var remote = valveClass == ValveClass.RemotePentode;
        var (ratio, ratioSpread, plate) = valveClass switch
        {
            ValveClass.Beam => (0.035, 0.5, 30.0),
            ValveClass.OutputPentode => (0.1, 0.5, 30.0),
            _ => (0.33, 0.25, 200.0),
        };
        var (knee, sharp) = valveClass == ValveClass.Beam ? (0.10, 2.0) : (0.11, 1.0);
        return
        [
            Log("screen mu", valveClass is ValveClass.Beam or ValveClass.OutputPentode ? 9 : 20, 0.6, false, "effect of the screen voltage"),
            Log("perveance", 1.5e-3, 2.5, false, Anywhere),
            new("exponent", Scale.AboveOne, Math.Log(0.48), 0.15, true, Bend),
            new("contact volts", Scale.Plain, 0.6, 0.25, true, "current near zero bias"),
            Log("tail", remote ? 0.3 : 0.16, 0.5, true, Tail),
            Log("screen ratio", ratio, ratioSpread, true, "screen current"),
            Log("screen fall", 0.35, 0.5, true, "screen current at a low plate voltage"),
            Log("plate over screen mu", plate, 1.0, true, "plate resistance"),
            Log("knee", knee, 0.3, true, "currents with the plate below the screen (the knee)"),
            new("knee sharpness", Scale.AboveOne, Math.Log(sharp), 0.3, true, "how sharply the knee bends"),
            .. remote
                ?
                [
                    new Expectation("remote share", Scale.Share, -1.5, 1.0, true, "remote cut-off: gain at a strong AVC voltage"),
                    new("remote widening", Scale.AboveOne, Math.Log(2.5), 0.5, true, "remote cut-off: gain at a strong AVC voltage"),
                ]
                : ImmutableArray<Expectation>.Empty,
        ];
    }

    private static readonly ImmutableArray<Expectation> Converter =
    [
        Log("screen mu", 20, 0.5, false, "effect of the screen voltage"),
        Log("perveance", 1.5e-3, 2.5, false, Anywhere),
        new("exponent", Scale.AboveOne, Math.Log(0.48), 0.15, true, Bend),
        new("contact volts", Scale.Plain, 0.6, 0.25, true, "current near zero bias"),
        Log("tail", 0.16, 0.5, true, Tail),
        new("plate share", Scale.Share, 0.6, 0.5, true, "division between plate and screens"),
        Log("grid 3 to screen mu", 30, 0.6, true, "division between plate and screens"),
        Log("grid 3 to plate mu", 400, 0.8, true, "plate resistance"),
        Log("grid 3 tail", 4.5, 0.3, true, "gain at a strong AVC voltage on grid 3"),
        Log("grid 3 half", 4, 0.6, true, "conversion gain"),
    ];

    private static readonly Dictionary<ValveClass, ImmutableArray<Expectation>> All = Enum.GetValues<ValveClass>().ToDictionary(c => c, c => c switch
    {
        ValveClass.Triode => Triode,
        ValveClass.Converter => Converter,
        _ => Pentode(c),
    });

    public static ImmutableArray<Expectation> Of(ValveClass valveClass) => All[valveClass];

    private static double[] Values(ValveClass valveClass, double[] fitted)
    {
        var shape = Of(valveClass);
        var values = new double[fitted.Length];
        for (var k = 0; k < values.Length; k++) values[k] = shape[k].Value(fitted[k]);
        return values;
    }

    public static TriodeLaw ToTriode(double[] fitted)
    {
        var v = Values(ValveClass.Triode, fitted);
        return new(v[0], v[1], v[2], v[3], OnsetVolts, v[4] / v[0], GridShare * v[1], GridContact, GridWidth);
    }

    public static PentodeLaw ToPentode(ValveClass valveClass, double[] fitted)
    {
        var v = Values(valveClass, fitted);
        var remote = v.Length > 10;
        return new(v[0], v[0] * v[7], v[1], v[2], v[3], OnsetVolts, v[4] / v[0], remote ? v[10] : 0, remote ? v[11] : 1,
            v[5], v[6], v[8], v[9], GridShare * v[1], GridContact, GridWidth);
    }

    public static ConverterLaw ToConverter(double[] fitted)
    {
        var v = Values(ValveClass.Converter, fitted);
        return new(v[0], v[1], v[2], v[3], OnsetVolts, v[4] / v[0], v[5], v[6], v[7], v[8], v[9], 12, GridShare * v[1], GridContact, GridWidth);
    }
}
