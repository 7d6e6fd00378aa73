using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Slips;
using Lugbook.Restoration.Solve;

namespace Lugbook.Restoration.Trace;

/// <summary>A set with every fault solved: made once, asked at every reading.</summary>
public sealed class TraceModel
{
    private readonly int[] _first;

    private TraceModel(SolveResult solved, TraceSettings settings, Network direct, ImmutableArray<Fault> faults, ImmutableArray<Variant> variants, Spreads spreads, Func<Element, Element> insulated)
    {
        (Solved, Settings, Direct, Faults, Variants, Spreads) = (solved, settings, direct, faults, variants, spreads);
        _first = new int[faults.Length];
        for (var v = variants.Length - 1; v >= 0; v--) _first[variants[v].Fault] = v;
        LogPrior = PriorTable.LogPriors(faults, settings.Symptoms, solved.Netlist.Map.Book.Parts);
        Cold = new(this, spreads, insulated);
        Predictor = new(this);
    }

    private TraceModel(TraceModel model, TraceSettings settings)
    {
        (Solved, Settings, Direct, Faults, Variants, Spreads, _first, Cold, Predictor) = (model.Solved, settings, model.Direct, model.Faults, model.Variants, model.Spreads, model._first, model.Cold, model.Predictor);
        LogPrior = PriorTable.LogPriors(Faults, settings.Symptoms, Solved.Netlist.Map.Book.Parts);
    }

    /// <summary>The same, asked otherwise: nothing of it has to be solved again.</summary>
    internal TraceModel Asked(ImmutableArray<string> symptoms, bool mayRun) => new(this, Settings with { Symptoms = symptoms, MayRun = mayRun });

    /// <summary>The set.</summary>
    public SolveResult Solved { get; }
    /// <summary>What it is asked with.</summary>
    public TraceSettings Settings { get; }
    /// <summary>How many explanations it knows, sizes not counted.</summary>
    public int FaultCount => Faults.Length;
    /// <summary>How many networks were solved.</summary>
    public int VariantCount => Variants.Length;
    /// <summary>Those that did not settle and are left out.</summary>
    public int Unsettled => Variants.Count(v => v.Volts is null);

    internal Network Direct { get; }
    internal ImmutableArray<Fault> Faults { get; }
    internal ImmutableArray<Variant> Variants { get; }
    internal Spreads Spreads { get; }
    internal double[] LogPrior { get; }
    internal ColdSide Cold { get; }
    internal Predictor Predictor { get; }

    /// <summary>Solves all faults on all cores; null where the set as it should be does not settle.</summary>
    internal static TraceModel? Of(SolveResult solved, TraceSettings settings, IProgress<double>? progress, CancellationToken stop)
    {
        // The line of today moves what was averaged for the set's own.
        var direct = solved.Rectifiers.Aggregate(solved.Direct!, (n, r) => settings.LineShare == 1 ? n : n.With(((Battery)n.Elements.First(e => e.Name == r.Source)) with { Volts = r.LiftVolts * settings.LineShare }));
        var netlist = solved.Netlist;
        var owner = netlist.Origins.GroupBy(o => o.Element, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First().Position, StringComparer.Ordinal);
        Element Insulated(Element e) => owner.TryGetValue(e.Name, out var position) && netlist.Map.Book.Parts.Named(position) is { } part ? Insulation.Of(e, part.Kind, settings.Touched.Contains(position)) : e;
        direct = new(direct.NodeNames, direct.Reference, direct.Elements.Select(Insulated));
        var hot = new FaultFinder(netlist with { Network = direct }, settings.Touched, settings.Priors).All().ToArray();
        var cold = new FaultFinder(netlist, settings.Touched, settings.Priors).All().GroupBy(f => f.Id, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        var faults = ImmutableArray.CreateBuilder<Fault>();
        var variants = ImmutableArray.CreateBuilder<Variant>();
        void Add(Fault fault, ImmutableArray<FaultSize>? coldSizes)
        {
            faults.Add(fault);
            var first = variants.Count;
            for (var i = 0; i < fault.Sizes.Length; i++)
                variants.Add(new(variants.Count, faults.Count - 1, fault.Sizes[i], fault.Sizes[i].Change, coldSizes is { } c && i < c.Length ? c[i].Change : fault.Sizes[i].Change));
            for (var i = first; i < variants.Count && variants.Count - first > 1; i++)
            {
                var (low, high) = (Math.Max(first, i - 1), Math.Min(variants.Count - 1, i + 1));
                var distance = variants[high].Size.Log - variants[low].Size.Log;
                variants[i].Beside = (low, high, distance);
                variants[i].SizeSigma = Math.Abs(distance) / (high - low) / Math.Sqrt(12);
            }
        }
        Add(Nothing(FaultKind.Healthy, "healthy", "nothing that these readings show", "Use it, and come back when something is wrong."), null);
        Add(Nothing(FaultKind.NotModelled, "not modelled", "something that is not in the book, or not in the list", "Look at the wiring around the readings that fit nothing, and compare it with the book."), null);
        foreach (var fault in hot.DistinctBy(f => f.Id, StringComparer.Ordinal)) Add(fault, cold.GetValueOrDefault(fault.Id)?.Sizes);
        var model = new TraceModel(solved, settings, direct, faults.ToImmutable(), variants.ToImmutable(), new(solved, settings.Touched), Insulated);
        model.Solve(progress, stop);
        return model.Variants[0].Volts is null ? null : model;
    }

    private static Fault Nothing(FaultKind kind, string id, string words, string act) =>
        new() { Id = id, Kind = kind, Position = "", Words = words, Act = act, Weight = 1, Why = "", Sizes = [new("", 1, 0, SlipChange.None)] };

    /// <summary>Numbers of a fault's variants.</summary>
    internal IEnumerable<int> VariantsOf(int fault) => Enumerable.Range(_first[fault], Faults[fault].Sizes.Length);

    /// <summary>The running network of a variant.</summary>
    internal Network NetworkOf(Variant variant) => variant.Hot.Of(Direct);

    private void Solve(IProgress<double>? progress, CancellationToken stop)
    {
        var done = 0;
        try
        {
            Parallel.ForEach(Variants, new ParallelOptions { CancellationToken = stop }, v =>
            {
                v.Volts = VoltsOf(NetworkOf(v));
                var now = Interlocked.Increment(ref done);
                if (now % 50 == 0) progress?.Report(now / (double)Variants.Length);
            });
        }
        catch (AggregateException e) when (e.InnerExceptions.All(i => i is OperationCanceledException)) { throw new OperationCanceledException(stop); }
    }

    internal static double[]? VoltsOf(Network network)
    {
        try { return [.. OperatingPoint.Of(network).Volts]; }
        catch (UnsolvableException) { return null; }
    }

    /// <summary>The running node of a lug under a variant.</summary>
    internal int HotNode(Variant variant, string lug) => variant.Hot.Lugs.TryGetValue(lug, out var moved) ? moved : Solved.Netlist.Map.NodeOf(lug)!.Index;

    /// <summary>The cold node of a lug under a variant.</summary>
    internal int ColdNode(Variant variant, string lug) => variant.Cold.Lugs.TryGetValue(lug, out var moved) ? moved : Solved.Netlist.Map.NodeOf(lug)!.Index;
}
