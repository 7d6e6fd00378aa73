using System.Collections.Immutable;
using System.Runtime.Intrinsics;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;
using Lugbook.Circuit.Solving;
using Lugbook.Circuit.Variants;

namespace Lugbook.Circuit;

/// <summary>One parameter that differs between the variants of a network.</summary>
/// <param name="Element">The element's name.</param>
/// <param name="Parameter">What of it. A capacitor's <see cref="Parameter.Ohms"/> is its leakage, a switch's its contact.</param>
public readonly record struct Varied(string Element, Parameter Parameter);

/// <summary>Operating points of many variants of one network: tolerance samples, faults, slips.</summary>
/// <remarks>
/// Ordering and symbolic analysis are done once; four or eight variants run side by side in one register; all cores; nothing is allocated for a variant that settles. Every variant starts from the
/// nominal point, so an answer depends neither on its neighbours nor on the order nor on the number of cores. What does not settle so is solved alone with all of
/// <see cref="OperatingPoint"/>'s attempts. What open parts leave untied is insulated, or pinned to 0 V where it floats, as in a network of its own. A varied resistance below 0.1 Ω counts as 0.1 Ω.
/// </remarks>
public sealed class Batch
{
    private const int FewSteps = 6, ManySteps = 120;
    private const double PromisedAmperes = 1e-9;

    private readonly Network _network;
    private readonly ImmutableArray<Varied> _varied;
    private readonly Element[] _elements;
    private readonly Assembly _assembly;
    private readonly int[] _joinedOf;
    private readonly Write[] _writes;
    private readonly double[] _nominal;

    /// <summary>Prepares a network.</summary>
    /// <param name="network">The nominal network.</param>
    /// <param name="varied">What differs; a variant is one value for each, in this order. Units as in <see cref="Parameter"/>.</param>
    /// <exception cref="ArgumentException">No element has that name, it has no such parameter, or one is named twice (a control's ohms and position count as one).</exception>
    /// <exception cref="UnsolvableException">The nominal network does not settle.</exception>
    public Batch(Network network, IEnumerable<Varied> varied)
    {
        _varied = [.. varied];
        var names = new HashSet<string>(StringComparer.Ordinal);
        _elements = new Element[_varied.Length];
        var prepared = network;
        for (var k = 0; k < _varied.Length; k++)
        {
            var name = _varied[k].Element;
            var element = prepared.Elements.FirstOrDefault(e => e.Name == name) ?? throw new ArgumentException($"No element is called '{name}'.", nameof(varied));
            if (!names.Add(element is Control ? name : $"{name}\0{_varied[k].Parameter}"))
                throw new ArgumentException($"'{name}' is varied twice.", nameof(varied));
            if (element is Control || _varied[k].Parameter == Parameter.Ohms) prepared = prepared.With(Placed.Of(element));
        }
        _network = prepared;
        for (var k = 0; k < _varied.Length; k++) _elements[k] = prepared.Elements.First(e => e.Name == _varied[k].Element);

        // An open part keeps its place, and what it leads to counts as tied: the assembly is made with it closed.
        var closed = prepared;
        foreach (var element in _elements.OfType<Resistor>().Where(r => double.IsInfinity(r.Ohms))) closed = closed.With(element with { Ohms = 1e9 });
        (_assembly, _joinedOf) = Direct.Of(closed);
        _writes = [.. Enumerable.Range(0, _varied.Length).SelectMany(k => Writer.Of(_assembly, _joinedOf, _elements[k], _varied[k], k))];
        var volts = new One[_assembly.NodeNames.Length];
        Settling.Solve(_assembly, new(_assembly), new(_assembly), volts);
        _nominal = [.. volts.Select(v => v.Value)];
    }

    /// <summary>What differs, in the order of a variant's values.</summary>
    public ImmutableArray<Varied> Varied => _varied;

    /// <summary>At most so many cores at once, 1 or more; all unless given. The answers are the same.</summary>
    public int Cores { get; init; } = Environment.ProcessorCount;

    /// <summary>Nodes of an answer.</summary>
    public int NodeCount => _network.NodeCount;

