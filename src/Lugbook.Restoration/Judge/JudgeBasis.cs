using Lugbook.Restoration.Bounds;
using Lugbook.Restoration.Sheet;
using Lugbook.Restoration.Solve;

namespace Lugbook.Restoration.Judge;

/// <summary>What verdicts rest on and readings do not change: the solved set, its bounds, stakes, and what lies in parallel with each part. Made once, used for every reading.</summary>
/// <remarks>Safe to use from several threads. It belongs to one book's parts, lugs, wires and facts; readings and decisions may change beneath it.</remarks>
public sealed class JudgeBasis
{
    private readonly Lazy<IReadOnlyDictionary<string, Stake>> _stakes;

    /// <param name="solved">The set, solved or not.</param>
    /// <param name="bounds">What the positions bear.</param>
    /// <param name="ohmsTestVolts">Test voltage of the ohmmeter that reads in place, V.</param>
    /// <param name="sheet">The set's sheet, asked for only when volts are to be judged; null where there is none.</param>
    public JudgeBasis(SolveResult solved, BoundsResult bounds, double ohmsTestVolts, Lazy<SheetResult>? sheet = null)
    {
        (Solved, Bounds, Sheet) = (solved, bounds, sheet);
        Place = solved.Netlist.Network is null ? null : new(solved.Netlist, ohmsTestVolts);
        _stakes = new(() => Stakes.Of(solved));
    }

    private JudgeBasis(JudgeBasis other, double ohmsTestVolts, Lazy<SheetResult>? sheet)
    {
        (Solved, Bounds, _stakes, Sheet) = (other.Solved, other.Bounds, other._stakes, sheet);
        Place = other.Place?.OhmsTestVolts == ohmsTestVolts ? other.Place : Solved.Netlist.Network is null ? null : new(Solved.Netlist, ohmsTestVolts);
    }

    /// <summary>The same for another ohmmeter: only what lies in parallel is found anew, and only where its volts differ.</summary>
    public JudgeBasis With(double ohmsTestVolts, Lazy<SheetResult>? sheet) => new(this, ohmsTestVolts, sheet);

    /// <summary>The solved set.</summary>
    public SolveResult Solved { get; }
    /// <summary>What the positions bear.</summary>
    public BoundsResult Bounds { get; }
    internal Lazy<SheetResult>? Sheet { get; }
    internal InPlace? Place { get; }
    internal Stake StakeOf(string position) => _stakes.Value.GetValueOrDefault(position) ?? new(0, null);
}
