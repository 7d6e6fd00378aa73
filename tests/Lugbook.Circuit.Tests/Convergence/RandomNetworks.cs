using CsCheck;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Tests.Valves;

namespace Lugbook.Circuit.Tests.Convergence;

/// <summary>Random networks that are valid by what the elements ask for, and otherwise as they come: floating parts, open grids, loops of shorts, valves upside down.</summary>
internal static class RandomNetworks
{
    /// <summary>The line's frequency; all lines of a network have it.</summary>
    public const double Hertz = 60;

    // Nodes above the network's count wrap round, so that shrinking the count keeps the elements.
    private delegate Element Made(string name, Func<int, int> node);

    private static readonly Gen<int> Node = Gen.Frequency((3, Gen.Const(0)), (2, Gen.Const(1)), (12, Gen.Int[0, 23]));
    private static readonly Gen<double> Unit = Gen.Double[0, 1];

    private static Gen<double> Between(double least, double most) => Unit.Select(x => least * Math.Pow(most / least, x));

    private static readonly Gen<double> Ohms = Gen.Frequency((14, Between(1, 22e6)), (1, Gen.Const(0.0)), (1, Gen.Const(double.PositiveInfinity)), (1, Between(1e-3, 1)));
    private static readonly Gen<double> Leak = Gen.Frequency((3, Gen.Const(double.PositiveInfinity)), (2, Between(1e4, 1e12)));

    private static readonly Lazy<(TriodeLaw[] Triodes, PentodeLaw[] Pentodes, ConverterLaw[] Converters)> Laws = new(() =>
    {
        var fits = new[] { "12AX7", "6SN7", "6J5", "6SK7", "6V6", "6L6", "6AU6", "50L6", "6SA7", "12BE6", "6SQ7" }
            .SelectMany(t => Data.Library.Find(t)?.Sections.Select(s => s.Fit) ?? []).OfType<Circuit.Valves.FittedLaw>().ToArray();
        return ([.. fits.Select(f => f.Triode).OfType<TriodeLaw>()], [.. fits.Select(f => f.Pentode).OfType<PentodeLaw>()], [.. fits.Select(f => f.Converter).OfType<ConverterLaw>()]);
    });

    private static readonly Gen<DiodeLaw> Diodes = Gen.OneOf(
        Gen.Select(Between(1, 60), Between(1e-3, 0.3), DiodeLaw.Vacuum), Gen.Select(Gen.Int[1, 12], Between(0.02, 0.5), DiodeLaw.Selenium),
        Gen.Const(DiodeLaw.Silicon()), Gen.Const(DiodeLaw.Germanium()), Gen.Const(DiodeLaw.SignalPlate()));

    private static Gen<Made> Two(Gen<double> value, Func<string, int, int, double, Element> make) =>
        Gen.Select(Node, Node, value, (a, b, x) => (Made)((name, at) => make(name, at(a), at(b), x)));

