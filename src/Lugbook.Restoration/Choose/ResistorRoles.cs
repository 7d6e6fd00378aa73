using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Choose;

/// <summary>What a resistor does, from what its two nodes are. The order of the questions matters: danger first, then the surest.</summary>
internal sealed class ResistorRoles(CircuitView view, LineView line, PulseGenerators pulses, ToneNetwork tone, PhaseShift row)
{
    // Below this a resistor at a grid stops oscillation or widens a band; a leak is more. Common practice, no source.
    private const double LeastLeak = 15e3;

    public RoleFinding Find(Part part, int a, int b) =>
        Touch(a, b) ?? Negative(a, b) ?? Row(a, b) ?? Both(part, a, b) ?? Cathode(part, a, b) ?? Line(part, a, b) ?? Heaters(a, b) ?? Feed(part, a, b) ?? Generator(a, b) ?? Fed(part, a, b) ?? Detector(part, a, b) ?? Tone(a, b) ?? Grid(part, a, b) ?? Supply(part, a, b)
        ?? Control(part, a, b) ?? Signal(part, a, b)
        ?? new(Role.Unknown, "Not known from the map: treated as a position that bears half the old tolerance.");

    private RoleFinding? Touch(int a, int b) => line.IsLineToTouchable(a, b)
        ? new(Role.TouchBarrier, $"One of {view.Name(a)} and {view.Name(b)} has a path to the line, the other is within reach of a hand.") : null;

    private RoleFinding? Negative(int a, int b)
    {
        foreach (var (n, far) in Ways(a, b))
            if (view.Negative.Contains(n) && (view.IsEarthy(far) || view.Negative.Contains(far)))
                return new(Role.BiasSupply, view.Negative.IsReturn(n) ? $"The supply's return at {view.Name(n)} comes to common through it: its drop is a bias." : $"In the supply that delivers minus, at {view.Name(n)}.");
        return null;
    }

    private RoleFinding? Row(int a, int b)
    {
        foreach (var (n, far) in Ways(a, b))
            if (view.IsEarthy(far) && row.At(n) is { } words) return new(Role.Timing, $"At {view.Name(n)}, where {words}: it helps to set the frequency.");
        return null;
    }

    private RoleFinding? Tone(int a, int b)
    {
        foreach (var (n, _) in Ways(a, b))
            if (tone.Contains(n)) return new(Role.Tone, $"In the network that sets the tone, at {view.Name(n)}.");
        return null;
    }

    private RoleFinding? Line(Part part, int a, int b)
    {
        // What merely hangs from a common that is joined to the line carries none of its current: the line's own path goes on at both ends.
        bool GoesOn(int n) => view.Map.LineWays.Any(w => w.Node.Index == n && w.Path == Map.LinePath.Blade) || view.PinsAt(n).Any(p => p.IsHeater) || view.FeedsRectifier(n)
            || view.At(n).Any(x => x.Part.Id != part.Id && (x.Part.Kind is PartKind.Switch or PartKind.Fuse or PartKind.Lamp or PartKind.Thermistor || x.Part.Kind == PartKind.Winding && !view.IsTunedCoil(x.Part)));
        if (part.Value is null or <= 3300 && line.IsEnteredOnLine(a) && line.IsEnteredOnLine(b) && GoesOn(a) && GoesOn(b)) return new(Role.LineSeries, $"Between {view.Name(a)} and {view.Name(b)}, both joined to the line.");
        // So much resistance across the line feeds nothing.
        if (part.Value >= 22e3 && line.IsEnteredOnLine(a) && line.IsEnteredOnLine(b) && line.IsAcrossLine(a, b) && !view.PinsAt(a, ElectrodeKind.ControlGrid).Concat(view.PinsAt(b, ElectrodeKind.ControlGrid)).Any())
            return new(Role.Divider, $"Across the line, {view.Name(a)} to {view.Name(b)}: it discharges what stands there once the plug is out.");
        foreach (var (n, far) in Ways(a, b))
        {
            if (view.Rectifiers.ContainsKey(n) && view.Supply.Contains(far)) return new(Role.SupplyDropper, $"From the output of {view.Rectifiers[n].Name} to {view.Name(far)}.");
            // A surge resistor stands before the rectifier: between the line, or a winding, and a rectifier's plate.
            if (!view.IsEarthy(n) && line.IsOnLine(far) && view.At(n).Any(x => CircuitView.IsBig(x.Part) && (view.FeedsRectifier(x.To) || view.Rectifiers.ContainsKey(x.To)))) return new(Role.LineSeries, $"From the line at {view.Name(far)} to the capacitor of a doubler.");
            if (view.FeedsRectifier(n) && (line.IsOnLine(far) || view.At(far).Any(x => x.Part.Kind == PartKind.Winding))) return new(Role.LineSeries, $"Before a rectifier, at {view.Name(n)}.");
        }
        return null;
    }