    /// <summary>Solves variants.</summary>
    /// <param name="values">Variant after variant, one value for each varied parameter. Ohms may be infinite; positions 0 to 1; K and µ above 0.</param>
    /// <exception cref="ArgumentException">The values do not divide into variants, or one is out of range; the message says which.</exception>
    public BatchResult Solve(double[] values)
    {
        var variants = Count(values);
        var result = new BatchResult(variants, NodeCount);
        SolveInto(values, result);
        return result;
    }

    /// <summary>Solves variants into a result that is used again.</summary>
    /// <param name="values">As in <see cref="Solve"/>.</param>
    /// <param name="result">Made for as many variants.</param>
    /// <exception cref="ArgumentException">As in <see cref="Solve"/>, or the result is of another size.</exception>
    public void SolveInto(double[] values, BatchResult result)
    {
        var variants = Count(values);
        if (result.Variants != variants || result.NodeCount != NodeCount)
            throw new ArgumentException($"The result holds {result.Variants} variants of {result.NodeCount} nodes; {variants} of {NodeCount} are asked for.", nameof(result));
        if (Vector512.IsHardwareAccelerated) Run<Eight>(values, result);
        else Run<Four>(values, result);
    }

    // Most settle in a few steps. Those that do not are gathered, so that no lane waits for them, and go on side by side; what is left then is solved alone.
    private void Run<T>(double[] values, BatchResult result) where T : unmanaged, ILane<T>
    {
        result.Restart();
        Each<T>(result.Variants, (worker, from, to) => Group(worker, values, result, from, to, hard: false));
        Each<T>(result.Gathered.Length, (worker, from, to) => Group(worker, values, result, from, to, hard: true));
    }

    /// <summary>Hands out runs of variants to the cores.</summary>
    private void Each<T>(int variants, Action<Worker<T>, int, int> solve) where T : unmanaged, ILane<T>
    {
        const int stride = 4;
        var groups = (variants + T.Width - 1) / T.Width;
        if (groups == 0) return;
        var next = 0;
        Parallel.For(0, Math.Clamp(groups / stride, 1, Math.Max(1, Cores)), _ =>
        {
            var worker = new Worker<T>(_assembly, _nominal, _writes);
            for (; ; )
            {
                var from = Interlocked.Add(ref next, stride) - stride;
                if (from >= groups) return;
                for (var g = from; g < Math.Min(from + stride, groups); g++) solve(worker, g * T.Width, Math.Min((g + 1) * T.Width, variants));
            }
        });
    }

    private void Group<T>(Worker<T> worker, double[] values, BatchResult result, int from, int to, bool hard) where T : unmanaged, ILane<T>
    {
        var width = _varied.Length;
        // The last group is filled up with its first variant.
        for (var lane = 0; lane < T.Width; lane++) worker.Put(values.AsSpan(Variant(from + lane < to ? lane : 0) * width, width), lane);
        worker.Solve(hard ? ManySteps : FewSteps);
        for (var lane = 0; lane < to - from; lane++)
        {
            var variant = Variant(lane);
            var residual = worker.Residual(lane);
            if (residual <= PromisedAmperes)
            {
                var row = result.RowOf(variant);
                var volts = Lane.Of(worker.Volts);
                for (var n = 0; n < row.Length; n++) row[n] = volts[_joinedOf[n] * T.Width + lane];
                result.Set(variant, residual, null);
            }
            else if (hard) Alone(values.AsSpan(variant * width, width), result, variant);
            else result.Gather(variant);
        }

        int Variant(int lane) => hard ? result.Gathered[from + lane] : from + lane;
    }

    private void Alone(ReadOnlySpan<double> values, BatchResult result, int variant)
    {
        result.CountAlone(variant);
        var row = result.RowOf(variant);
        try
        {
            var point = OperatingPoint.Of(NetworkOf(values));
            point.Volts.CopyTo(row);
            result.Set(variant, point.ResidualAmperes, null);
        }
        catch (UnsolvableException e)
        {
            row.Fill(double.NaN);
            result.Set(variant, e.ResidualAmperes, e.Message);
        }
    }

