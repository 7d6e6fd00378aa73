using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Choose;

/// <summary>Controls that set the tone: with capacitors across both halves (bass), or with nothing but a capacitor, and perhaps another control, on each end (treble).</summary>
internal sealed class ToneNetwork
{
    private readonly HashSet<int> _nodes = [];
    private readonly Dictionary<long, string> _capacitors = [];

    public ToneNetwork(CircuitView view)
    {
        foreach (var control in view.Map.Book.Parts.Where(p => p.Kind == PartKind.Control))
        {
            if (view.Ends(control) is not var (a, b) || view.NodeOf(control.LeadC) is not { } slider || a == b || slider == a || slider == b) continue;
            bool IsTone(Part p) => p.Kind.IsFixedCapacitor() && p.Kind != PartKind.Electrolytic;
            var halves = new[] { a, b }.Select(end => view.At(end).Where(x => x.To == slider && IsTone(x.Part)).Select(x => x.Part).ToArray()).ToArray();
            var ends = new[] { a, b }.Select(end => view.At(end).Where(x => x.Part.Id != control.Id).Select(x => x.Part).Distinct().ToArray()).ToArray();
            var bass = halves.All(h => h.Length > 0) && !view.IsEarthy(slider);
            var treble = !bass && !view.IsEarthy(a) && !view.IsEarthy(b) && ends.All(e => e.Count(IsTone) == 1 && e.All(p => IsTone(p) || p.Kind == PartKind.Control)) && ends.Any(e => e.Length == 1);
            if (!bass && !treble) continue;
            foreach (var capacitor in bass ? halves.SelectMany(h => h) : ends.SelectMany(e => e.Where(IsTone))) _capacitors.TryAdd(capacitor.Id, control.Name);
            _nodes.UnionWith(new[] { a, b, slider }.Where(n => !view.IsEarthy(n)));
        }
    }

    /// <summary>The control with which a capacitor sets the tone.</summary>
    public string? ControlOf(Part capacitor) => _capacitors.GetValueOrDefault(capacitor.Id);

    /// <summary>An end or the slider of such a control?</summary>
    public bool Contains(int node) => _nodes.Contains(node);
}
