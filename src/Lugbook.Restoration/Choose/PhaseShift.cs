using System.Collections.Immutable;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Choose;

/// <summary>Oscillators that turn the phase by capacitors in a row from a plate to its own grid, with a resistor to common after each.</summary>
internal sealed class PhaseShift
{
    private const int Fewest = 3, Most = 5;
    private readonly HashSet<(int A, int B)> _series = [];
    private readonly Dictionary<int, string> _nodes = [];

    public PhaseShift(CircuitView view)
    {
        foreach (var plate in view.Pins.Where(p => p.Kind == ElectrodeKind.Plate && !view.IsRectifierValve(p.Valve)))
            if (view.NodeOf(plate.Lug) is { } from)
                foreach (var grid in view.Pins.Where(p => p.Kind == ElectrodeKind.ControlGrid && p.Valve == plate.Valve && p.Section == plate.Section))
                    if (view.NodeOf(grid.Lug) is { } to && Row(view, [from], to) is { } row)
                        for (var i = 0; i + 1 < row.Length; i++)
                        {
                            _series.Add((Math.Min(row[i], row[i + 1]), Math.Max(row[i], row[i + 1])));
                            _nodes.TryAdd(row[i + 1], $"capacitors in a row drive the {grid.Words} from its own plate");
                        }
    }

    /// <summary>Is a capacitor between these nodes one of such a row?</summary>
    public bool IsInRow(int a, int b) => _series.Contains((Math.Min(a, b), Math.Max(a, b)));

    /// <summary>The oscillator to whose row a node belongs, its plate not counted, in words.</summary>
    public string? At(int node) => _nodes.GetValueOrDefault(node);

    private static ImmutableArray<int>? Row(CircuitView view, ImmutableArray<int> row, int grid)
    {
        if (row[^1] == grid) return row.Length > Fewest ? row : null;
        if (row.Length > Most) return null;
        // Between the capacitors stands nothing but a resistor to common.
        if (row.Length > 1 && (view.PinsAt(row[^1]).Any() || !view.At(row[^1]).Any(x => x.Part.Kind is PartKind.Resistor or PartKind.Control && view.IsEarthy(x.To)))) return null;
        foreach (var b in view.At(row[^1]))
            if (b.Part.Kind.IsFixedCapacitor() && b.Part.Value is null or <= 1e-6 && !view.IsEarthy(b.To) && !view.Supply.Contains(b.To) && !row.Contains(b.To) && Row(view, row.Add(b.To), grid) is { } found) return found;
        return null;
    }
}
