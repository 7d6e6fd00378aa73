using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Slips;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Trace;

/// <summary>Puts an answer together and says it.</summary>
internal static class TraceWriter
{
    private const double LeastShown = 1e-3, LeastBits = 0.03;
    private const int MostSuspects = 12;

    public static TraceResult Of(TraceModel model, Reading[] readings, int proposals, double? line)
    {
        var map = model.Solved.Netlist.Map;
        var settings = model.Settings;
        var observations = Observation.Of(readings, map, settings.Volts, settings.Meters, settings.Named, settings.Touched);
        var ran = observations.Count > 0 ? (ReadingKind?)observations[^1].Place.Kind : null;
        var count = observations.Count;
        if (line is > 0 && model.Spreads.Line is not null) observations.Add(Observation.OfLine(line.Value, settings.Volts));
        var predictor = model.Predictor;
        var ranking = new Ranking(model, predictor, observations);
        var candidates = Candidates.Of(model, ran);
        var group = Groups.Of(model, predictor, ranking, candidates);
        var (healthy, strange) = (ranking.Probability[0], ranking.Probability[1]);
        // Before a reading all there is are the weights of the table: no suspects, unless somebody says what the set does.
        var suspects = observations.Count == 0 && settings.Symptoms.IsEmpty ? [] : Suspects(model, predictor, ranking, group);
        var next = new NextReading(model, predictor, ranking).Ranked(candidates);
        var useful = next.Where(n => n.Nats / Math.Log(2) >= LeastBits).Take(proposals).ToArray();
        var best = suspects.GroupBy(s => s.Group).Select(g => (Head: g.First(), Sum: g.Sum(s => s.Probability), Count: g.Count())).OrderByDescending(g => g.Sum).FirstOrDefault();
        var verdict = best.Head is not null && best.Sum >= settings.Confidence ? TraceVerdict.Found
            : healthy >= settings.Confidence ? TraceVerdict.Healthy
            : strange >= 0.5 ? TraceVerdict.Strange
            : useful.Length == 0 && count > 0 ? TraceVerdict.Exhausted : TraceVerdict.Open;
        return new()
        {
            Verdict = verdict, Sentence = Say(verdict, best.Head, best.Sum, best.Count, healthy, count, suspects), Healthy = healthy, NotModelled = strange, Suspects = suspects,
            Readings = [.. observations.Take(count).Select((o, i) => Line(model, predictor, o, ranking.Odd[i]))],
            Next = [.. useful.Select(n => Propose(model, predictor, ranking, n.Candidate, n.Nats))],
            Cautions = Dangers(map), Remarks = Remarks(model),
            Unused = [.. readings.Where(r => r.Kind is ReadingKind.Volts or ReadingKind.Ohms or ReadingKind.Farads && map.Book.Parts.Named(r.Name) is null && Observation.PlaceOf(r, map) is null).Select(r => $"{ReadingWords.Of(r.Kind)} at {r.FromLug ?? r.Name}{(r.ToLug is null ? "" : $" to {r.ToLug}")}: the book does not know these lugs, or they are one node.").Distinct()],
        };
    }

    private static ImmutableArray<Suspect> Suspects(TraceModel model, Predictor predictor, Ranking ranking, Dictionary<int, int> group)
    {
        var numbers = new Dictionary<int, int>();
        var list = ImmutableArray.CreateBuilder<Suspect>();
        foreach (var f in ranking.Kept.Where(f => model.Faults[f].Kind is not (FaultKind.Healthy or FaultKind.NotModelled) && ranking.Probability[f] >= LeastShown).Take(MostSuspects))
        {
            var head = group.GetValueOrDefault(f, f);
            if (!numbers.TryGetValue(head, out var number)) numbers[head] = number = numbers.Count + 1;
            var (fault, variant) = (model.Faults[f], model.Variants[ranking.Best[f]]);
            var evidence = ranking.Read.Where(o => o.Place != Observation.Line).Select(o => EvidenceOf(model, predictor, variant, o)).OfType<Evidence>().ToImmutableArray();
            list.Add(new()
            {
                Id = fault.Id, Kind = fault.Kind, Position = fault.Position, Words = fault.Words, Size = variant.Size.Words, Probability = ranking.Probability[f], Group = number, Act = fault.Act, Why = fault.Why,
                Evidence = evidence, MindChanger = MindChanger(fault, evidence),
            });
        }
        return list.ToImmutable();
    }

    private static Evidence? EvidenceOf(TraceModel model, Predictor predictor, Variant variant, Observation o)
    {
        if (predictor.Exact(variant, o.Place, o.Meter) is not { } p || predictor.Exact(model.Variants[0], o.Place, o.Meter) is not { } h) return null;
        double Log(Prediction x) => -0.5 * Math.Pow(o.Scaled - x.Mean, 2) / x.Variance - 0.5 * Math.Log(x.Variance);
        var (low, high) = Ends(o.Place.Kind, p);
        return new(o.Place, o.Value, Observation.Unscaled(o.Place.Kind, p.Mean), low, high, Math.Clamp(Log(p) - Log(h), -50, 50));
    }

