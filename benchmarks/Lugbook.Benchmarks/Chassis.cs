using Lugbook.Circuit;
using Lugbook.Circuit.Elements;

namespace Lugbook.Benchmarks;

/// <summary>Chassis of any size, wired as receivers are: a supply, and sections of detector, IF stages, triode stages and an output stage, each section on its own decoupled rail.</summary>
/// <remarks>Deterministic: the same size, the same network. Values are the common ones, drawn so that no two stages are alike; common practice, no source.</remarks>
internal sealed class Chassis
{
    private const double Film = 100e9, Electrolytic = 50e6;   // insulation of sound capacitors, Ω
    private static readonly TriodeLaw HighMu = new(100, 1.5e-3, 1.5, 0.6, 0.1, 0.001, 3e-4, 0.15, 0.15);
    private static readonly TriodeLaw MediumMu = new(20, 2e-3, 1.5, 0.6, 0.3, 0.004, 3e-4, 0.15, 0.15);
    private static readonly PentodeLaw Remote = new(19, 600, 2.2e-3, 1.4, 0.6, 0.1, 0.02, 0.3, 3, 0.35, 0.2, 0.06, 2, 3e-4, 0.15, 0.15);
    private static readonly PentodeLaw Power = new(9, 200, 0.8e-3, 1.4, 0.6, 0.1, 0.02, 0, 1, 0.08, 0.3, 0.1, 3, 3e-4, 0.15, 0.15);

    private readonly List<string> _nodes = ["common"];
    private readonly List<Element> _elements = [];
    private readonly Random _random = new(1950);
    private int _rail, _signal, _control;

    private Chassis() { }

    /// <summary>A chassis of about so many parts; the last stage may take it a few over.</summary>
    public static Network Of(int parts)
    {
        var chassis = new Chassis();
        var high = chassis.Supply();
        for (var section = 0; ; section++)
        {
            // Short and long sections take turns: one or two IF stages, one or two triodes.
            var stages = section % 2 == 0 ? 1 : 2;
            Action[] steps =
            [
                () => chassis.Rail(high), chassis.Detector, .. Enumerable.Repeat<Action>(chassis.Intermediate, stages),
                .. Enumerable.Repeat<Action>(chassis.Audio, stages), () => chassis.Output(high),
            ];
            foreach (var step in steps)
            {
                if (chassis._elements.Count >= parts - 5) return new(chassis._nodes, 0, chassis._elements);
                step();
            }
        }
    }

    private int Supply()
    {
        var (reservoir, high) = (Node(), Node());
        _elements.Add(new Battery($"supply {_elements.Count}", reservoir, 0, 300, 20));
        C(reservoir, 0, 40e-6);
        R(reservoir, high, 22);
        C(high, 0, 40e-6);
        R(high, 0, 100e3);
        return high;
    }

    private void Rail(int high)
    {
        _rail = Node();
        R(high, _rail, 820);
        C(_rail, 0, 20e-6);
        _control = Node();
    }

    private void Detector()
    {
        var (plate, load, filtered, slider) = (Node(), Node(), Node(), Node());
        Coil(plate, load, 12);
        C(plate, load, 100e-12);
        _elements.Add(new Diode($"diode {_elements.Count}", plate, 0, DiodeLaw.SignalPlate()));
        C(load, 0, 100e-12);
        R(load, filtered, 47e3);
        C(filtered, 0, 100e-12);
        _elements.Add(new Control($"volume {_elements.Count}", filtered, 0, slider, 500e3, 0.6));
        R(filtered, _control, 2.2e6);
        C(_control, 0, 50e-9);
        _signal = slider;
    }

    private void Intermediate()
    {
        var (supply, plate, bias, grid, screen, cathode) = (Node(), Node(), Node(), Node(), Node(), Node());
        R(_rail, supply, 1000);
        C(supply, 0, 10e-9);
        Coil(supply, plate, 15);
        C(supply, plate, 100e-12);
        R(_control, bias, 1e6);
        C(bias, 0, 10e-9);
        Coil(bias, grid, 15);
        C(bias, grid, 100e-12);
        R(supply, screen, 33e3);
        C(screen, 0, 50e-9);
        R(cathode, 0, 180);
        C(cathode, 0, 50e-9);
        _elements.Add(new Pentode($"IF valve {_elements.Count}", plate, screen, grid, cathode, Remote));
    }

    private void Audio()
    {
        var (grid, cathode, supply, plate) = (Node(), Node(), Node(), Node());
        var high = _random.Next(2) == 0;
        C(_signal, grid, 10e-9);
        R(grid, 0, 1e6);
        R(cathode, 0, high ? 2200 : 1000);
        C(cathode, 0, 25e-6);
        R(_rail, supply, 22e3);
        C(supply, 0, 8e-6);
        R(supply, plate, high ? 220e3 : 47e3);
        C(plate, 0, 220e-12);
        _elements.Add(new Triode($"triode {_elements.Count}", plate, grid, cathode, high ? HighMu : MediumMu));
        _signal = plate;
    }

    private void Output(int high)
    {
        var (leak, grid, cathode, screen, plate, tone) = (Node(), Node(), Node(), Node(), Node(), Node());
        C(_signal, leak, 22e-9);
        R(leak, 0, 470e3);
        R(leak, grid, 10e3);
        R(cathode, 0, 270);
        C(cathode, 0, 25e-6);
        R(high, screen, 470);
        C(screen, 0, 8e-6);
        Coil(high, plate, 280);
        C(plate, tone, 22e-9);
        R(tone, 0, 4700);
        _elements.Add(new Pentode($"output valve {_elements.Count}", plate, screen, grid, cathode, Power));
    }

    private int Node()
    {
        _nodes.Add($"n{_nodes.Count}");
        return _nodes.Count - 1;
    }

    // Between two values of the 20 % row.
    private void R(int a, int b, double ohms) => _elements.Add(new Resistor($"R{_elements.Count}", a, b, ohms * (0.85 + 0.3 * _random.NextDouble())));

    private void C(int a, int b, double farads) => _elements.Add(new Capacitor($"C{_elements.Count}", a, b, farads, 0, farads >= 1e-6 ? Electrolytic : Film));

    private void Coil(int a, int b, double ohms) => _elements.Add(new Inductor($"L{_elements.Count}", a, b, 1e-3, ohms));
}