    private static readonly Gen<Made> Any = Gen.Frequency(
        (30, Two(Ohms, (n, a, b, x) => new Resistor(n, a, b, x))),
        (8, Gen.Select(Node, Node, Between(10e-12, 100e-6), Gen.OneOf(Gen.Const(0.0), Between(1e-2, 100)), Leak,
            (a, b, c, r, leak) => (Made)((n, at) => new Capacitor(n, at(a), at(b), c, r, leak)))),
        (4, Gen.Select(Node, Node, Gen.OneOf(Gen.Const(0.0), Between(1e-6, 50)), Between(0.05, 1e3), (a, b, l, r) => (Made)((n, at) => new Inductor(n, at(a), at(b), l, r)))),
        (3, Gen.Select(Gen.Select(Node, Node, Between(1e-4, 50), Between(0.05, 1e3)).Array[2, 4], Gen.Double[0.2, 0.9995],
            (w, k) => (Made)((n, at) => new Transformer(n, [.. w.Select(x => new WindingOf(at(x.Item1), at(x.Item2), x.Item3, x.Item4))], k)))),
        (4, Gen.Select(Node, Node, Node, Between(1e3, 5e6), Gen.Frequency((4, Unit), (1, Gen.Const(0.0)), (1, Gen.Const(1.0))), (a, b, c, r, p) => (Made)((n, at) => new Control(n, at(a), at(b), at(c), r, p)))),
        (2, Gen.Select(Node, Node, Gen.Bool, (a, b, on) => (Made)((n, at) => new Switch(n, at(a), at(b), on)))),
        (1, Two(Between(0.01, 5), (n, a, b, x) => new Fuse(n, a, b, x))),
        (3, Gen.Select(Node, Node, Between(1, 120), Between(0.05, 1), Gen.Double[0.05, 0.2], Gen.OneOf(Gen.Const(0.0), Between(0.1, 20)),
            (a, b, v, i, cold, s) => (Made)((n, at) => new Filament(n, at(a), at(b), v, i, cold, s)))),
        (1, Gen.Select(Node, Node, Between(50, 5e3), Gen.Double[1500, 4500], Between(1e-3, 0.05), Between(0.05, 5),
            (a, b, r, beta, g, c) => (Made)((n, at) => new Thermistor(n, at(a), at(b), r, beta, g, c)))),
        (6, Gen.Select(Node, Node, Diodes, (a, b, law) => (Made)((n, at) => new Diode(n, at(a), at(b), law)))),
        (2, Gen.Select(Node, Node, Between(55, 160), Between(10, 500), Gen.Double[1.15, 1.5], (a, b, v, r, s) => (Made)((n, at) => new GasRegulator(n, at(a), at(b), v, r, v * s)))),
        (6, Gen.Select(Node, Node, Node, Gen.Int[0, 99], (p, g, k, law) => (Made)((n, at) => new Triode(n, at(p), at(g), at(k), Laws.Value.Triodes[law % Laws.Value.Triodes.Length])))),
        (6, Gen.Select(Node, Node, Node, Node, Gen.Int[0, 99], (p, s, g, k, law) => (Made)((n, at) => new Pentode(n, at(p), at(s), at(g), at(k), Laws.Value.Pentodes[law % Laws.Value.Pentodes.Length])))),
        (2, Gen.Select(Gen.Select(Node, Node, Node), Gen.Select(Node, Node), Gen.Int[0, 99], Gen.OneOf(Gen.Const(0.0), Between(0.5, 30)),
            (p, q, law, peak) => (Made)((n, at) => new Converter(n, at(p.Item1), at(p.Item2), at(p.Item3), at(q.Item1), at(q.Item2), Laws.Value.Converters[law % Laws.Value.Converters.Length], peak)))),
        (2, Two(Between(90, 250), (n, a, b, x) => new Mains(n, a, b, x, Hertz, 0.4))),
        (3, Gen.Select(Node, Node, Gen.Double[-400, 400], Between(0.01, 1e3), (a, b, v, r) => (Made)((n, at) => new Battery(n, at(a), at(b), v, r)))),
        (1, Two(Between(1e-7, 0.1), (n, a, b, x) => new CurrentDrain(n, a, b, x))),
        (1, Gen.Select(Node, Gen.Double[-100, 400], (a, v) => (Made)((n, at) => new Declared(n, at(a), v)))));

    /// <summary>Two to 24 nodes, one to 40 elements, and a source between nodes 0 and 1.</summary>
    public static readonly Gen<Network> Wild = Gen.Select(Gen.Int[2, 24], Any.Array[1, 40], Gen.Double[-300, 350], (nodes, made, volts) =>
        new Network(Enumerable.Range(0, nodes).Select(n => $"n{n}"), 0, made.Select((m, k) => m($"P{k}", x => x % nodes)).Append(new Battery("supply", 1, 0, volts, 10))));

    /// <summary>One stage of a set: nodes of its own after those before it.</summary>
    private static readonly Gen<Action<Sets>> Stage = Gen.Select(Gen.Int[0, 5], Gen.Int[0, 99], Gen.Double[0, 1].Array[8], (kind, law, x) => (Action<Sets>)(s => s.Stage(kind, law, x)));

    /// <summary>Sets as they are wired, of one to eight stages, with up to three parts open, shorted or in the wrong place.</summary>
    public static readonly Gen<Network> Faulty = Gen.Select(Stage.Array[1, 8], Gen.Select(Gen.Int[0, 999], Gen.Int[0, 3], Any).Array[0, 3], (stages, faults) =>
    {
        var set = new Sets();
        foreach (var stage in stages) stage(set);
        var elements = set.Elements.ToArray();
        var extra = new List<Element>();
        foreach (var (which, what, any) in faults)
        {
            var at = which % elements.Length;
            if (what == 0) extra.Add(any($"P{extra.Count}", n => n % set.Nodes.Count));
            else elements[at] = (elements[at], what) switch
            {
                (Resistor r, 1) => r with { Ohms = double.PositiveInfinity },
                (Resistor r, 2) => r with { Ohms = 0 },
                (Resistor r, _) => r with { B = which % set.Nodes.Count },
                (Capacitor c, 1) => c with { LeakOhms = 1 },
                (Capacitor c, _) => c with { LeakOhms = 1e5 },
                (Triode t, _) => t with { Grid = which % set.Nodes.Count },
                (Pentode p, _) => p with { Cathode = which % set.Nodes.Count },
                var (same, _) => same,
            };
        }
        return new Network(set.Nodes, 0, [.. elements, .. extra]);
    });

    /// <summary>Sets as they should be.</summary>
    public static readonly Gen<Network> Sound = Stage.Array[1, 8].Select(stages =>
    {
        var set = new Sets();
        foreach (var stage in stages) stage(set);
        return new Network(set.Nodes, 0, set.Elements);
    });