    private RoleFinding? Heaters(int a, int b)
    {
        foreach (var (n, _) in Ways(a, b))
            // A heater may stand on the supply, or on its own cathode that carries one: what else hangs there is no heater's.
            if (!view.IsEarthy(n) && !view.Supply.Contains(n) && view.PinsAt(n).FirstOrDefault(p => p.IsHeater) is { } heater) return new(Role.HeaterString, $"At the {heater.Words}.");
        return null;
    }

    // Across a winding, or an arm of a filter in parallel with one.
    private RoleFinding? Both(Part part, int a, int b)
    {
        if (view.At(a).FirstOrDefault(x => x.To == b && x.Part.Kind == PartKind.Winding) is { Part: { } coil } && !view.Supply.Contains(a) && !view.Supply.Contains(b))
            return new(Role.Damping, $"Across {coil.Name}.");
        if (view.At(a).FirstOrDefault(x => x.To == b && x.Part.Kind == PartKind.Winding) is { Part: { } field }) return new(Role.SupplyDropper, $"Across {field.Name} in the supply.");
        foreach (var (n, far) in Ways(a, b))
            if (!view.Supply.Contains(n) && view.PinsAt(n, ElectrodeKind.Plate).FirstOrDefault() is { } plate && Feedback(plate, far) is { } words) return new(Role.Feedback, $"From the {plate.Words} back to the {words}.");
        return null;

        string? Feedback(ElectrodePin plate, int far) =>
            view.PinsAt(far, ElectrodeKind.ControlGrid).FirstOrDefault(g => g.Valve == plate.Valve && g.Section == plate.Section) is { } own ? own.Words
            : view.PinsAt(far, ElectrodeKind.Plate).FirstOrDefault(p => p.Valve != plate.Valve) is { } before && !view.Supply.Contains(far) && part.Value >= 47e3 ? before.Words
            : null;
    }

    private RoleFinding? Cathode(Part part, int a, int b)
    {
        foreach (var (n, far) in Ways(a, b))
        {
            if (view.IsEarthy(n) || view.Supply.Contains(n) || view.PinsAt(n, ElectrodeKind.Cathode).FirstOrDefault() is not { } cathode) continue;
            if (view.IsEarthy(far)) return new(Role.CathodeBias, $"From the {cathode.Words} to common.");
            if (view.PinsAt(far, ElectrodeKind.ControlGrid).FirstOrDefault(g => g.Valve == cathode.Valve) is { } own && part.Value >= LeastLeak) return new(Role.GridLeak, $"From the {own.Words} to its own cathode.");
            if (FromOutput(far)) return new(Role.Feedback, $"From an output winding at {view.Name(far)} back to the {cathode.Words}.");
            if (CanFeed(far, part) is { } fed && part.Value >= 10e3) return new(Role.Divider, $"From {fed} to the {cathode.Words}: it lifts the cathode.");
            // In a chain to common: the rest of the bias.
            if (view.Reach(far, 2, p => p.Kind is PartKind.Resistor or PartKind.Control or PartKind.Winding && p.Id != part.Id && p.Value is null or <= 47e3).Any(r => view.IsEarthy(r.Node)) && !view.PinsAt(far, ElectrodeKind.Plate).Any())
                return new(Role.CathodeBias, $"From the {cathode.Words} on to common at {view.Name(far)}.");
        }
        // Below the first resistor of such a chain.
        foreach (var (n, far) in Ways(a, b))
            if (view.IsEarthy(far) && part.Value <= 47e3 && !view.PinsAt(n).Any(p => p.Kind is ElectrodeKind.Plate or ElectrodeKind.ControlGrid)
                && view.Reach(n, 1, p => p.Kind is PartKind.Resistor or PartKind.Control && p.Id != part.Id && p.Value is null or <= 47e3)
                    .SelectMany(r => r.Node == n || view.IsEarthy(r.Node) ? [] : view.PinsAt(r.Node, ElectrodeKind.Cathode)).FirstOrDefault() is { } above)
                return new(Role.CathodeBias, $"Below the {above.Words}, to common.");
        return Tail(part, a, b);
    }

