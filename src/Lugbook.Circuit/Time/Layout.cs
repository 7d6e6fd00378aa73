using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit.Time;

/// <summary>A network as time sees it: which conductances and drains stand for what stores energy, varies or switches. Made once.</summary>
/// <remarks>States: one voltage a capacitor, one current a winding that has inductance.</remarks>
internal sealed class Layout
{
    private readonly List<(int A, int B)> _places = [];
    private readonly AssemblyBuilder _builder;
    private int _drains;

    public Layout(Network network, IReadOnlySet<string> timedSwitches)
    {
        Network = network;
        _builder = new(network);
        foreach (var element in network.Elements) Add(element, timedSwitches);
        Assembly = _builder.Build();
        JoinedOf = _builder.JoinedOf;
        PlaceOf = new int[_places.Count];
        // The assembly leaves out conductances whose ends were joined.
        var at = 0;
        for (var p = 0; p < PlaceOf.Length; p++) PlaceOf[p] = JoinedOf[_places[p].A] == JoinedOf[_places[p].B] ? -1 : at++;
        if (at != Assembly.Conductances.Length) throw new InvalidOperationException("Conductances were not counted as the assembly counts them.");
    }

    public sealed record Store(Capacitor Element, int Place, int Drain, int State);
    public sealed record Coils(Element Element, WindingOf[] Windings, double[,] Inductance, int[] Own, (int P, int Q, int Place)[] Mutual, int[] Drains, int State);
    public sealed record Line(Mains Element, int Drain);
    public sealed record Warm(Element Element, int A, int B, int Place);
    public sealed record Gate(Switch Element, int Place);
    public sealed record Glow(GasRegulator Element, int Diode);

    public Network Network { get; }
    public Assembly Assembly { get; }
    public int[] JoinedOf { get; }
    /// <summary>Place to conductance number; −1 where its ends are one node.</summary>
    public int[] PlaceOf { get; }
    public int States { get; private set; }
    public List<Store> Stores { get; } = [];
    public List<Coils> Windings { get; } = [];
    public List<Line> Lines { get; } = [];
    public List<Warm> Warms { get; } = [];
    public List<Gate> Gates { get; } = [];
    public List<Glow> Glows { get; } = [];
    /// <summary>Element's name to its number among the diode devices.</summary>
    public Dictionary<string, int> DiodeOf { get; } = [];

    private void Add(Element element, IReadOnlySet<string> timed)
    {
        switch (element)
        {
            case Capacitor e:
                Stores.Add(new(e, Place(e, e.A, e.B, 1), Drain(e, e.A, e.B), States++));
                if (double.IsFinite(e.LeakOhms)) Place(e, e.A, e.B, 1 / e.LeakOhms);
                break;
            case Inductor { Henries: > 0 } e: AddCoils(e, [new(e.A, e.B, e.Henries, e.Ohms)], 0); break;
            case Transformer e: AddCoils(e, [.. e.Windings], e.Coupling); break;
            case Mains e:
                Place(e, e.A, e.B, 1 / e.Ohms);
                Lines.Add(new(e, Drain(e, e.B, e.A)));
                break;
            case Filament e: Warms.Add(new(e, e.A, e.B, Place(e, e.A, e.B, 1))); break;
            case Thermistor e: Warms.Add(new(e, e.A, e.B, Place(e, e.A, e.B, 1))); break;
            case Switch e when timed.Contains(e.Name): Gates.Add(new(e, Place(e, e.A, e.B, 1))); break;
            default: AddStill(element); break;
        }
    }

    /// <summary>What direct current sees is what time sees; only the counts must be kept.</summary>
    private void AddStill(Element element)
    {
        if (element is GasRegulator g) Glows.Add(new(g, DiodeOf.Count));
        if (element is Diode or GasRegulator) DiodeOf.Add(element.Name, DiodeOf.Count);
        foreach (var (a, b) in StillPlaces(element)) _places.Add((a, b));
        if (element is Battery or CurrentDrain) _drains++;
        Direct.Add(_builder, element);
    }

    private static IEnumerable<(int A, int B)> StillPlaces(Element element) => element switch
    {
        Resistor { Ohms: >= AssemblyBuilder.LeastOhms } e => [(e.A, e.B)],
        Fuse { Ohms: >= AssemblyBuilder.LeastOhms } e => [(e.A, e.B)],
        Inductor { Ohms: >= AssemblyBuilder.LeastOhms } e => [(e.A, e.B)],
        Battery e => [(e.Plus, e.Minus)],
        Control e => ControlPlaces(e),
        _ => [],
    };

    private static IEnumerable<(int A, int B)> ControlPlaces(Control e)
    {
        if (e.Ohms * e.Position >= AssemblyBuilder.LeastOhms) yield return (e.A, e.Slider);
        if (e.Ohms * (1 - e.Position) >= AssemblyBuilder.LeastOhms) yield return (e.Slider, e.B);
    }

    private void AddCoils(Element element, WindingOf[] windings, double coupling)
    {
        var n = windings.Length;
        var inductance = new double[n, n];
        var mutual = new List<(int, int, int)>();
        for (var p = 0; p < n; p++)
            for (var q = 0; q < n; q++)
                inductance[p, q] = p == q ? windings[p].Henries : coupling * Math.Sqrt(windings[p].Henries * windings[q].Henries);
        int[] own = [.. windings.Select(w => Place(element, w.A, w.B, 1))];
        for (var p = 0; p < n; p++)
        {
            for (var q = p + 1; q < n; q++)
            {
                // Current of one winding by the voltage of another, as four conductances of which two are negative. Nominally 0: they tie nothing together.
                mutual.Add((p, q, Place(element, windings[p].A, windings[q].A, 0)));
                Place(element, windings[p].B, windings[q].B, 0);
                Place(element, windings[p].A, windings[q].B, 0);
                Place(element, windings[p].B, windings[q].A, 0);
            }
        }
        int[] drains = [.. windings.Select(w => Drain(element, w.A, w.B))];
        Windings.Add(new(element, windings, inductance, own, [.. mutual], drains, States));
        States += n;
    }

    private int Place(Element element, int a, int b, double siemens)
    {
        _builder.Conductance(element.Name, a, b, siemens);
        _places.Add((a, b));
        return _places.Count - 1;
    }

    private int Drain(Element element, int a, int b)
    {
        _builder.Drain(element.Name, a, b, 0);
        return _drains++;
    }
}
