using System.Collections.Concurrent;
using System.Diagnostics;
using System.Numerics;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Tests.Convergence;

/// <summary>Every analysis on one network; each either answers soundly or gives a reason with a node and an element in it.</summary>
internal sealed class Analyses
{
    /// <summary>Each how-manieth network is asked: following time and a whole cycle takes a hundred times as long as the rest together.</summary>
    private const int TimeEvery = 4, SupplyEvery = 10;

    /// <summary>What became of one analysis of one network.</summary>
    /// <param name="Analysis">Which.</param>
    /// <param name="Reason">Why there is no answer; null when there is one.</param>
    /// <param name="Amperes">Largest current that is not accounted for, where that can be told.</param>
    /// <param name="Seconds">How long it took.</param>
    public sealed record Outcome(string Analysis, string? Reason, double Amperes, double Seconds);

    private int _networks;

    /// <summary>All that was asked.</summary>
    public ConcurrentBag<Outcome> Outcomes { get; } = [];

    /// <summary>Runs all. Nodes that are asked for come from the network itself, so that a case repeats.</summary>
    public void Run(Network network)
    {
        var number = Interlocked.Increment(ref _networks);
        var n = network.NodeCount;
        var (a, b) = (network.Elements.Length * 7 % n, network.Elements.Length * 3 % n);
        Try("operating point", network, () =>
        {
            var point = OperatingPoint.Of(network);
            AllFinite(point.Volts);
            Assert.InRange(point.ResidualAmperes, 0, 1e-9);
            return Balance.Worst(network, point.Volts.AsSpan());
        });
        Try("ohms", network, () =>
        {
            var reading = Ohms.Between(network, a, b);
            Assert.True(reading is { Ohms: >= 0, ReversedOhms: >= 0, SettlingSeconds: >= 0 }, reading.ToString());
            return 0;
        });
        Try("impedance", network, () =>
        {
            var z = Impedance.Between(network, a, b, 1000);
            Assert.False(double.IsNaN(z.Magnitude), "an impedance is no number");
            // docs/circuit.md: the small real part is good to 1e-3 of the magnitude.
            Assert.True(!double.IsFinite(z.Magnitude) || z.Ohms.Real >= -1e-3 * z.Magnitude, $"{z.Ohms} gives power");
            return 0;
        });
        Try("small signal", network, () =>
        {
            var gain = SmallSignal.Gain(network, 1, b, 1000);
            Assert.True(Complex.IsFinite(gain), $"gain {gain}");
            return 0;
        });
        Try("sensitivity", network, () =>
        {
            foreach (var row in Sensitivity.Of(network, a, b)) AllFinite(row.VoltsPerLog);
            return 0;
        });
        var line = network.Elements.Any(e => e is Mains) ? network : network.Adding(new Mains("line", 1, 0, 117, RandomNetworks.Hertz, 0.4));
        if (number % SupplyEvery == 0)
        {
            Try("supply cycle", line, () =>
            {
                var state = Circuit.Supply.SteadyState(line, new() { StepsPerCycle = 64, Tolerance = 1e-6 });
                foreach (var moment in state.Cycle.Volts) AllFinite(moment);
                Assert.InRange(state.Residual, 0, 1e-6);
                return 0;
            });
        }
        if (number % TimeEvery == 0)
        {
            Try("time", line, () =>
            {
                var course = Transient.Of(line, 0.02, new() { RelativeTolerance = 1e-3, AbsoluteVolts = 1e-3, MostSteps = 3000 });
                foreach (var moment in course.Volts) AllFinite(moment);
                return 0;
            });
        }
    }

    private void Try(string analysis, Network network, Func<double> amperes)
    {
        var clock = Stopwatch.StartNew();
        Outcome Done(string? reason, double worst) => new(analysis, reason, worst, clock.Elapsed.TotalSeconds);
        try
        {
            var worst = amperes();
            Assert.True(worst <= 1e-9, $"{analysis}: {worst} A are not accounted for");
            Outcomes.Add(Done(null, worst));
        }
        catch (UnsolvableException e)
        {
            Assert.True(network.NodeNames.Contains(e.Node), $"{analysis}: no node is named: {e.Message}");
            Assert.True(network.Elements.Any(x => x.Name == e.Element), $"{analysis}: no element is named: {e.Message}");
            Assert.Contains($"'{e.Element}'", e.Message, StringComparison.Ordinal);
            Outcomes.Add(Done(Kind(e.Message), 0));
        }
        catch (Exception e) when (e is not Xunit.Sdk.XunitException)
        {
            throw new InvalidOperationException($"{analysis}: {e}", e);
        }
        catch (Xunit.Sdk.XunitException e)
        {
            throw new InvalidOperationException($"{analysis}: {e.Message}", e);
        }
    }

    private static void AllFinite(IEnumerable<double> values)
    {
        foreach (var v in values) Assert.True(double.IsFinite(v), "a number is none");
    }

    private static string Kind(string message) =>
        message.Contains("two different voltages", StringComparison.Ordinal) ? "two voltages are given for one node"
        : message.Contains("no current can return", StringComparison.Ordinal) ? "a current is driven where none can return"
        : message.Contains("steps only", StringComparison.Ordinal) ? "more steps than allowed (ringing of megahertz)"
        : message.Contains("still drifts", StringComparison.Ordinal) ? "no cycle repeats itself"
        : "does not settle";
}
