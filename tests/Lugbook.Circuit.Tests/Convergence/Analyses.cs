using System.Diagnostics;
using System.Numerics;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Tests.Convergence;

/// <summary>Every analysis on one network; each either answers soundly or gives a reason with a node or an element in it.</summary>
internal sealed class Analyses
{
    /// <summary>What became of one analysis over many networks.</summary>
    public sealed class Count
    {
        public int Asked, Answered;
        public double Worst, Longest, All;
        public readonly Dictionary<string, int> Reasons = [];
    }

    /// <summary>The analyses by name.</summary>
    public static readonly string[] Names = ["operating point", "ohms", "impedance", "small signal", "sensitivity", "supply cycle", "time"];

    private readonly Dictionary<string, Count> _counts = [];
    private readonly Lock _lock = new();

    /// <summary>Counts by analysis.</summary>
    public IReadOnlyDictionary<string, Count> Counts => _counts;

    /// <summary>Runs all; what is drawn by chance comes from the network itself, so that a case repeats.</summary>
    public void Run(Network network, string? only = null)
    {
        var n = network.NodeCount;
        var (a, b) = (network.Elements.Length * 7 % n, network.Elements.Length * 3 % n);
        void Try(string analysis, Network asked, Func<double> worst)
        {
            if (only is null || only == analysis) One(analysis, asked, worst);
        }
        Try("operating point", network, () =>
        {
            var point = OperatingPoint.Of(network);
            Assert.All(point.Volts, v => Assert.True(double.IsFinite(v), "a voltage is no number"));
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
            foreach (var row in Sensitivity.Of(network, a, b)) Assert.All(row.VoltsPerLog, v => Assert.True(double.IsFinite(v), $"{row.Element} {row.Parameter}"));
            return 0;
        });
        var line = network.Elements.Any(e => e is Mains) ? network : network.Adding(new Mains("line", 1, 0, 117, RandomNetworks.Hertz, 0.4));
        Try("supply cycle", line, () =>
        {
            var state = Circuit.Supply.SteadyState(line, new() { StepsPerCycle = 64, Tolerance = 1e-6 });
            Assert.All(state.Cycle.Volts, moment => Assert.All(moment, v => Assert.True(double.IsFinite(v), "a voltage is no number")));
            Assert.InRange(state.Residual, 0, 1e-6);
            return 0;
        });
        Try("time", line, () =>
        {
            var course = Transient.Of(line, 0.02, new() { RelativeTolerance = 1e-3, AbsoluteVolts = 1e-3, MostSteps = 3000 });
            Assert.All(course.Volts, moment => Assert.All(moment, v => Assert.True(double.IsFinite(v), "a voltage is no number")));
            return 0;
        });
    }

    private void One(string analysis, Network network, Func<double> worst)
    {
        var clock = Stopwatch.StartNew();
        double? balance = null;
        string? reason = null;
        try
        {
            balance = worst();
            Assert.True(balance <= 1e-9, $"{balance} A are not accounted for");
        }
        catch (UnsolvableException e)
        {
            Assert.True(network.NodeNames.Contains(e.Node), $"{analysis}: no node is named: {e.Message}");
            Assert.True(e.Element is null || network.Elements.Any(x => x.Name == e.Element), $"{analysis}: no such element: {e.Message}");
            reason = Kind(e.Message);
            Assert.True(e.Element is not null, $"{analysis}: no element is named: {e.Message}");
        }
        catch (Exception e) when (e is not Xunit.Sdk.XunitException)
        {
            throw new InvalidOperationException($"{analysis}: {e}");
        }
        catch (Xunit.Sdk.XunitException e)
        {
            throw new InvalidOperationException($"{analysis}: {e.Message}");
        }
        lock (_lock)
        {
            if (!_counts.TryGetValue(analysis, out var count)) _counts.Add(analysis, count = new());
            count.Asked++;
            if (reason is not null) count.Reasons[reason] = count.Reasons.GetValueOrDefault(reason) + 1;
            if (balance is { } x) (count.Answered, count.Worst) = (count.Answered + 1, Math.Max(count.Worst, x));
            count.All += clock.Elapsed.TotalSeconds;
            count.Longest = Math.Max(count.Longest, clock.Elapsed.TotalSeconds);
        }
    }

    private static string Kind(string message) =>
        message.Contains("two different voltages", StringComparison.Ordinal) ? "two voltages for one node"
        : message.Contains("no current can return", StringComparison.Ordinal) ? "a current with no way back"
        : message.Contains("steps only", StringComparison.Ordinal) ? "too many steps"
        : message.Contains("still drifts", StringComparison.Ordinal) ? "no repeating cycle"
        : "does not settle";
}
