using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Choose;

/// <summary>What a part does, as far as the joining of lugs tells it for sure. The order of the questions matters: danger first.</summary>
internal sealed class RoleFinder(CircuitView view, LineView line, PulseGenerators pulses)
{
    private readonly ToneNetwork _tone = new(view);
    private readonly PhaseShift _row = new(view);
    private readonly BypassRoles _toCommon = new(view);
    private ResistorRoles? _made;
    private ResistorRoles Resistors => _made ??= new(view, line, pulses, _tone, _row);

    internal static bool IsPath(Part part) => part.Kind is PartKind.Winding or PartKind.Control or PartKind.Fuse || part.Kind == PartKind.Resistor;

    public RoleFinding Find(Part part)
    {
        if (part.Leads.Length < 2) return new(Role.Unknown, "Its lugs are not entered; treated by its kind and marking alone.");
        if (view.Ends(part) is not var (a, b)) return new(Role.Unknown, "A lead is on a lug that the book does not have; treated by its kind and marking alone.");
        if (a == b) return new(Role.Unknown, $"Both leads are on one node ({view.Name(a)}); treated by its kind and marking alone.");
        return part.Kind == PartKind.Resistor ? Resistors.Find(part, a, b) : Capacitor(part, a, b);
    }

    private RoleFinding Capacitor(Part part, int a, int b)
    {
        var (x, y) = (view.Name(a), view.Name(b));
        if (line.IsAcrossLine(a, b))
        {
            var heater = view.IsEarthy(a) || view.IsEarthy(b) ? view.PinsAt(view.IsEarthy(a) ? b : a).FirstOrDefault(p => p.IsHeater) : null;
            return heater is not null && part.Value < 10e-9
                ? new(Role.HeaterBypass, $"From the {heater.Words} to common, which are both joined to the line: part of its voltage stands here.") { IsAcrossLine = true }
                : new(Role.AcrossLine, $"{x} and {y} are both joined to the line: all or part of its voltage stands here.") { IsAcrossLine = true };
        }
        if (line.IsLineToTouchable(a, b))
        {
            var (inside, outside) = line.IsTouchable(b) ? (x, y) : (y, x);
            return new(Role.LineToTouchable, $"{inside} has a path to the line, and {outside} is within reach of a hand.");
        }
        // From here on: n is the end of interest, the other is common, if one of them is.
        var (n, other) = view.IsEarthy(a) ? (b, a) : (a, b);
        var toCommon = view.IsEarthy(other);
        return Supply(part, n, other, toCommon)
            ?? Negative(part, n, other, toCommon)
            ?? Between(part, n, other, toCommon)
            ?? (toCommon ? _toCommon.Find(part, n) : null)
            ?? new(Role.Unknown, "Not known from the map: treated as a position that bore the old part's tolerance and no more.");
    }