    /// <summary>Half of each.</summary>
    public static readonly Gen<Network> Both = Gen.OneOf(Wild, Faulty);

    /// <summary>A set that grows stage by stage on one supply.</summary>
    private sealed class Sets
    {
        private int _high, _signal;

        public Sets()
        {
            var (live, lifted) = (Node(), Node());
            _high = Node();
            Elements.Add(new Mains("line", live, 0, 117, Hertz, 0.4));
            Elements.Add(new Battery("lift", lifted, live, 150, 1));
            Elements.Add(new Diode("rectifier", lifted, _high, DiodeLaw.Vacuum(20, 0.1)));
            Elements.Add(new Capacitor("reservoir", _high, 0, 40e-6, 1, 50e6));
        }

        public List<string> Nodes { get; } = ["common"];
        public List<Element> Elements { get; } = [];

        public void Stage(int kind, int law, double[] x)
        {
            switch (kind)
            {
                case 0:
                    var next = Node();
                    R(_high, next, 100, 10e3, x[0]);
                    C(next, 0, 1e-6, 50e-6, x[1]);
                    _high = next;
                    break;
                case 1: Triode(law, x); break;
                case 2: Pentode(law, x); break;
                case 3: Converter(law, x); break;
                case 4:
                    var tapped = Node();
                    R(_high, tapped, 1e3, 20e3, x[0]);
                    Elements.Add(new GasRegulator(Name("VR"), tapped, 0, 75 + 75 * x[1], 80, 120 + 100 * x[1]));
                    _high = tapped;
                    break;
                default:
                    var load = Node();
                    Elements.Add(new Diode(Name("D"), _signal, load, DiodeLaw.SignalPlate()));
                    R(load, 0, 100e3, 1e6, x[0]);
                    C(load, 0, 50e-12, 500e-12, x[1]);
                    break;
            }
        }

        private void Triode(int law, double[] x)
        {
            var (plate, grid, cathode) = (Node(), Node(), Node());
            C(_signal, grid, 1e-9, 100e-9, x[0]);
            R(grid, 0, 100e3, 10e6, x[1]);
            R(_high, plate, 10e3, 470e3, x[2]);
            R(cathode, 0, 220, 4700, x[3]);
            if (x[4] < 0.5) C(cathode, 0, 1e-6, 50e-6, x[5]);
            Elements.Add(new Triode(Name("V"), plate, grid, cathode, Laws.Value.Triodes[law % Laws.Value.Triodes.Length]));
            Heater(x[6]);
            _signal = plate;
        }

        private void Pentode(int law, double[] x)
        {
            var (plate, screen, grid, cathode) = (Node(), Node(), Node(), Node());
            C(_signal, grid, 1e-9, 100e-9, x[0]);
            R(grid, 0, 100e3, 2e6, x[1]);
            Elements.Add(new Inductor(Name("L"), _high, plate, x[4], 10 + 400 * x[4]));
            R(_high, screen, 100, 100e3, x[2]);
            C(screen, 0, 10e-9, 1e-6, x[7]);
            R(cathode, 0, 47, 470, x[3]);
            C(cathode, 0, 10e-9, 50e-6, x[5]);
            Elements.Add(new Pentode(Name("V"), plate, screen, grid, cathode, Laws.Value.Pentodes[law % Laws.Value.Pentodes.Length]));
            Heater(x[6]);
            _signal = plate;
        }

        private void Converter(int law, double[] x)
        {
            var (plate, screen, signal, oscillator) = (Node(), Node(), Node(), Node());
            R(_high, plate, 10, 100, x[0]);
            R(_high, screen, 5e3, 50e3, x[1]);
            R(signal, 0, 100e3, 3e6, x[2]);
            R(oscillator, 0, 10e3, 100e3, x[3]);
            C(_signal, signal, 50e-12, 1e-9, x[4]);
            Elements.Add(new Converter(Name("V"), plate, screen, signal, oscillator, 0, Laws.Value.Converters[law % Laws.Value.Converters.Length], 20 * x[5]));
            Heater(x[6]);
            _signal = plate;
        }

        private void Heater(double x)
        {
            var end = Node();
            Elements.Add(new Filament(Name("H"), Math.Max(1, end - 7), end, 6.3 + 44 * x, 0.15, 1 / 7.0, 10));
            R(end, 0, 10, 200, x);
        }

        private int Node()
        {
            Nodes.Add($"s{Nodes.Count}");
            return Nodes.Count - 1;
        }

        private string Name(string sort) => $"{sort}{Elements.Count}";
        private void R(int a, int b, double least, double most, double x) => Elements.Add(new Resistor(Name("R"), a, b, least * Math.Pow(most / least, x)));
        private void C(int a, int b, double least, double most, double x) => Elements.Add(new Capacitor(Name("C"), a, b, least * Math.Pow(most / least, x), 0, x < 0.3 ? double.PositiveInfinity : 1e10));
    }
}
