using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Choose;

/// <summary>What lies below common on purpose: the way of the high-voltage winding's tap to common through resistances (back bias), and a rectifier that delivers minus.</summary>
internal sealed class NegativeSide
{
    // Above this a resistor is the grid's own way to the bias, not the supply's. Common practice, no source.
    private const double ReturnOhms = 3300, BiasOhms = 100e3;

    private readonly HashSet<int> _returns = [];
    private readonly HashSet<int> _bias = [];
    private readonly Dictionary<int, string> _outputs = [];

    public NegativeSide(CircuitView view)
    {
        foreach (var tap in view.Map.Book.Parts.Where(p => p.Kind == PartKind.Winding).Select(view.Ends).OfType<(int A, int B)>()
            .SelectMany(e => new[] { (Fed: e.A, Tap: e.B), (Fed: e.B, Tap: e.A) }).Where(e => view.FeedsRectifier(e.Fed) && !view.FeedsRectifier(e.Tap)).Select(e => e.Tap).Distinct())
            Return(view, tap);
        foreach (var rectifier in view.Map.Book.Parts.Where(view.DeliversMinus))
            if (view.NodeOf(rectifier.MinusLug) is { } output)
            {
                _outputs.TryAdd(output, rectifier.Name);
                Bias(view, output);
            }
    }

    /// <summary>Between the high-voltage winding's tap and common?</summary>
    public bool IsReturn(int node) => _returns.Contains(node);

    /// <summary>On a supply of its own that delivers minus, or on what divides and filters it?</summary>
    public bool IsBias(int node) => _bias.Contains(node);

    /// <summary>The rectifier that delivers minus at this node.</summary>
    public string? OutputAt(int node) => _outputs.GetValueOrDefault(node);

    public bool Contains(int node) => IsReturn(node) || IsBias(node);

    private void Return(CircuitView view, int tap)
    {
        if (view.IsEarthy(tap) || view.Supply.Contains(tap)) return;
        var reached = new HashSet<int> { tap };
        var queue = new Queue<int>(reached);
        var common = false;
        while (queue.TryDequeue(out var here))
            foreach (var b in view.At(here))
            {
                if (!(b.Part.Kind == PartKind.Resistor && b.Part.Value is null or <= ReturnOhms || b.Part.Kind == PartKind.Winding) || view.FeedsRectifier(b.To) || view.Supply.Contains(b.To)) continue;
                if (view.IsEarthy(b.To)) common = true;
                else if (reached.Add(b.To)) queue.Enqueue(b.To);
            }
        if (common) _returns.UnionWith(reached);
    }

    private void Bias(CircuitView view, int output)
    {
        var queue = new Queue<int>([output]);
        _bias.Add(output);
        while (queue.TryDequeue(out var here))
            foreach (var b in view.At(here))
            {
                var passes = b.Part.Kind == PartKind.Control || b.Part.Kind == PartKind.Winding || b.Part.Kind == PartKind.Resistor && b.Part.Value is null or <= BiasOhms && IsOwn(view, b.To);
                if (passes && !view.IsEarthy(b.To) && !view.Supply.Contains(b.To) && _bias.Add(b.To)) queue.Enqueue(b.To);
            }
    }

    // What follows in the bias supply has a control or a large capacitor; a grid's own node has neither.
    private static bool IsOwn(CircuitView view, int node) => !view.PinsAt(node, ElectrodeKind.ControlGrid).Any()
        && view.At(node).Any(x => x.Part.Kind == PartKind.Control || x.Part.Kind.IsFixedCapacitor() && x.Part.Value >= 1e-6 * (1 - 1e-9) && view.IsEarthy(x.To));
}
