using System.Collections.Immutable;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Trace;

/// <summary>What is still wrong? Readings against every fault that the set can have, ranked, and the reading that tells most next.</summary>
public static class TraceStage
{
    /// <summary>Name under which readings of a search are kept, in place of a part's.</summary>
    public const string Place = "trace";

    /// <summary>Solves the set with every fault. Once a set; seconds for a large one.</summary>
    /// <param name="solved">The set; it must be solved.</param>
    /// <param name="settings">Meters, work done, priors.</param>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <param name="stop">Ends it early.</param>
    /// <returns>Null where the set is not solved: <see cref="SolveResult.Reason"/> says why.</returns>
    /// <exception cref="OperationCanceledException"><paramref name="stop"/> was raised.</exception>
    public static TraceModel? Prepare(SolveResult solved, TraceSettings settings, IProgress<double>? progress = null, CancellationToken stop = default) =>
        solved.Direct is null || solved.Netlist.Network is null ? null : TraceModel.Of(solved, settings, progress, stop);

    /// <summary>The same set with other symptoms, or with other readings allowed: nothing is solved again.</summary>
    /// <param name="model">The set with every fault.</param>
    /// <param name="symptoms">What the set does, in words of <see cref="Symptoms"/>.</param>
    /// <param name="mayRun">May readings with the set running be proposed?</param>
    public static TraceModel Asked(TraceModel model, ImmutableArray<string> symptoms, bool mayRun) => model.Asked(symptoms, mayRun);

    /// <summary>Pure: the same model and readings, the same answer.</summary>
    /// <param name="model">The set with every fault.</param>
    /// <param name="readings">Readings, oldest first; the newest of each place counts.</param>
    /// <param name="proposals">At most so many readings are proposed.</param>
    /// <param name="line">The line as read while the set runs, over what the model takes for today's; null where nobody read it.</param>
    public static TraceResult Run(TraceModel model, IEnumerable<Reading> readings, int proposals = 3, double? line = null) => TraceWriter.Of(model, [.. readings], proposals, line);

    /// <summary>The answer where there is no model.</summary>
    public static TraceResult Without(SolveResult solved) => new()
    {
        Reason = solved.Reason ?? "The set is not solved.", Verdict = TraceVerdict.Unsolved, Sentence = solved.Reason ?? "The set is not solved.", Healthy = 0, NotModelled = 1, Suspects = [], Readings = [], Next = [], Cautions = TraceWriter.Dangers(solved.Netlist.Map), Remarks = [],
    };

    /// <summary>Words for what a set does, each with what it makes of the weights.</summary>
    public static ImmutableArray<(string Word, string Says)> Symptoms => Trace.Symptoms.Known;

    /// <summary>Those of some words that are no symptom that is known.</summary>
    public static ImmutableArray<string> NoSymptoms(IEnumerable<string> words) => Trace.Symptoms.Unknown(words);

    /// <summary>A place in words: "volts from V3-3 to CH".</summary>
    public static string At(ProbePlace place) => TraceWords.At(place);

    /// <summary>The lug places of readings that the search uses; null for one that it cannot.</summary>
    public static ProbePlace? PlaceOf(Reading reading, SolveResult solved) => Observation.PlaceOf(reading, solved.Netlist.Map);
}