    // Further down a chain of resistors from a cathode to common: a long tail, or where feedback comes in.
    private RoleFinding? Tail(Part part, int a, int b)
    {
        const double MostOhms = 47e3;
        bool Links(Part p) => p.Kind == PartKind.Resistor && p.Id != part.Id && p.Value <= MostOhms;
        if (part.Value is not <= MostOhms || !view.IsEarthy(a) && FromOutput(a) || !view.IsEarthy(b) && FromOutput(b)) return null;
        foreach (var (n, far) in Ways(a, b))
        {
            if (view.IsEarthy(n) || view.Supply.Contains(n) || view.Supply.Contains(far) || new[] { n, far }.Any(x => !view.IsEarthy(x) && view.PinsAt(x).Any())) continue;
            if (!view.IsEarthy(far) && !view.Reach(far, 2, Links).Any(r => view.IsEarthy(r.Node))) continue;
            if (view.Reach(n, 2, Links).Where(r => r.Node != n && !view.IsEarthy(r.Node)).SelectMany(r => view.PinsAt(r.Node, ElectrodeKind.Cathode)).FirstOrDefault() is { } cathode)
                return new(Role.CathodeBias, $"In the chain from the {cathode.Words} to common.");
        }
        return null;
    }

    private RoleFinding? Feed(Part part, int a, int b)
    {
        foreach (var (n, far) in Ways(a, b))
        {
            if (view.Supply.Contains(n) && view.Supply.Contains(far)) return new(Role.SupplyDropper, $"Between two sections of the supply, {view.Name(n)} and {view.Name(far)}.");
            if (view.Supply.Contains(n) || view.IsEarthy(far)) continue;
            var plate = view.PinsAt(n, ElectrodeKind.Plate).FirstOrDefault();
            var screen = view.PinsAt(n, ElectrodeKind.Screen).FirstOrDefault();
            var bypassed = view.At(n).Any(x => x.Part.Kind.IsFixedCapacitor() && x.Part.Value >= 470e-12 && view.IsEarthy(x.To));
            // Through a peaking or ringing coil the plate is as good as on the node itself; a bypassed node behind which a coil feeds the plate is a feed.
            var coil = view.At(n).Where(x => x.Part.Kind == PartKind.Winding).SelectMany(x => view.PinsAt(x.To, ElectrodeKind.Plate)).FirstOrDefault();
            if (plate is null && coil is not null && view.NodeOf(coil.Lug) is { } driven && pulses.OnPlate(driven) is { } words && !view.At(n).Any(x => x.To == driven && view.IsTunedCoil(x.Part)))
                return new(Role.Timing, $"It charges {view.Name(n)}, where {words}.");
            if (plate is null && coil is not null && CanFeed(far, part) is { } source)
                return bypassed || screen is not null ? new(Role.Decoupling, $"From {source} to {view.Name(n)}, which feeds the {coil.Words} through a coil.") : new(Role.PlateLoad, $"From {source} through a coil to the {coil.Words}.");
            if (plate is null && screen is null || CanFeed(far, part) is not { } fed) continue;
            if (plate is not null && view.IsFollowerPlate(n)) return new(Role.Decoupling, $"From {fed} to the {plate.Words}, a cathode follower's.");
            return plate is not null ? new(Role.PlateLoad, $"From {fed} to the {plate.Words}.") : new(Role.ScreenDropper, $"From {fed} to the {screen!.Words}.");
        }
        foreach (var (n, far) in Ways(a, b))
            if (!view.IsEarthy(far) && view.PinsAt(n, ElectrodeKind.Screen).FirstOrDefault() is { } screen && view.PinsAt(far, ElectrodeKind.Plate).Any(p => p.Valve == screen.Valve))
                return new(Role.ScreenDropper, $"Between the {screen.Words} and its plate.");
        // Feeds a node of its own, with a capacitor to common, from which plates or screens are fed.
        foreach (var (n, far) in Ways(a, b))
            if ((view.Supply.Contains(far) || view.IsBoosted(far)) && !view.IsEarthy(n) && !view.PinsAt(n).Any() && view.At(n).Any(x => x.Part.Kind.IsFixedCapacitor() && view.IsEarthy(x.To)))
                return new(Role.Decoupling, FedStage(n, part) is { } stage ? $"From {view.Name(far)} to {view.Name(n)}, which feeds the {stage.Words}." : $"From {view.Name(far)} to {view.Name(n)}, which has a capacitor to common.");
        return null;
    }

