using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Order.Solving;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Order;

/// <summary>Two parts that make one, from what is offered, with the resistors that balance them.</summary>
/// <param name="Items">Sources and how many of each.</param>
/// <param name="Candidate">How they are joined, and why that is enough.</param>
internal sealed record Bag(ImmutableArray<ItemCount> Items, Candidate Candidate);

/// <summary>Where no single source fits: the pair that the Choose stage would make of what the shelf holds.</summary>
internal sealed class BagFinder(SupplyShelf shelf)
{
    // So many sources of each part, and of the balancing resistor, are tried against each other.
    private const int MostSources = 6, MostBalancers = 3;

    private readonly Dictionary<string, Catalogue> _onOffer = [];

    public ImmutableArray<Bag> Of(Requirement need)
    {
        if (need.VoltsAtLeast is null && need.SafetyClass == SafetyClass.None) return [];
        return need.Value is { } window && Combining.Of(need, window, OnOffer(need)) is [var pair, ..] ? Of(need, pair, _ => true) : [];
    }

    /// <summary>The pair of two items that the user named, where the two together may stand; else none.</summary>
    public ImmutableArray<Bag> OfTwo(Requirement need, string a, string b)
    {
        if (need.VoltsAtLeast is null && need.SafetyClass == SafetyClass.None || need.Value is not { } window) return [];
        bool Called(Source s) => s.IsCalled(a) || s.IsCalled(b);
        return [.. Combining.Of(need, window, Grouped(need, Called)).SelectMany(pair => Of(need, pair, Called)).Where(bag => Holds(bag, a) && Holds(bag, b) && (a != b || bag.Items.Any(i => i.Count == 2)))];

        bool Holds(Bag bag, string name) => bag.Items.Any(i => shelf.Sources[i.Item].IsCalled(name));
    }

    private ImmutableArray<Bag> Of(Requirement need, Candidate pair, Func<Source, bool> only)
    {
        int[] Named(ChosenPart part) => [.. Sources(part).Where(s => only(shelf.Sources[s]))];
        var (first, second) = (Named(pair.Parts[0]), Named(pair.Parts[1]));
        ImmutableArray<int?> balancers = [null];
        if (pair.Balancer is { } balancer)
        {
            // Without its resistors a series pair is shared by leakage alone: then there is no pair.
            var across = Balancing(need, balancer);
            balancers = [.. shelf.Within(across).Where(s => Fitting.Of(across, shelf.Sources[s].Part) is null).OrderBy(s => shelf.Sources[s].Sale.Buy(2)?.Cost ?? long.MaxValue).Take(MostBalancers).Select(s => (int?)s)];
        }
        return
        [
            .. from a in first
               from b in second
               where pair.Parts[0] != pair.Parts[1] || a <= b
               from r in balancers
               select new Bag(Counted(r is { } resistor ? [a, b, resistor, resistor] : [a, b]), pair),
        ];
    }

    /// <summary>What a balancing resistor must be. It may be smaller than reckoned, never larger.</summary>
    public static Requirement Balancing(Requirement need, Balancer balancer) => new()
    {
        Unit = Unit.Ohm, Value = new(balancer.Ohms * 0.8, balancer.Ohms, balancer.Ohms, balancer.Sentence), VoltsAtLeast = need.VoltsAtLeast / 2, VoltsReason = balancer.Sentence,
        WattsAtLeast = balancer.Watts * balancer.Ohms / (balancer.Ohms * 0.8), Kinds = [NewKind.MetalFilm, NewKind.MetalOxide, NewKind.CarbonFilm], KindReason = "",
    };

