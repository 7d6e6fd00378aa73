using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Choose;

/// <summary>What a capacitor to common does: cathode, screen, supply, heater, control voltage, detector, tone.</summary>
internal sealed class BypassRoles(CircuitView view)
{
    /// <summary>The role of a capacitor from this node to common; null when the node does not tell.</summary>
    public RoleFinding? Find(Part part, int n)
    {
        if (view.PinsAt(n, ElectrodeKind.Cathode).FirstOrDefault() is { } cathode) return new(Role.CathodeBypass, $"From the {cathode.Words} to common.");
        if (view.PinsAt(n, ElectrodeKind.Screen).FirstOrDefault() is { } screen && !view.Supply.Contains(n))
            return new(Role.ScreenBypass, $"From the {screen.Words} to common.");
        if (view.Supply.Contains(n)) return new(Role.Decoupling, $"From the supply ({view.Name(n)}) to common.");
        if (view.PinsAt(n).FirstOrDefault(p => p.IsHeater) is { } heater) return new(Role.HeaterBypass, $"From the {heater.Words} to common.");
        if (part.Kind == PartKind.Electrolytic && part.RatedVolts <= 100)
            foreach (var (node, through) in view.Reach(n, 3, p => p.Kind == PartKind.Control || p.Kind == PartKind.Resistor && p.Value <= 10e3))
                if (node != n && !view.IsEarthy(node) && view.PinsAt(node, ElectrodeKind.Cathode).FirstOrDefault() is { } k)
                    return new(Role.CathodeBypass, $"On the {k.Words} through {Show.List(through)}, to common.");
        if (ControlVoltage(part, n) is { } control) return control;
        if (view.At(n).Where(x => x.Part.Kind == PartKind.Winding && view.IsTunedCoil(x.Part)).SelectMany(x => view.PinsAt(x.To, ElectrodeKind.ControlGrid)).FirstOrDefault() is { } coil)
            return new(Role.RfBypass, $"At the cold end of the coil on the {coil.Words}, to common: it closes the tuned circuit.");
        if (FedStage(n) is { } stage) return stage;
        if (part.Value <= 2.2e-9)
            foreach (var (node, through) in view.Reach(n, 2, RoleFinder.IsPath))
                if (!view.IsEarthy(node) && (view.PinsAt(node, ElectrodeKind.DiodePlate).Any() || view.At(node).Any(x => x.Part.Kind is PartKind.CrystalDiode or PartKind.SeleniumDiode)))
                    return new(Role.RfBypass, $"A small value to common, on a detector{(through.IsEmpty ? "" : $" through {Show.List(through)}")}.");
        if (view.At(n).FirstOrDefault(x => x.Part.Kind == PartKind.Control && x.Part.LeadC is { } slider && view.NodeOf(slider) == n) is { Part: { } tone } && part.Value <= 0.5e-6)
            return new(Role.Tone, $"From the slider of {tone.Name} to common.");
        return null;
    }

    private RoleFinding? ControlVoltage(Part part, int n)
    {
        if (part.Value is not >= 470e-12 || OnPulses(n) || !view.At(n).Any(x => x.Part.Kind == PartKind.Resistor && x.Part.Value >= 9e3)) return null;
        var grid = view.Reach(n, 4, IsGridFeed).Where(r => !view.IsEarthy(r.Node) && !view.Supply.Contains(r.Node))
            .SelectMany(r => view.PinsAt(r.Node, ElectrodeKind.ControlGrid)).FirstOrDefault();
        if (grid is null) return null;
        foreach (var (node, _) in view.Reach(n, 4, p => p.Kind is PartKind.Winding or PartKind.Resistor))
            if (!view.IsEarthy(node) && !view.Supply.Contains(node)
                && (view.PinsAt(node, ElectrodeKind.DiodePlate).Any() || view.At(node).Any(x => x.Part.Kind is PartKind.CrystalDiode or PartKind.SeleniumDiode)))
                return new(Role.ControlVoltageFilter, $"On the way of a rectified voltage from {view.Name(node)} to the {grid.Words}, to common.");
        return null;
    }

    // What a resistor brings from the line output transformer is a waveform, not a control voltage.
    private bool OnPulses(int n) => view.Reach(n, 1, p => p.Kind == PartKind.Resistor)
        .Any(r => !view.IsEarthy(r.Node) && !view.Supply.Contains(r.Node) && view.Map.Nodes[r.Node].Lugs.Any(l => view.MountOf(l) == MountKind.Flyback));

    private static bool IsGridFeed(Part part) => part.Kind == PartKind.Winding || part.Kind == PartKind.Resistor && part.Value <= 500e3;

    private RoleFinding? FedStage(int n)
    {
        if (view.At(n).FirstOrDefault(x => x.Part.Kind == PartKind.Resistor && view.Supply.Contains(x.To)) is not { Part: { } feed }) return null;
        foreach (var (node, _) in view.Reach(n, 1, RoleFinder.IsPath))
            if (view.PinsAt(node).FirstOrDefault(p => p.Kind is ElectrodeKind.Plate or ElectrodeKind.Screen) is { } pin && node != n)
                return new(Role.Decoupling, $"After {feed.Name}, which feeds the {pin.Words}, to common.");
        return feed.Value <= 22e3 && !view.PinsAt(n).Any() ? new(Role.Decoupling, $"After {feed.Name} from the supply, to common.") : null;
    }
}