    private RoleFinding? Fed(Part part, int a, int b)
    {
        foreach (var (n, far) in Ways(a, b))
            if (!view.IsEarthy(n) && !view.Supply.Contains(n) && CanFeed(far, part) is { } fed && !view.PinsAt(n, ElectrodeKind.ControlGrid).Any()
                && view.At(n).Any(x => x.Part.Id != part.Id && (x.Part.Kind == PartKind.Control || x.Part.Kind == PartKind.Resistor && view.IsEarthy(x.To)) || view.Supply.Contains(far) && x.Part.Kind.IsFixedCapacitor() && LeadsToGridReturn(n, part)))
                return new(Role.Divider, $"From {fed} to {view.Name(n)}: it sets a voltage there.");
        return null;
    }

    private ElectrodePin? FedStage(int node, Part part) => view.Reach(node, 2, p => p.Kind is PartKind.Resistor or PartKind.Winding or PartKind.Control && p.Id != part.Id)
        .Where(r => !view.IsEarthy(r.Node) && !view.Supply.Contains(r.Node)).SelectMany(r => view.PinsAt(r.Node)).FirstOrDefault(p => p.Kind is ElectrodeKind.Plate or ElectrodeKind.Screen);

    /// <summary>Does direct current come from here? The supply's name if so: reached through a few resistors and windings, not through an electrode.</summary>
    private string? CanFeed(int node, Part part)
    {
        if (view.IsEarthy(node)) return null;
        var seen = new HashSet<int> { node };
        var queue = new Queue<(int Node, int Steps)>([(node, 0)]);
        while (queue.TryDequeue(out var here))
        {
            if (view.Supply.Contains(here.Node) || view.IsBoosted(here.Node)) return view.Name(here.Node);
            if (here.Steps == 3 || here.Steps > 0 && view.PinsAt(here.Node).Any(p => p.Kind is ElectrodeKind.Plate or ElectrodeKind.ControlGrid or ElectrodeKind.Cathode)) continue;
            foreach (var b in view.At(here.Node))
                if (b.Part.Id != part.Id && b.Part.Kind is PartKind.Resistor or PartKind.Winding or PartKind.Control or PartKind.Fuse && b.Part.Id != part.Id && !view.IsEarthy(b.To) && seen.Add(b.To)) queue.Enqueue((b.To, here.Steps + 1));
        }
        return null;
    }

    private RoleFinding? Generator(int a, int b)
    {
        foreach (var (n, far) in Ways(a, b))
            if (view.IsPulsed(n) && !view.IsBoosted(far) && !view.Supply.Contains(far)) return new(Role.Timing, $"It brings pulses of the line output transformer from {view.Name(n)}.");
        if (Detects(a) is not null || Detects(b) is not null) return null;
        foreach (var (n, _) in Ways(a, b))
            if (pulses.Sets(n) is { } words) return new(Role.Timing, $"At {view.Name(n)}, where {words}: it helps to set the time.");
        return null;
    }

    private RoleFinding? Detector(Part part, int a, int b)
    {
        foreach (var (n, far) in Ways(a, b))
        {
            if (view.IsEarthy(n) || view.Supply.Contains(n) || Detects(n) is not { } diode) continue;
            if (LeadsToGridReturn(far, part) && part.Value >= 100e3) return new(Role.ControlVoltageFilter, $"Brings the rectified voltage of the {diode} to grids by way of {view.Name(far)}.");
            return new(Role.DetectorLoad, $"On the detector ({diode}) at {view.Name(n)}.");
        }
        return null;
    }

    /// <summary>The diode whose rectified voltage stands on a node: directly, or behind a winding or a small filter resistor.</summary>
    private string? Detects(int node)
    {
        foreach (var (here, _) in view.Reach(node, 2, p => p.Kind == PartKind.Winding || p.Kind == PartKind.Resistor && p.Value <= 100e3))
        {
            if (view.IsEarthy(here) || view.Supply.Contains(here)) continue;
            if (view.PinsAt(here, ElectrodeKind.DiodePlate).FirstOrDefault() is { } plate) return plate.Words;
            if (view.At(here).FirstOrDefault(x => x.Part.Kind is PartKind.CrystalDiode or PartKind.SeleniumDiode) is { Part: { } crystal }) return crystal.Name;
        }
        return null;
    }

