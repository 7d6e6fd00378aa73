using System.Collections.Immutable;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Sheet;
using Lugbook.Restoration.Solve;

namespace Lugbook.Restoration.Power;

/// <summary>What does the supply bear, what would silicon do in it, and what does today's line?</summary>
public static class PowerStage
{
    private static readonly ImmutableArray<string> Cautions =
    [
        "Work on the line's side of a set can kill and is a matter for a qualified person; local codes come first. Plug out, reservoirs drained and measured.",
        "A dropper or a series resistor runs hot enough to burn: away from wires, wax and wood, with air around it, behind the fuse.",
        "A selenium stack that is overheated smells of horseradish and is poisonous: windows open, never heat or break it.",
    ];

    /// <summary>Pure: the same solved set, the same answer. It follows the line's cycle some ten times: seconds for a large set.</summary>
    /// <param name="solved">The set.</param>
    /// <param name="how">Conditions; today's line is in them.</param>
    /// <param name="limits">The handbook's lines of rectifier valves.</param>
    /// <param name="stop">Ends it early.</param>
    /// <exception cref="OperationCanceledException"><paramref name="stop"/> was raised.</exception>
    public static PowerResult Run(SolveResult solved, SheetConditions how, ImmutableArray<RectifierLimit> limits, CancellationToken stop = default)
    {
        if (solved.Direct is null) return new() { Reason = solved.Reason, Cautions = Cautions };
        if (!solved.Netlist.Network!.Elements.Any(e => e is Mains) || solved.Cycle is null) return new() { Reason = "No line is entered: the voltages of the supply are declared, or there are none.", Cautions = Cautions };
        var runs = new Runs(solved, stop);
        var share = how.TodayLineShare;
        LineMend? line = null;
        if (share > 1.005)
        {
            // Only stresses are wanted of these two sheets: few samples will do.
            var made = SheetStage.Run(solved, how with { TodayLineShare = 1, Samples = 50 });
            line = LineRule.Of(runs, share, made, SheetStage.Run(solved, how with { Samples = 50 }));
        }
        return new()
        {
            Rectifiers = [.. RectifierCheck.Of(runs, limits)],
            Silicon = SiliconRule.Of(runs, Math.Max(share, 1)),
            Line = line,
            Cautions = Cautions,
        };
    }
}
