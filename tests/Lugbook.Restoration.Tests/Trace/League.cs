using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Diagnostics;
using Lugbook.Restoration.Solve;
using Lugbook.Restoration.Trace;
using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Tests.Trace;

/// <summary>One search, from nothing read to its end.</summary>
internal sealed record Played(string Truth, string Sort, bool WasHealthy, bool GroupFirst, bool InFirstThree, int Readings, TraceVerdict Verdict, double Claim, string Said, double Milliseconds);

/// <summary>How the reading is chosen.</summary>
internal enum Way { Proposed, ChartOrder, HalfSplit }

/// <summary>Random sets of one book, each searched to its end.</summary>
internal sealed class League
{
    private const int MostReadings = 12;
    private readonly SolveResult _solved;
    private readonly (ImmutableHashSet<string> Touched, TraceModel Model)[] _models;

    public League(SolveResult solved)
    {
        _solved = solved;
        var book = solved.Netlist.Map.Book;
        var none = ImmutableHashSet.Create<string>(StringComparer.OrdinalIgnoreCase);
        var worked = book.Parts.Where(p => p.Kind is PartKind.Paper or PartKind.Electrolytic or PartKind.Capacitor).Select(p => p.Name).ToImmutableHashSet(StringComparer.OrdinalIgnoreCase);
        _models = [.. new[] { none, worked }.Select(t => (t, TraceStage.Prepare(solved, Settings(book) with { Touched = t })!))];
    }

    // A digital hand meter, and a component meter at 1 kHz.
    private static TraceSettings Settings(Book book) => TraceSettings.Of(book) with { Volts = MeterShelf.All[0], Meters = new(MeterShelf.All[0], MeterShelf.Named("lcr-bridge")) };

    /// <summary>Plays so many sets, half of them as found and half after the usual work.</summary>
    public Played[] Play(int sets, int seed, Way way = Way.Proposed)
    {
        var all = new ConcurrentBag<(int, Played)>();
        Parallel.For(0, sets, k => { if (One(seed + k, way) is { } played) all.Add((k, played)); });
        return [.. all.OrderBy(x => x.Item1).Select(x => x.Item2)];
    }

    /// <summary>What set number so many is searched with.</summary>
    public (ImmutableHashSet<string> Touched, TraceModel Model) ModelFor(int number) => _models[number % 2];

    private Played? One(int seed, Way way)
    {
        var (touched, model) = ModelFor(seed);
        var set = new OtherSet(_solved, touched, new Random(seed));
        if (!set.Runs) return null;
        var readings = new List<Reading>();
        var clock = Stopwatch.StartNew();
        var result = TraceStage.Run(model, readings, 1, set.LineAsRead);
        while (readings.Count < MostReadings && result.Verdict is TraceVerdict.Open or TraceVerdict.Strange)
        {
            if (Next(model, result, readings, way) is not var (place, meter)) break;
            readings.Add(set.Read(place, meter));
            result = TraceStage.Run(model, readings, 1, set.LineAsRead);
        }
        clock.Stop();
        var head = result.Suspects.GroupBy(s => s.Group).OrderByDescending(g => g.Sum(s => s.Probability)).FirstOrDefault();
        var healthyFirst = result.Healthy > (head?.Sum(s => s.Probability) ?? 0);
        var wasHealthy = set.Truth.Position.Length == 0;
        var three = result.Suspects.Select(s => s.Position).Distinct().Take(3);
        return new(set.Truth.Words, Sort(set.Truth), wasHealthy, wasHealthy ? healthyFirst : head?.Any(set.Truth.IsIt) == true && !healthyFirst, wasHealthy ? healthyFirst : three.Contains(set.Truth.Position, StringComparer.OrdinalIgnoreCase),
            readings.Count, result.Verdict, result.Verdict == TraceVerdict.Healthy ? result.Healthy : head?.Sum(s => s.Probability) ?? 0, result.Sentence, clock.Elapsed.TotalMilliseconds);
    }

    private static string Sort(Truth truth) => truth.Position.Length == 0 ? "nothing" : truth.Words switch
    {
        var w when w.Contains("leaky", StringComparison.Ordinal) || w.EndsWith("shorted", StringComparison.Ordinal) => "capacitor leaky or shorted",
        var w when w.Contains("its mark", StringComparison.Ordinal) => "resistor high",
        var w when w.Contains(" weak", StringComparison.Ordinal) => "valve weak",
        var w when w.EndsWith(" dead", StringComparison.Ordinal) => "valve dead",
        var w when w == $"{truth.Position} open" => "part open",
        _ => "slip",
    };

    private static (ProbePlace, Meter)? Next(TraceModel model, TraceResult result, List<Reading> readings, Way way)
    {
        var settings = model.Settings;
        if (way == Way.Proposed)
            return result.Next.FirstOrDefault() is { } p ? (p.Place, p.Place.Kind switch { ReadingKind.Volts => settings.Volts, ReadingKind.Ohms => settings.Meters.Ohms, _ => settings.Meters.Farads! }) : null;
        var open = Candidates.Of(model, null).Where(c => c is { Place.Kind: ReadingKind.Volts, Part: null } && Math.Abs(model.Variants[0].Volts![model.HotNode(model.Variants[0], c.Place.From)]) > 0.3 && !readings.Any(r => r.FromLug == c.Place.From)).ToArray();
        if (open.Length == 0) return null;
        double Volts(Candidate c) => Math.Abs(model.Variants[0].Volts![model.HotNode(model.Variants[0], c.Place.From)]);
        if (way == Way.ChartOrder) return (open[0].Place, open[0].Meter);
        // Half-split by hand: the highest supply first, then the node half-way down in volts between the last that agreed and the last that did not.
        var agreed = result.Readings.Where(r => r.Value >= r.HealthyLow && r.Value <= r.HealthyHigh).Select(r => Math.Abs(r.Healthy)).DefaultIfEmpty(double.PositiveInfinity).Min();
        var wrong = result.Readings.Where(r => !(r.Value >= r.HealthyLow && r.Value <= r.HealthyHigh)).Select(r => Math.Abs(r.Healthy)).DefaultIfEmpty(0).Max();
        var wanted = readings.Count == 0 ? open.Max(Volts) : (Math.Min(agreed, open.Max(Volts)) + wrong) / 2;
        var chosen = open.MinBy(c => Math.Abs(Volts(c) - wanted))!;
        return (chosen.Place, chosen.Meter);
    }
}