    private RoleFinding? Supply(Part part, int n, int other, bool toCommon)
    {
        if (!CircuitView.IsBig(part)) return null;
        foreach (var (rectified, far) in (ReadOnlySpan<(int, int)>)[(n, other), (other, n)])
            if (view.Rectifiers.TryGetValue(rectified, out var output))
            {
                if (line.IsOnLine(far) && !view.IsEarthy(far)) return new(Role.Doubler, $"From the line ({view.Name(far)}) to the output of {output.Name} ({view.Name(rectified)}): it charges on every other half wave.");
                if (view.IsEarthy(far)) return new(Role.Reservoir, $"From the output of {output.Name} ({view.Name(rectified)}) to common: the first capacitor after the rectifier.");
                if (view.Negative.IsReturn(far)) return new(Role.Reservoir, $"From the output of {output.Name} ({view.Name(rectified)}) to the high-voltage winding's return ({view.Name(far)}), which a bias resistance keeps from common: the first capacitor after the rectifier.");
            }
        foreach (var (fed, far) in (ReadOnlySpan<(int, int)>)[(n, other), (other, n)])
            if (view.Supply.Contains(fed) && (view.IsEarthy(far) || view.Negative.IsReturn(far))) return new(Role.Filter, $"From a later section of the supply ({view.Name(fed)}) to {(view.IsEarthy(far) ? "common" : $"the winding's return ({view.Name(far)})")}.");
        return null;
    }

    private RoleFinding? Negative(Part part, int n, int other, bool toCommon)
    {
        if (!(toCommon || view.Negative.Contains(other)) || !view.Negative.Contains(n) || part.Value is not >= 10e-9) return null;
        if (view.Negative.OutputAt(n) is { } rectifier) return new(Role.Reservoir, $"From the output of {rectifier} ({view.Name(n)}), which delivers minus, to common: the first capacitor after the rectifier.");
        return new(Role.Filter, view.Negative.IsBias(n) ? $"From the bias supply ({view.Name(n)}) to common." : $"From the high-voltage winding's return ({view.Name(n)}) to common: it smooths the bias there.");
    }

    private RoleFinding? Between(Part part, int a, int b, bool toCommon)
    {
        var platesA = view.PinsAt(a, ElectrodeKind.Plate).ToArray();
        var platesB = view.PinsAt(b, ElectrodeKind.Plate).ToArray();
        if (platesA.Length > 0 && platesB.Length > 0 && (platesA[0].Valve != platesB[0].Valve || platesA[0].Section != platesB[0].Section))
            return new(Role.PlateToPlate, $"Between the {platesA[0].Words} and the {platesB[0].Words}.");
        if ((pulses.OnGrid(a) ?? pulses.OnGrid(b)) is not null && Pulses(part, a, b) is { } set) return set;
        if (_row.IsInRow(a, b)) return new(Role.Timing, $"One of a row: {_row.At(a) ?? _row.At(b)}, and the row sets the frequency.");
        if (_tone.ControlOf(part) is { } toned) return new(Role.Tone, $"On {toned}, which sets the tone.");
        if (Beside(part, a, b) is { } beside) return beside;
        if (Tuned(part, a, b) is { } tuned) return tuned;
        if (Boost(part, a, b) is { } boost) return boost;
        if (!toCommon && FromCathode(part, a, b) is { } follower) return follower;
        if (Pulses(part, a, b) is { } timing) return timing;
        if (view.At(a).FirstOrDefault(x => x.To == b && x.Part.Kind == PartKind.Switch) is { Part: { } contacts })
            return new(Role.ArcSuppression, $"Across the contacts of {contacts.Name}.");
        foreach (var (plate, far) in (ReadOnlySpan<(int, int)>)[(a, b), (b, a)])
            foreach (var pin in view.PinsAt(plate, ElectrodeKind.Plate))
            {
                if (view.PinsAt(far, ElectrodeKind.ControlGrid).FirstOrDefault(g => g.Valve == pin.Valve && g.Section == pin.Section) is { } own)
                    return new(Role.Feedback, $"From the {pin.Words} to its own {own.Words}.");
                if (view.IsEarthy(far) && part.Value >= 10e-9 && view.IsFollowerPlate(plate)) return new(Role.Decoupling, $"From the {pin.Words}, a cathode follower's, to common.");
                if (view.IsEarthy(far) || view.Supply.Contains(far) || view.PinsAt(far, ElectrodeKind.Cathode).Any(k => k.Valve == pin.Valve && k.Section == pin.Section) || SharesWinding(plate, far))
                    return HasWinding(plate)
                        ? new(Role.PlateBypass, $"From the {pin.Words}, which feeds a winding, to {view.Name(far)}: it sees the supply and the full swing of the plate.")
                        : new(Role.PlateBypass, $"From the {pin.Words} to {view.Name(far)}.");
                if (view.PinsAt(far, ElectrodeKind.ControlGrid).FirstOrDefault() is { } next)
                    return new(Role.Coupling, $"From the {pin.Words} to the {next.Words}.");
                if (!view.PinsAt(far, ElectrodeKind.Plate).Any() && LeadsToGrid(far))
                    return new(Role.Coupling, $"From the {pin.Words} on to the next stage at {view.Name(far)}.");
                if (view.At(far).Where(x => x.Part.Id != part.Id).ToArray() is [{ Part: { Kind: PartKind.Resistor } last, To: var end }] && (view.IsEarthy(end) || view.Supply.Contains(end)))
                    return new(Role.PlateBypass, $"From the {pin.Words} through {last.Name} to {view.Name(end)}.");
            }
        if (toCommon) return null;
        if (OnDetector(part, a, b) is { } filter) return filter;
        if (Onward(part, a, b) is { } onward) return onward;
        if (Tone(part, a, b) is { } tone) return tone;
        if (ToGrid(part, a, b) is { } toGrid) return toGrid;
        foreach (var (grid, far) in (ReadOnlySpan<(int, int)>)[(a, b), (b, a)])
            if (view.PinsAt(grid, ElectrodeKind.ControlGrid).FirstOrDefault() is { } pin && view.At(far).Any(x => x.Part.Kind == PartKind.Control))
                return new(Role.Coupling, $"From a control ({view.Name(far)}) to the {pin.Words}.");
        foreach (var end in (ReadOnlySpan<int>)[a, b])
            if (view.At(end).FirstOrDefault(x => x.Part.Kind == PartKind.Control && view.IsEarthy(x.To)) is { Part: { } control } && !IsRheostat(control))
                return new(Role.Coupling, $"Into {control.Name}, whose other end is on common.");
        return null;
    }

    // In parallel with a resistor that tells what both are for, or from a screen to its own cathode.
    private RoleFinding? Beside(Part part, int a, int b)
    {
        foreach (var (n, far) in (ReadOnlySpan<(int, int)>)[(a, b), (b, a)])
        {
            if (view.IsEarthy(n) || view.IsEarthy(far)) continue;
            if (view.PinsAt(n, ElectrodeKind.Screen).FirstOrDefault(s => view.PinsAt(far, ElectrodeKind.Cathode).Any(k => k.Valve == s.Valve)) is { } screen) return new(Role.ScreenBypass, $"From the {screen.Words} to its own cathode.");
            if (view.At(n).FirstOrDefault(x => x.To == far && x.Part.Kind == PartKind.Resistor) is not { Part: { } resistor }) continue;
            var its = Resistors.Find(resistor, a, b).Role;
            if (its == Role.Feedback) return new(Role.Feedback, $"Across {resistor.Name}, which feeds back.");
            if (its == Role.CathodeBias && part.Value >= 1e-6 * (1 - 1e-9) && view.PinsAt(n, ElectrodeKind.Cathode).FirstOrDefault() is { } cathode) return new(Role.CathodeBypass, $"Across {resistor.Name}, from the {cathode.Words} to {view.Name(far)}.");
        }
        return null;
    }

    // To a grid from a node below a cathode, where feedback comes in.
    private RoleFinding? ToGrid(Part part, int a, int b)
    {
        if (part.Kind == PartKind.Electrolytic || part.Value is not >= 1e-9) return null;
        foreach (var (n, far) in (ReadOnlySpan<(int, int)>)[(a, b), (b, a)])
            if (view.PinsAt(n, ElectrodeKind.ControlGrid).FirstOrDefault() is { } grid && !view.Supply.Contains(far) && !view.PinsAt(far).Any()
                && view.At(far).Any(x => x.Part.Kind == PartKind.Resistor && x.Part.Value <= 47e3 && view.IsEarthy(x.To)))
                return new(Role.Coupling, $"From {view.Name(far)} to the {grid.Words}.");
        return null;
    }

    // A cathode that carries a signal: a follower's, or the lower half of a phase splitter.
    private RoleFinding? FromCathode(Part part, int a, int b)
    {
        if (part.Kind == PartKind.Electrolytic && part.Value >= 100e-6) return null;
        foreach (var (n, far) in (ReadOnlySpan<(int, int)>)[(a, b), (b, a)])
            foreach (var cathode in view.PinsAt(n, ElectrodeKind.Cathode))
            {
                if (view.IsEarthy(n) || view.IsEarthy(far) || view.Supply.Contains(n) || view.Supply.Contains(far) || view.PinsAt(far, ElectrodeKind.Cathode).Any() || pulses.Drives(cathode.Valve)) continue;
                if (view.At(n).Any(x => x.Part.Kind.IsFixedCapacitor() && x.Part.Id != part.Id && x.Part.Value >= 10e-9 && view.IsEarthy(x.To)) || view.At(n).Any(x => x.Part.Kind == PartKind.Winding)) continue;
                var own = view.PinsAt(far, ElectrodeKind.ControlGrid).Any(g => g.Valve == cathode.Valve && g.Section == cathode.Section);
                if (own || view.PinsAt(far).Any(p => p.Kind is ElectrodeKind.Screen or ElectrodeKind.Plate)) continue;
                if (LeadsToGrid(far)) return new(Role.Coupling, $"From the {cathode.Words} on to the next stage at {view.Name(far)}.");
                if (view.Map.Nodes[far].Lugs.FirstOrDefault(l => view.MountOf(l) is MountKind.Jack or MountKind.ScrewStrip) is { } jack) return new(Role.Coupling, $"From the {cathode.Words} to {jack}.");
            }
        return null;
    }

    // A detector's filter goes to its cathode where that is not common itself; a small value brings a plate's signal to a diode.
    private RoleFinding? OnDetector(Part part, int a, int b)
    {
        if (part.Value is not <= 2.2e-9) return null;
        foreach (var (n, far) in (ReadOnlySpan<(int, int)>)[(a, b), (b, a)])
            foreach (var cathode in view.PinsAt(far, ElectrodeKind.Cathode))
                if (view.Reach(n, 2, IsPath).Any(r => r.Node != far && !view.IsEarthy(r.Node) && view.PinsAt(r.Node, ElectrodeKind.DiodePlate).Any(d => d.Valve == cathode.Valve)))
                    return new(Role.RfBypass, $"A small value on a detector, to the {cathode.Words}.");
        return null;
    }

    private RoleFinding? Tuned(Part part, int a, int b)
    {
        if (part.Kind == PartKind.Electrolytic || part.Value > 10e-9) return null;
        if (part.Group is { } group && view.Map.Book.Mounts.Named(group)?.Kind is MountKind.IfCan or MountKind.CoilForm or MountKind.TuningGang)
            return new(Role.Tuned, $"Inside the coil assembly {part.Group}.");
        if (part.Kind == PartKind.Paper) return null;
        foreach (var (plate, far) in (ReadOnlySpan<(int, int)>)[(a, b), (b, a)])
            if (view.PinsAt(plate, ElectrodeKind.Plate).FirstOrDefault() is { } source && view.PinsAt(far, ElectrodeKind.DiodePlate).FirstOrDefault() is { } diode)
                return new(Role.Coupling, $"From the {source.Words} to the {diode.Words}.");
        if (view.At(a).FirstOrDefault(x => x.To == b && x.Part.Kind == PartKind.Winding && view.IsTunedCoil(x.Part)) is { Part: { } coil })
            return new(Role.Tuned, $"Across the winding {coil.Name}.");
        foreach (var (end, far) in (ReadOnlySpan<(int, int)>)[(a, b), (b, a)])
        {
            if (view.IsEarthy(end) || view.Supply.Contains(end)) continue;
            // Across a coil a trimmer has a hot end, with an electrode on it, and a cold one.
            if (view.At(end).FirstOrDefault(x => x.Part.Kind is PartKind.VariableCapacitor or PartKind.Trimmer && (view.IsEarthy(x.To) || !SharesWinding(end, x.To) || view.PinsAt(end).Any() || !view.PinsAt(x.To).Any())) is { Part: { } tuning })
                return new(Role.Tuned, $"On the tuned circuit of {tuning.Name}.");
            if (part.Value <= 1e-9 && view.PinsAt(far).Any(p => p.Kind is ElectrodeKind.ControlGrid or ElectrodeKind.Plate)
                && view.At(end).FirstOrDefault(x => x.Part.Kind == PartKind.Winding && view.IsTunedCoil(x.Part)) is { Part: { } near })
                return new(Role.Tuned, $"A small value between {view.Name(far)} and the coil {near.Name}.");
        }
        return null;
    }

    private RoleFinding? Boost(Part part, int a, int b)
    {
        if (part.Value is not >= 10e-9 * (1 - 1e-9)) return null;
        foreach (var (n, far) in (ReadOnlySpan<(int, int)>)[(a, b), (b, a)])
        {
            if (view.IsEarthy(n) || view.Supply.Contains(n) || !(view.IsEarthy(far) || view.Supply.Contains(far) || view.Reach(far, 1, p => p.Kind is PartKind.Fuse).Any(r => view.Supply.Contains(r.Node)))) continue;
            foreach (var (node, through) in view.Reach(n, 1, p => p.Kind == PartKind.Resistor && p.Value <= 100e3))
                if (!view.IsEarthy(node) && !view.Supply.Contains(node) && view.Map.Nodes[node].Lugs.FirstOrDefault(l => view.MountOf(l) == MountKind.Flyback) is { } lug)
                    return new(Role.Boost, $"On the line output transformer at {lug}{(through.IsEmpty ? "" : $" through {Show.List(through)}")}: boosted supply and pulses.");
        }
        return null;
    }

    // On a sawtooth or pulse generator it sets the time; from there to another stage's grid it couples.
    private RoleFinding? Pulses(Part part, int a, int b)
    {
        if (part.Kind == PartKind.Electrolytic || part.Value > 1e-6) return null;
        foreach (var (n, far) in (ReadOnlySpan<(int, int)>)[(a, b), (b, a)])
            if (!view.IsEarthy(n) && pulses.OnGrid(n) is null && pulses.IsNextStage(n) && pulses.Sets(far) is { } before) return new(Role.Coupling, $"From {view.Name(far)}, where {before}, to the next stage at {view.Name(n)}.");
        foreach (var (n, far) in (ReadOnlySpan<(int, int)>)[(a, b), (b, a)])
        {
            if (pulses.Sets(n) is { } words) return new(Role.Timing, $"At {view.Name(n)}, where {words}: it helps to set the time.");
            if (view.IsEarthy(far) && view.Reach(n, 1, p => p.Kind == PartKind.Resistor).Any(r => r.Node != n && view.IsPulsed(r.Node))) return new(Role.Timing, $"It shapes pulses of the line output transformer at {view.Name(n)}.");
        }
        return null;
    }

    // From whatever a plate drives, through coils and small resistors, to another valve's grid or cathode, or to the network before a grid.
    private RoleFinding? Onward(Part part, int a, int b)
    {
        if (part.Kind == PartKind.Electrolytic && part.Value >= 100e-6) return null;
        foreach (var (n, far) in (ReadOnlySpan<(int, int)>)[(a, b), (b, a)])
        {
            if (view.IsEarthy(n) || view.IsEarthy(far) || view.Supply.Contains(n) || view.Supply.Contains(far)) continue;
            var plate = view.Reach(n, 2, p => p.Kind == PartKind.Winding && !view.IsTunedCoil(p) || p.Kind == PartKind.Resistor && p.Value <= 100e3).Where(r => !view.IsEarthy(r.Node) && !view.Supply.Contains(r.Node))
                .SelectMany(r => view.PinsAt(r.Node, ElectrodeKind.Plate)).FirstOrDefault();
            var winding = plate is null && view.At(n).FirstOrDefault(x => x.Part.Kind == PartKind.Winding && !view.IsTunedCoil(x.Part)) is { Part: { } w } ? w.Name : null;
            if (plate is null && winding is null) continue;
            var source = plate?.Words ?? winding;
            if (view.PinsAt(far).FirstOrDefault(p => p.Kind is ElectrodeKind.ControlGrid or ElectrodeKind.Cathode && p.Valve != plate?.Valve) is { } next) return new(Role.Coupling, $"From the {source} to the {next.Words}.");
            if (LeadsToGrid(far)) return new(Role.Coupling, $"From the {source} on to the next stage at {view.Name(far)}.");
        }
        return null;
    }

    private RoleFinding? Tone(Part part, int a, int b)
    {
        foreach (var n in (ReadOnlySpan<int>)[a, b])
        {
            var others = view.At(n).Where(x => x.Part.Id != part.Id).Select(x => x.Part).Distinct().ToArray();
            if (others is [{ Kind: PartKind.Control } control] && IsRheostat(control) && view.At(n).Any(x => x.Part.Id == control.Id && view.IsEarthy(x.To)))
                return new(Role.Tone, $"In series with {control.Name}, wired as a rheostat to common.");
        }
        return null;
    }

    private bool IsRheostat(Part control) => view.NodeOf(control.LeadC) is { } slider && (slider == view.NodeOf(control.LeadA) || slider == view.NodeOf(control.LeadB) || view.IsEarthy(slider))
        || control.LeadC is null;

    private bool HasWinding(int node) => view.At(node).Any(b => b.Part.Kind == PartKind.Winding);
    private bool SharesWinding(int a, int b) => view.At(a).Any(x => x.To == b && x.Part.Kind == PartKind.Winding);
    private bool LeadsToGrid(int node) => view.Reach(node, 3, p => p.Kind is PartKind.Resistor or PartKind.Control)
        .Any(r => !view.IsEarthy(r.Node) && view.PinsAt(r.Node, ElectrodeKind.ControlGrid).Any());
}