    private static (double Low, double High) Ends(ReadingKind kind, Prediction p)
    {
        var s = 1.96 * Math.Sqrt(p.Variance);
        return (Observation.Unscaled(kind, p.Mean - s), Observation.Unscaled(kind, p.Mean + s));
    }

    private static TraceReading Line(TraceModel model, Predictor predictor, Observation o, double odd)
    {
        var h = predictor.Exact(model.Variants[0], o.Place, o.Meter)!;
        var (low, high) = Ends(o.Place.Kind, h);
        return new(o.Place, o.Value, o.IsOver, Observation.Unscaled(o.Place.Kind, h.Mean), low, high, odd);
    }

    private static string MindChanger(Fault fault, ImmutableArray<Evidence> evidence)
    {
        if (evidence.IsEmpty) return "Nothing was read yet.";
        var least = evidence.MinBy(e => e.Speaks)!;
        var against = least.Speaks < -1 ? $"{TraceWords.At(least.Place)} speaks against it: {Judge.Say.Of(least.Place.Kind, least.Value)} read, {Judge.Say.Of(least.Place.Kind, least.Expected)} expected. " : "";
        return $"{against}{fault.Act} If that shows nothing, it was not {fault.Position}.";
    }

    private static Proposal Propose(TraceModel model, Predictor predictor, Ranking ranking, Candidate c, double nats)
    {
        double Shows(Variant v) => predictor.Fair(v, c) is { } p ? Observation.Unscaled(c.Place.Kind, p.Mean) : double.NaN;
        var healthy = Shows(model.Variants[0]);
        var each = ranking.Kept.Where(f => model.Faults[f].Kind is not (FaultKind.Healthy or FaultKind.NotModelled)).Take(3).Select(f => (model.Faults[f].Words, Shows(model.Variants[ranking.Best[f]]))).ToImmutableArray();
        return new(c.Place, c.Part, c.Meter.Name, nats / Math.Log(2), c.Cost, healthy, each, TraceWords.Ask(c, healthy));
    }

    private static string Say(TraceVerdict verdict, Suspect? head, double sum, int count, double healthy, int readings, ImmutableArray<Suspect> suspects)
    {
        static string Percent(double p) => (100 * Math.Min(p, 0.999)).ToString(p >= 0.995 ? "0.0" : "0", CultureInfo.InvariantCulture) + " %";
        return verdict switch
        {
            TraceVerdict.Found when count == 1 => $"{head!.Words}{(head.Size.Length > 0 ? $", about {head.Size}" : "")}: {Percent(sum)}. {head.Act}",
            TraceVerdict.Found => $"One of {count} that no reading at the bench divides, {Percent(sum)} together: {string.Join("; ", suspects.Where(s => s.Group == head!.Group).Select(s => s.Words))}. {head!.Act}",
            TraceVerdict.Healthy => $"These readings are those of a healthy set: {Percent(healthy)}.",
            TraceVerdict.Strange => "Nothing in the list explains these readings together. Is the book as the set is wired? Was each read at the lug that is named?",
            TraceVerdict.Exhausted => head is null ? "No further reading at the bench tells more." : $"No further reading at the bench tells more. Most probable: {head.Words}, {Percent(head.Probability)}. {head.Act}",
            _ when readings == 0 => "Nothing was read yet: the readings below tell most for their effort.",
            _ => head is null ? "Nothing stands out yet." : $"Not settled: {head.Words}, {Percent(sum)}{(count > 1 ? " with what looks alike" : "")}; nothing wrong, {Percent(healthy)}.",
        };
    }

    /// <remarks>Facts: the project's safety notes; sentences are ours.</remarks>
    public static ImmutableArray<Caution> Dangers(MapResult map) =>
    [
        Cautions.General, .. CheckWriter.Dangers,
        new("S-running", "Volts are read with the set running: clip the black lead to common first, with the plug out; then one hand on one insulated probe, the other away from the chassis. Who is not trained for it leaves it to somebody who is; local codes come first."),
        .. map.IsOnLine(map.Common.Node) || map.IsOnLine(map.Chassis.Node) ? [Cautions.LiveChassis] : ImmutableArray<Caution>.Empty,
    ];

    private static ImmutableArray<string> Remarks(TraceModel model)
    {
        var remarks = ImmutableArray.CreateBuilder<string>();
        remarks.Add(string.Create(CultureInfo.InvariantCulture, $"{model.FaultCount - 2} single faults in {model.VariantCount - 2} sizes, each solved: parts, valves, and {model.Faults.Count(f => f.Kind == FaultKind.Slip)} slips. How they are weighed: docs/trace.md."));
        if (model.Unsettled > 0) remarks.Add($"{model.Unsettled} of them do not settle and are left out.");
        remarks.AddRange(model.Solved.Remarks);
        return remarks.ToImmutable();
    }
}
