using System.Collections.Immutable;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Choose;

/// <summary>What goes in its place? Role, requirement and part for every position that today's makers can fill.</summary>
public static class ChooseStage
{
    /// <summary>A role in the trade's words: "plate load".</summary>
    public static string WordsOf(Role role) => RoleWords.Of(role);

    /// <summary>The role that someone wrote, by its words or its name; null when it is none.</summary>
    public static Role? RoleOf(string? written) => RoleWords.Read(written);

    /// <summary>Roles that a resistor, or else a capacitor, may have, in the order of the alphabet.</summary>
    public static ImmutableArray<Role> RolesFor(bool resistor) => RoleWords.For(resistor);

    /// <summary>The handbook's line of a rectifier valve, whatever envelope letters it carries; null when there is none.</summary>
    public static RectifierLimit? LimitOf(ImmutableArray<RectifierLimit> limits, string? type) => CircuitView.Limit(limits, type);

    /// <summary>Pure: the same map and policy, the same answer. Works from values alone; what lugs would tell is then named as not known.</summary>
    /// <param name="map">The map.</param>
    /// <param name="policy">Catalogue and limits.</param>
    /// <param name="basis">The solved circuit; null to go by wiring, markings and practice alone.</param>
    public static ChooseResult Run(MapResult map, ChoosePolicy policy, ChooseBasis? basis = null)
    {
        var view = new CircuitView(map, policy.RectifierLimits);
        var line = new LineView(view);
        var maker = new ChoiceMaker(map, view, line, policy, basis);
        var choices = ImmutableArray.CreateBuilder<Choice>();
        var others = ImmutableArray.CreateBuilder<NotChosen>();
        foreach (var part in map.Book.Parts)
            if (part.Kind.IsFixedCapacitor() || part.Kind == PartKind.Resistor) choices.Add(maker.Choose(part));
            else others.Add(new(part.Name, part.KindAsWritten, OtherKinds.Reason(part.Kind)));
        var (made, together) = basis is { IsSolved: true } ? new Effects(basis).Of(choices.ToImmutable()) : (choices.ToImmutable(), null);
        return new()
        {
            Choices = made,
            NotChosen = others.ToImmutable(),
            SharedBodies = Bodies(map, made, policy.Cans),
            Line = LineOf(map, line, made),
            LugLoads = Loads(map, made),
            Together = together,
            Unsolved = basis is null ? "The circuit was not asked." : basis.Solved.Reason ?? basis.Sheet.Reason,
            Cautions = [.. SetCautions.Of(map, line, made), .. TouchSum.Over(map, line, made, policy)],
        };
    }

    private static ImmutableArray<SharedBody> Bodies(MapResult map, ImmutableArray<Choice> choices, ImmutableArray<NewCan> cans) =>
        [.. map.Book.Parts.Where(p => p.Group is not null).GroupBy(p => p.Group!, StringComparer.OrdinalIgnoreCase)
            .Where(g => g.Count() > 1 && g.Any(p => choices.Any(c => c.Position == p.Name)))
            .Select(g => new SharedBody(g.Key, [.. g.Select(p => p.Name)], BodySentence(g.Key, [.. g], choices)) { Ways = g.All(p => p.Kind == PartKind.Electrolytic) ? CanWays.Of(map, g.Key, [.. g], choices, cans) : [] })];

    private static string BodySentence(string body, ImmutableArray<Part> parts, ImmutableArray<Choice> choices)
    {
        var goes = parts.Count(p => choices.Any(c => c.Position == p.Name && c.Decision == Decision.Goes));
        if (parts.All(p => p.Kind == PartKind.Electrolytic))
            return goes == 0 ? $"{body} holds {parts.Length} sections; none goes."
                : goes == parts.Length ? $"{body} holds {parts.Length} sections and all go: new ones beneath the chassis, in the emptied can, or a new can. Cut the old sections off; never leave one in parallel."
                : $"{body} holds {parts.Length} sections and {goes} of them go: cut those off; never leave one in parallel. Sections of one can age together: think of the rest too.";
        return parts.Any(p => p.Kind == PartKind.Winding)
            ? $"{body} is an assembly: its capacitors are reached only by opening it."
            : $"{body} is one body that holds {Show.List([.. parts.Select(p => p.Name)])}: if one goes, the whole body comes off and all of them are built anew.";
    }

    private static LineFinding LineOf(MapResult map, LineView line, ImmutableArray<Choice> choices)
    {
        bool Unplaced(Part p) => p.Kind.IsFixedCapacitor() && p.Leads.Count(l => map.NodeByLug.ContainsKey(l.Lug)) < 2;
        var candidates = map.Book.Parts.Where(p => p.Kind.IsFixedCapacitor()
            && (choices.FirstOrDefault(c => c.Position == p.Name)?.Question is { } q && q.Contains("line", StringComparison.Ordinal)
                || SafetyRule.IsCandidate(p) && (!line.Known || Unplaced(p)))).Select(p => p.Name).Distinct().ToImmutableArray();
        if (!line.Known)
            return new(false, candidates.IsEmpty
                ? "Positions on the line cannot be told without lugs and line cord, and no part looks like one by its value. Check each capacitor near cord, switch and aerial by eye."
                : $"Positions on the line cannot be told without lugs and line cord. Check by eye, before anything is ordered, whether one of these lies across the line or from the line to chassis or aerial: {Show.List(candidates)}. There only a part with a safety class may stand.", candidates);
        return new(true, candidates.IsEmpty
            ? "Positions on the line are taken from the map."
            : $"Positions on the line are taken from the map; it does not place all parts. Check by eye: {Show.List(candidates)}.", candidates);
    }

    private static ImmutableArray<LugLoad> Loads(MapResult map, ImmutableArray<Choice> choices)
    {
        var goes = choices.Where(c => c.Decision == Decision.Goes).SelectMany(c => c.Lugs).CountBy(l => l, StringComparer.OrdinalIgnoreCase).ToDictionary(StringComparer.OrdinalIgnoreCase);
        var ends = map.Book.Parts.SelectMany(p => p.Leads.Select(l => l.Lug))
            .Concat(map.Book.Wires.SelectMany(w => new[] { w.From, w.To })).CountBy(l => l, StringComparer.OrdinalIgnoreCase).ToDictionary(StringComparer.OrdinalIgnoreCase);
        return [.. goes.Select(g => new LugLoad(g.Key, ends.GetValueOrDefault(g.Key), g.Value))];
    }
}
