using System.Collections.Immutable;

namespace Lugbook.Circuit.Time;

/// <summary>Charge, flux and heat at the start of a cycle, by element: where the search for another state may begin.</summary>
/// <param name="States">Charge as volts, flux as amperes, by element.</param>
/// <param name="Heat">By filament or thermistor.</param>
/// <param name="Order">The states' names in their order.</param>
/// <param name="Left">1 − dx/dx0 over a cycle in that order, never written to; null without one.</param>
internal sealed record Beginning(ImmutableDictionary<string, ImmutableArray<double>> States, ImmutableDictionary<string, double> Heat, string Order, double[,]? Left)
{
    /// <summary>As the stepper stands.</summary>
    public static Beginning Of(Layout layout, Stepper stepper, double[,]? left) => new(
        layout.Stores.Select(s => (s.Element.Name, Of: ImmutableArray.Create(stepper.State[s.State])))
            .Concat(layout.Windings.Select(w => (w.Element.Name, Of: stepper.State.Skip(w.State).Take(w.Windings.Length).ToImmutableArray()))).ToImmutableDictionary(s => s.Name, s => s.Of),
        layout.Warms.Select((w, k) => (w.Element.Name, Heat: stepper.HeatStates[k])).ToImmutableDictionary(w => w.Name, w => w.Heat),
        OrderOf(layout), left);

    /// <summary>The derivatives over a cycle, when another network has the same states.</summary>
    public double[,]? LeftFor(Layout layout) => Order == OrderOf(layout) ? Left : null;

    private static string OrderOf(Layout layout) => string.Join('\n', layout.Stores.Select(s => s.Element.Name).Concat(layout.Windings.Select(w => $"{w.Element.Name}*{w.Windings.Length}")));

    /// <summary>Puts into a stepper what its network has too; false when that is little, so that it is better to begin from nothing.</summary>
    public bool Put(Layout layout, Stepper stepper)
    {
        var known = 0;
        foreach (var s in layout.Stores)
            if (States.TryGetValue(s.Element.Name, out var state) && state.Length == 1) (stepper.State[s.State], known) = (state[0], known + 1);
        foreach (var w in layout.Windings)
        {
            if (!States.TryGetValue(w.Element.Name, out var state) || state.Length != w.Windings.Length) continue;
            for (var p = 0; p < state.Length; p++) stepper.State[w.State + p] = state[p];
            known++;
        }
        for (var k = 0; k < stepper.HeatStates.Length; k++)
            if (Heat.TryGetValue(layout.Warms[k].Element.Name, out var heat)) stepper.HeatStates[k] = heat;
        stepper.SetHeat();
        return 2 * known > layout.Stores.Count + layout.Windings.Count;
    }
}