    /// <summary>The whole once more, by the laws themselves: null when it may stand.</summary>
    public static string? Fault(Requirement need, Candidate pair)
    {
        var (a, b) = (pair.Parts[0], pair.Parts[1]);
        var adds = pair.Joining == Joining.Series == (need.Unit == Unit.Ohm);
        var whole = adds ? a.Value + b.Value : a.Value * b.Value / (a.Value + b.Value);
        if (need.Value?.Holds(whole) != true) return $"together they are {Show.Value(whole, need.Unit)}";
        foreach (var (part, other) in ((ChosenPart, ChosenPart)[])[(a, b), (b, a)])
        {
            if (!need.Kinds.Contains(part.Kind) || Fitting.OfClass(need, part.SafetyClass) is not null) return $"{part.Text} is not of the kind asked for";
            var t = (part.TolerancePercent ?? 20) / 100;
            var volts = pair.Joining == Joining.Parallel ? 1 : need.Unit == Unit.Ohm ? part.Value / (part.Value + other.Value)
                : other.Value * (1 + t) / (other.Value * (1 + t) + part.Value * (1 - t));
            if (need.VoltsAtLeast is { } asked && !(part.Volts >= asked * volts * (1 - 1e-9))) return $"{part.Text} would bear {Show.Volts(Math.Ceiling(asked * volts))}";
            var watts = pair.Joining == Joining.Series ? part.Value / (part.Value + other.Value) : other.Value / (part.Value + other.Value);
            if (need.WattsAtLeast is { } heat && !(part.Watts >= heat * watts * (1 - 1e-9))) return $"{part.Text} would bear {Show.Number(heat * watts)} W";
            if (CategoryTemperature.Fault(need, part.Kind, part.Celsius) is { } cold) return $"{part.Text}: {cold}";
            if (RippleRating.Fault(need, part.RippleAmperes, part.RippleHertz, pair.Joining == Joining.Parallel ? part.Value / (part.Value + other.Value) : 1) is { } ripple) return $"{part.Text}: {ripple}";
            if (need.LineVoltsAtLeast is { } line && !(part.LineVolts >= line)) return $"{part.Text} is for a lower line";
        }
        return null;
    }

    private static ImmutableArray<ItemCount> Counted(int[] sources) => [.. sources.GroupBy(s => s).Select(g => new ItemCount(g.Key, g.Count()))];

    private int[] Sources(ChosenPart part) =>
    [
        .. Enumerable.Range(0, shelf.Sources.Count).Where(i => shelf.Sources[i].Part is var p && p.Kind == part.Kind && p.Unit == part.Unit && p.SafetyClass == part.SafetyClass && p.Volts == part.Volts
            && p.LineVolts == part.LineVolts && p.Watts == part.Watts && p.TolerancePercent == part.TolerancePercent && p.Celsius == part.Celsius && p.RippleAmperes == part.RippleAmperes && Math.Abs(p.Value / part.Value - 1) < 1e-9)
            .OrderBy(i => shelf.Sources[i].Sale.Buy(1)?.Cost ?? long.MaxValue).ThenBy(i => i).Take(MostSources),
    ];

    // The shelf as a catalogue: equal kinds and ratings are one series.
    private Catalogue OnOffer(Requirement need)
    {
        var kinds = $"{need.Unit} {string.Join(' ', need.Kinds)}";
        if (!_onOffer.TryGetValue(kinds, out var catalogue)) _onOffer[kinds] = catalogue = Grouped(need, _ => true);
        return catalogue;
    }

    private Catalogue Grouped(Requirement need, Func<Source, bool> only) => new(
    [
        .. shelf.Sources.Where(only).Select(s => s.Part).Where(p => p.Unit == need.Unit && need.Kinds.Contains(p.Kind) && p is { Volts: not null, TolerancePercent: not null })
            .GroupBy(p => (p.Kind, p.SafetyClass, p.Volts, p.LineVolts, p.Watts, p.TolerancePercent, p.Celsius, p.RippleAmperes, p.RippleHertz))
            .Select(g => new CatalogueSeries
            {
                Name = Show.Kind(g.Key.Kind), Kind = g.Key.Kind, SafetyClass = g.Key.SafetyClass, Volts = g.Key.Volts!.Value, LineVolts = g.Key.LineVolts, Watts = g.Key.Watts,
                TolerancePercent = g.Key.TolerancePercent!.Value, Celsius = g.Key.Celsius, RippleMinAmperes = g.Key.RippleAmperes, RippleMaxAmperes = g.Key.RippleAmperes, RippleHertz = g.Key.RippleHertz, Unit = need.Unit, Values = [.. g.Select(p => p.Value).Distinct().Order()], Source = "on offer",
            }),
    ], []);
}
