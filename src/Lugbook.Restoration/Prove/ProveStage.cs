using System.Collections.Immutable;
using Lugbook.Restoration.Slips;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Prove;

/// <summary>Is the work right, before a volt is on it? The fewest cold readings for dangerous shorts and for slips, and what only the eye sees.</summary>
public static class ProveStage
{
    /// <summary>Name under which the readings of the cold proof are kept, in place of a part's.</summary>
    public const string Place = "cold proof";

    /// <summary>Pure: the same set, work and meters, the same readings. A fraction of a second for an amplifier, some seconds for a television.</summary>
    /// <param name="solved">The set; where it is not solved but has a network, only what needs volts is missing.</param>
    /// <param name="work">The work, done and planned; empty for the whole book.</param>
    /// <param name="meters">The meters.</param>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <param name="stop">Ends it early.</param>
    /// <exception cref="OperationCanceledException"><paramref name="stop"/> was raised.</exception>
    public static ProveResult Run(SolveResult solved, ImmutableArray<Exchange> work, BenchMeters meters, IProgress<double>? progress = null, CancellationToken stop = default) =>
        solved.Netlist.Network is null
            ? new() { Reason = solved.Netlist.Reason, Readings = [], ShortReadings = 0, Shorts = [], WhyShorts = "", WhySlips = "", Cover = new(0, 0, 0, 0, true), Unseen = [], Looks = [], Touched = [], Cautions = ProveCautions.Of(solved.Netlist.Map) }
            : ProofWriter.Of(solved, work, meters, progress, stop);

    /// <summary>What the readings say that were entered: the newest of each place, all together.</summary>
    public static CheckOutcome Judge(ProveResult proof, IEnumerable<Reading> readings) => ProofVerdicts.Of(proof, readings);

    /// <summary>The newest reading that was entered for one of the proof's; null when there is none.</summary>
    public static Reading? Entered(ProveResult proof, CheckReading wanted, IEnumerable<Reading> readings) => ProofVerdicts.Entered(proof, readings).GetValueOrDefault(wanted.Number);

    /// <summary>A short reading's pass limit in words: the least or most that a healthy set shows, and what the shorts would.</summary>
    public static (string Pass, string Short) LimitsOf(ProveResult proof, CheckReading reading) => ProofWords.Limits(proof, reading);
}