    /// <summary>One variant as a network of its own.</summary>
    /// <param name="values">One value for each varied parameter.</param>
    public Network NetworkOf(ReadOnlySpan<double> values)
    {
        var elements = _network.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
        for (var k = 0; k < _varied.Length; k++)
        {
            var name = _varied[k].Element;
            elements[name] = Placed.With(elements[name], _varied[k].Parameter, values[k]);
        }
        return new(_network.NodeNames, _network.Reference, _network.Elements.Select(e => elements[e.Name]));
    }

    private int Count(double[] values)
    {
        var width = _varied.Length;
        if (width == 0 || values.Length % width != 0)
            throw new ArgumentException($"{values.Length} values do not divide into variants of {width}.", nameof(values));
        for (var k = 0; k < values.Length; k++)
        {
            var (varied, x) = (_varied[k % width], values[k]);
            var good = varied.Parameter switch
            {
                Parameter.Ohms => x >= 0,
                Parameter.Position => x is >= 0 and <= 1,
                Parameter.Perveance or Parameter.Mu or Parameter.OscillatorVolts => x > 0 && double.IsFinite(x),
                _ => double.IsFinite(x),
            };
            if (!good) throw new ArgumentException($"Variant {k / width}: {varied.Parameter} of '{varied.Element}' cannot be {x.ToString(System.Globalization.CultureInfo.InvariantCulture)}.", nameof(values));
        }
        return values.Length / width;
    }
}

/// <summary>Voltages of many variants, variant after variant.</summary>
public sealed class BatchResult
{
    private readonly double[] _volts, _residuals;
    private readonly string?[] _reasons;
    private readonly bool[] _wasAlone;
    private readonly int[] _gathered;
    private int _alone, _gatheredCount;

    /// <summary>Room for so many.</summary>
    public BatchResult(int variants, int nodeCount)
    {
        (Variants, NodeCount) = (variants, nodeCount);
        (_volts, _residuals, _reasons, _wasAlone) = (new double[variants * nodeCount], new double[variants], new string?[variants], new bool[variants]);
        _gathered = new int[variants];
    }

    /// <summary>How many variants.</summary>
    public int Variants { get; }
    /// <summary>Nodes a variant.</summary>
    public int NodeCount { get; }
    /// <summary>All voltages, V: variant·<see cref="NodeCount"/> + node. NaN where a variant did not settle.</summary>
    public ReadOnlySpan<double> Volts => _volts;
    /// <summary>Voltages of one variant, V.</summary>
    public ReadOnlySpan<double> VoltsOf(int variant) => RowOf(variant);
    /// <summary>Largest current of a variant that is not accounted for, A; at most 1 nA where it settled.</summary>
    public double ResidualOf(int variant) => _residuals[variant];
    /// <summary>Why a variant has no answer, naming node and element; null when it has one.</summary>
    public string? ReasonOf(int variant) => _reasons[variant];

    /// <summary>How many variants the lanes could not settle or hold, and which were solved alone: each takes some hundred times as long.</summary>
    public int SolvedAlone => _alone;

    /// <summary>Whether a variant is one of those.</summary>
    public bool WasAlone(int variant) => _wasAlone[variant];

    internal void CountAlone(int variant)
    {
        _wasAlone[variant] = true;
        Interlocked.Increment(ref _alone);
    }

    /// <summary>Variants that need more steps than most.</summary>
    internal ReadOnlySpan<int> Gathered => _gathered.AsSpan(0, _gatheredCount);
    internal void Gather(int variant) => _gathered[Interlocked.Increment(ref _gatheredCount) - 1] = variant;

    internal void Restart()
    {
        (_alone, _gatheredCount) = (0, 0);
        Array.Clear(_wasAlone);
    }

    internal Span<double> RowOf(int variant) => _volts.AsSpan(variant * NodeCount, NodeCount);
    internal void Set(int variant, double residual, string? reason) => (_residuals[variant], _reasons[variant]) = (residual, reason);
}