    // A node with a capacitor to common, from which a grid gets its bias through a winding or a large resistor.
    private bool LeadsToGridReturn(int node, Part part) => !view.IsEarthy(node) && !view.Supply.Contains(node)
        && view.Reach(node, 3, p => p.Id != part.Id && (p.Kind == PartKind.Winding || p.Kind == PartKind.Resistor)).Where(r => !view.IsEarthy(r.Node) && !view.Supply.Contains(r.Node))
            .Any(r => view.PinsAt(r.Node, ElectrodeKind.ControlGrid).Any())
        && view.At(node).Any(x => x.Part.Kind.IsFixedCapacitor() && x.Part.Value >= 5e-9 && view.IsEarthy(x.To));

    private RoleFinding? Grid(Part part, int a, int b)
    {
        foreach (var (n, far) in Ways(a, b))
        {
            if (view.IsEarthy(n) || view.PinsAt(n, ElectrodeKind.ControlGrid).FirstOrDefault() is not { } grid) continue;
            if (view.IsEarthy(far)) return new(Role.GridLeak, $"From the {grid.Words} to common.");
            var slider = view.At(far).Any(x => x.Part.Kind == PartKind.Control && view.NodeOf(x.Part.LeadC) == far);
            if (part.Value < LeastLeak && view.PinsAt(far, ElectrodeKind.Plate).Any(p => p.Valve != grid.Valve || p.Section != grid.Section)) return new(Role.GridStopper, $"Between a plate at {view.Name(far)} and the {grid.Words}.");
            if (part.Value >= LeastLeak && view.At(far).Any(x => x.Part.Id != part.Id && x.Part.Kind == PartKind.Resistor && view.IsEarthy(x.To)) && !view.PinsAt(far).Any() && CanFeed(far, part) is not null)
                return new(Role.GridLeak, $"From the {grid.Words} to the tap of a divider at {view.Name(far)}.");
            if (view.PinsAt(far, ElectrodeKind.Screen).Any() || !slider && CanFeed(far, part) is not null) return new(Role.Divider, $"From {view.Name(far)} to the {grid.Words}: it sets its voltage.");
            var otherWay = view.At(n).Any(x => x.Part.Id != part.Id && x.Part.Kind is PartKind.Resistor or PartKind.Winding or PartKind.Control && x.Part.Id != part.Id);
            // A signal arrives at the far end when a capacitor that is not merely a bypass, a slider or a plate is there.
            var signal = Arrives(far);
            if (signal && view.At(n).Any(x => x.Part.Id != part.Id && x.Part.Kind == PartKind.Resistor && Arrives(x.To))) return new(Role.SignalSeries, $"One of several ways of signals to the {grid.Words}.");
            if (signal && (otherWay || part.Value < 220e3)) return new(Role.GridStopper, $"Between the signal at {view.Name(far)} and the {grid.Words}.");
            if (part.Value is null or >= LeastLeak) return new(Role.GridLeak, $"From the {grid.Words} to its return at {view.Name(far)}.");
            return new(Role.GridStopper, $"In series with the {grid.Words}.");
        }
        // The leak below a grid stopper: from where the stopper's signal arrives to common.
        foreach (var (n, far) in Ways(a, b))
            if ((view.IsEarthy(far) || view.Negative.Contains(far)) && !view.IsEarthy(n) && part.Value >= LeastLeak && CanFeed(n, part) is null && view.Reach(n, 1, p => p.Kind == PartKind.Resistor && p.Id != part.Id && p.Value < part.Value).Where(r => r.Node != n && !view.IsEarthy(r.Node))
                    .SelectMany(r => view.PinsAt(r.Node, ElectrodeKind.ControlGrid)).FirstOrDefault() is { } behind && !view.PinsAt(n, ElectrodeKind.Plate).Any())
                return new(Role.GridLeak, $"From {view.Name(n)}, behind the {behind.Words}, to {(view.IsEarthy(far) ? "common" : $"the bias at {view.Name(far)}")}.");
        // The way of a control voltage: from one filter capacitor to the next, grids behind.
        foreach (var (_, far) in Ways(a, b))
            if (LeadsToGridReturn(far, part)) return new(Role.ControlVoltageFilter, $"Filters the voltage that reaches grids by way of {view.Name(far)}.");
        return null;
    }

    private bool Arrives(int node) => !view.IsEarthy(node) && (view.PinsAt(node, ElectrodeKind.Plate).Any() || view.Map.Nodes[node].Lugs.Any(l => view.MountOf(l) == MountKind.Jack)
        || view.At(node).Any(x => x.Part.Kind == PartKind.Control && view.NodeOf(x.Part.LeadC) == node || x.Part.Kind.IsFixedCapacitor() && !view.IsEarthy(x.To) && !view.PinsAt(x.To, ElectrodeKind.Cathode).Any()));

