using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Choose;

/// <summary>What a chosen value does to the circuit, where it differs from the old one: computed from the solved set.</summary>
/// <remarks>
/// A resistor: the reading of a plate, screen or cathode that it moves most. A coupling or bypass capacitor: the corner frequency 1/(2π·C·|Z|), Z being the impedance that the working circuit shows to it.
/// A reservoir or filter: its hum goes with 1/C, near enough while its reactance is small against the load. A tuned circuit: its frequency goes with 1/√C, at most.
/// </remarks>
internal sealed class Effects
{
    private const double LeastShare = 0.0005;
    private readonly ChooseBasis _basis;
    private readonly (string Lug, int Node)[] _pins;

    public Effects(ChooseBasis basis)
    {
        _basis = basis;
        _pins = [.. basis.Solved.Netlist.Map.Nodes.SelectMany(n => n.Pins.Where(p => p.Has(ElectrodeKind.Plate) || p.Has(ElectrodeKind.Screen) || p.Has(ElectrodeKind.Cathode)).Select(p => (p.Lug, n.Index))).DistinctBy(p => p.Index)];
    }

    /// <summary>The choices with their effects, and what all new values together do.</summary>
    public (ImmutableArray<Choice> Choices, string? Together) Of(ImmutableArray<Choice> choices)
    {
        if (_basis.Solved is not { Direct: { } direct, Point: { } point }) return (choices, null);
        var elements = direct.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
        var resistors = choices.Where(c => c.Unit == Unit.Ohm && Changes(c)).Select(c => (Choice: c, Element: ElementOf(c, elements, e => e is Resistor))).Where(r => r.Element is not null).ToArray();
        var moved = Moved(direct, [.. resistors.Select(r => (r.Choice, r.Element!))], out var together);
        return ([.. choices.Select(c => c.Unit == Unit.Ohm ? c with { Effect = moved.GetValueOrDefault(c.Position) } : Changes(c) ? c with { Effect = Capacitor(c, direct, point, elements) } : c)], together);
    }

    private static bool Changes(Choice choice) => choice is { Candidates: [{ } first, ..], OldValue: { } old } && Math.Abs(first.Value / old - 1) > LeastShare;

    private string? ElementOf(Choice choice, Dictionary<string, Element> elements, Func<Element, bool> kind) =>
        _basis.Solved.Netlist.ElementsOf(choice.Position).FirstOrDefault(n => elements.TryGetValue(n, out var e) && kind(e));

    private Dictionary<string, string> Moved(Network direct, (Choice Choice, string Element)[] changed, out string? together)
    {
        together = null;
        var effects = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        if (changed.Length == 0) return effects;
        var table = new VariantTable(direct, changed.Select(c => new Varied(c.Element, Parameter.Ohms)));
        var nominal = table.Add([]);
        var rows = changed.Select(c => (c.Choice, Row: table.Add([(c.Element, Parameter.Ohms, c.Choice.Candidates[0].Value)]))).ToArray();
        var all = table.Add(changed.Where(c => c.Choice.Decision == Trade.Work.Decision.Goes).Select(c => (c.Element, Parameter.Ohms, c.Choice.Candidates[0].Value)));
        var result = table.Solve();
        if (result.ReasonOf(nominal) is not null) return effects;
        foreach (var (choice, row) in rows)
            if (result.ReasonOf(row) is null) effects[choice.Position] = Largest(result.VoltsOf(nominal), result.VoltsOf(row)) is { } words ? $"{words}." : "No plate, screen or cathode moves by as much as 0.5 %.";
        if (result.ReasonOf(all) is null && changed.Any(c => c.Choice.Decision == Trade.Work.Decision.Goes))
            together = Largest(result.VoltsOf(nominal), result.VoltsOf(all)) is { } most ? $"With all new resistors at their marked value: {most}, and no other reading moves by a larger share." : "With all new resistors at their marked value no plate, screen or cathode moves by as much as 0.5 %.";
        return effects;
    }

    private string? Largest(ReadOnlySpan<double> was, ReadOnlySpan<double> now)
    {
        (string Lug, int Node, double Share)? most = null;
        foreach (var (lug, node) in _pins)
        {
            var share = Math.Abs(now[node] - was[node]) / Math.Max(Math.Abs(was[node]), 1);
            if (share >= 0.005 && share > (most?.Share ?? 0)) most = (lug, node, share);
        }
        if (most is not var (pin, at, _)) return null;
        var line = _basis.Sheet.Lines.FirstOrDefault(l => l.Node == at && l.Low is not null);
        var within = line is null ? "" : now[at] >= line.Low && now[at] <= line.High ? ", within the spread of healthy sets" : ", beyond the spread of healthy sets";
        return string.Create(CultureInfo.InvariantCulture, $"{pin} goes from {Three(was[at])} to {Three(now[at])} V ({Show.Deviation(Math.Abs(was[at]), Math.Abs(now[at]))}{within})");
    }

    private static string Three(double volts) => Show.Number(Math.Abs(volts) < 1e-3 ? 0 : Math.Round(volts, Math.Clamp(2 - (int)Math.Floor(Math.Log10(Math.Abs(volts))), 0, 3)));

    private string? Capacitor(Choice choice, Network direct, OperatingPoint point, Dictionary<string, Element> elements)
    {
        var (was, now) = (choice.OldValue!.Value, choice.Candidates[0].Value);
        switch (choice.Role.Role)
        {
            case Role.Reservoir or Role.Filter or Role.Doubler: return $"Hum there goes with 1/C: about {Show.Deviation(now, was)}.";
            case Role.Tuned: return $"The frequency moves by at most {Show.Deviation(Math.Sqrt(now), Math.Sqrt(was))}: the trimmer takes that up.";
            case Role.Timing: return $"Its time changes by {Show.Deviation(was, now)}: within the control's range.";
            case Role.ControlVoltageFilter: return $"The control voltage takes {Show.Deviation(was, now)} of its time to follow.";
            case Role.Coupling or Role.CathodeBypass or Role.ScreenBypass or Role.Decoupling or Role.Tone or Role.Feedback or Role.PlateBypass or Role.RfBypass:
                if (ElementOf(choice, elements, e => e is Circuit.Elements.Capacitor) is not { } name || elements[name] is not Circuit.Elements.Capacitor c) return null;
                return Corner(direct, point, c, was) is { } before && Corner(direct, point, c, now) is { } after
                    ? $"Its corner moves from {Hertz(before)} to {Hertz(after)}." : null;
            default: return null;
        }
    }

    private static string Hertz(double hertz)
    {
        var two = TwoFigures.Of(hertz);
        return two >= 1e6 ? $"{Show.Number(two / 1e6)} MHz" : two >= 1e3 ? $"{Show.Number(two / 1e3)} kHz" : $"{Show.Number(two)} Hz";
    }

    /// <summary>Where the capacitor's reactance equals the impedance that the circuit shows to it, Hz; null where it does not come to one.</summary>
    private static double? Corner(Network direct, OperatingPoint point, Circuit.Elements.Capacitor c, double farads)
    {
        var hertz = 1000.0;
        for (var round = 0; round < 12; round++)
        {
            var seen = Complex.Abs(SmallSignal.Seen(direct, point, c.A, c.B, c.Name, hertz));
            if (!double.IsFinite(seen) || seen <= 0) return null;
            var next = Math.Clamp(1 / (2 * Math.PI * farads * seen), 1e-3, 1e9);
            if (Math.Abs(next / hertz - 1) < 1e-3) return next;
            hertz = Math.Sqrt(next * hertz);
        }
        return hertz;
    }
}