    private RoleFinding? Supply(Part part, int a, int b)
    {
        foreach (var (n, far) in Ways(a, b))
        {
            if (view.IsEarthy(far) && view.Supply.Contains(n)) return new(Role.Divider, $"From the supply ({view.Name(n)}) to common: a bleeder.");
            if (view.IsEarthy(far) && view.PinsAt(n, ElectrodeKind.Screen).FirstOrDefault() is { } screen) return new(Role.Divider, $"From the {screen.Words} to common: it holds the screen steady.");
            if (view.IsEarthy(far) && CanFeed(n, part) is { } fed) return new(Role.Divider, $"From {view.Name(n)}, fed from {fed}, to common.");
            if (view.Supply.Contains(far) && !view.PinsAt(n).Any(p => p.Kind is ElectrodeKind.Plate or ElectrodeKind.Screen))
                return view.At(n).Any(x => x.Part.Id != part.Id && x.Part.Kind is PartKind.Resistor or PartKind.Control && x.Part.Id != part.Id)
                    ? new(Role.Divider, $"From the supply ({view.Name(far)}) to {view.Name(n)}: it sets a voltage there.")
                    : new(Role.SupplyDropper, $"From the supply ({view.Name(far)}) to {view.Name(n)}.");
        }
        return null;
    }

    private RoleFinding? Control(Part part, int a, int b)
    {
        foreach (var (n, far) in Ways(a, b))
        {
            if (view.IsEarthy(n) || view.At(n).FirstOrDefault(x => x.Part.Kind == PartKind.Control) is not { Part: { } control }) continue;
            if (CanFeed(far, part) is { } fed) return new(Role.Divider, $"From {fed} to {control.Name}: it sets a voltage.");
            if (view.At(n).Any(x => x.Part.Id != part.Id && x.Part.Kind.IsFixedCapacitor() && view.IsEarthy(x.To)) && !view.IsEarthy(far)) return new(Role.Tone, $"At {control.Name}, with a capacitor to common.");
            return view.IsEarthy(far) ? new(Role.Divider, $"From {control.Name} to common.") : new(Role.SignalSeries, $"In series with {control.Name}.");
        }
        foreach (var (n, far) in Ways(a, b))
            if (!view.IsEarthy(n) && FromOutput(n)) return view.IsEarthy(far) ? new(Role.Damping, $"Across an output winding at {view.Name(n)}.") : new(Role.Feedback, $"From an output winding at {view.Name(n)}.");
        return null;
    }

    private RoleFinding? Signal(Part part, int a, int b)
    {
        bool Passes(int node) => !view.IsEarthy(node) && (view.PinsAt(node, ElectrodeKind.Plate).Any() || view.At(node).Any(x => x.Part.Id != part.Id && x.Part.Kind.IsFixedCapacitor() && !view.IsEarthy(x.To)));
        foreach (var (n, far) in Ways(a, b))
        {
            if (!Passes(n)) continue;
            // Nothing there but one capacitor that comes from a plate: the two stand in series from the plate.
            if (view.IsEarthy(far) && view.At(n).Where(x => x.Part.Id != part.Id).ToArray() is [{ Part: var only, To: var from }] && only.Kind.IsFixedCapacitor() && !view.Map.Nodes[n].Lugs.Any(l => view.MountOf(l) is MountKind.Jack or MountKind.ScrewStrip) && view.PinsAt(from, ElectrodeKind.Plate).FirstOrDefault() is { } source)
                return new(Role.Damping, $"In series with {only.Name} from the {source.Words} to common.");
            if (view.IsEarthy(far)) return new(Role.GridLeak, $"From {view.Name(n)}, where a signal passes, to common.");
            if (view.At(far).Any(x => x.Part.Id != part.Id)) return new(Role.SignalSeries, $"In the way of the signal from {view.Name(n)} to {view.Name(far)}.");
        }
        return null;
    }

    private bool FromOutput(int node) => view.At(node).Any(x => x.Part.Kind == PartKind.Speaker) || view.At(node).Any(x => x.Part.Kind == PartKind.Winding && view.At(x.To).Any(y => y.Part.Kind == PartKind.Speaker));

    private static (int, int)[] Ways(int a, int b) => [(a, b), (b, a)];
}
