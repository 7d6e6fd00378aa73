using CsCheck;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Order;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Restoration.Tests.Choose;
using Lugbook.Trade;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Tests.Order;

/// <summary>
/// Whatever is on sale, and however cheap the wrong part is: no plan puts a part without a class on the line, a rating below what is asked
/// for or marked, or a value outside the window. Held against the requirement and the old marking directly, not by the gate itself.
/// </summary>
public class PlanSafetyTests
{
    [Fact]
    public void No_plan_is_dangerous_in_1200_plans_of_thousands_of_positions()
    {
        var (served, line) = (0, 0);
        RandomChassis.Full.Select(Gen.Int[0, 1_000_000]).Sample((book, seed) =>
        {
            for (var shop = 0; shop < 10; shop++)
            {
                // The greedy plan draws from the same candidates as the optimum and takes no time.
                var plan = Plan(book, seed + shop * 7, new(canceled: true));
                Interlocked.Add(ref served, plan.Positions.Length);
                Interlocked.Add(ref line, plan.Positions.Count(p => p.Part.SafetyClass != SafetyClass.None));
                if (Fault(Shop.Choose(book), plan) is not null) return false;
            }
            return true;
        }, iter: 120);
        Assert.True(served > 1000 && line > 3, $"{served} served, {line} on the line: the test would see nothing");
    }

    [Fact]
    public void No_optimum_is_dangerous() =>
        RandomChassis.Full.Select(Gen.Int[0, 1_000_000]).Sample((book, seed) => Fault(Shop.Choose(book), Plan(book, seed, CancellationToken.None)) is null, iter: 60, threads: 2);

    [Fact]
    public void The_check_sees_a_dangerous_plan()
    {
        var choices = Shop.Choose(DemoBooks.Radio);
        var plan = Plan(DemoBooks.Radio, 5, CancellationToken.None);
        var onLine = choices.Choices.First(c => c.Requirement.SafetyClass != SafetyClass.None);
        var film = new ChosenPart { Text = "film", Series = "", Kind = NewKind.Film, Unit = Unit.Farad, Value = onLine.Requirement.Value!.Target, Volts = 1600 };
        Assert.NotNull(Fault(choices, plan with { Positions = [new(new("b", onLine.Position), null, "film", film, "")] }));
    }

    // Shops to draw from, made once.
    private static readonly OrderSupply[] Supplies =
    [
        .. Enumerable.Range(0, 40).Select(seed => new OrderSupply
        {
            Catalogue = Shop.Catalogue, Suppliers = [Offers(seed, "one"), Offers(seed + 100, "two")],
            Drawer = new([.. Offers(seed + 200, "d").Offers.Take(20).Select(o => new DrawerLine { Item = o.Item, Part = o.Part, Count = 3 })]),
        }),
    ];

    private static OrderPlan Plan(Book book, int seed, CancellationToken stop) =>
        OrderStage.Plan([new("b", Shop.Choose(book))], Supplies[seed % Supplies.Length], new() { Policy = new() { IncludeMeasureFirst = true } }, null, stop);

    private static string? Fault(ChooseResult choices, OrderPlan plan)
    {
        foreach (var p in plan.Positions)
        {
            var choice = choices.For(p.At.Position)!;
            var (need, part) = (choice.Requirement, p.Part);
            if (p.Count > 1 || !p.Also.IsEmpty)
            {
                if (PairFault(choice, p) is { } fault) return $"{p.At.Position}: {fault}";
                continue;
            }
            if (need.SafetyClass != SafetyClass.None && part.SafetyClass == SafetyClass.None) return $"{p.At.Position}: no class on the line";
            if (need.SafetyClass is SafetyClass.Y1 && part.SafetyClass != SafetyClass.Y1) return $"{p.At.Position}: not Y1";
            if (need.SafetyClass is SafetyClass.Y2 && part.SafetyClass is not (SafetyClass.Y1 or SafetyClass.Y2)) return $"{p.At.Position}: not Y";
            if (need.SafetyClass == SafetyClass.None && !(part.Volts >= (choice.Unit == Unit.Farad ? choice.OldVolts ?? 0 : 0))) return $"{p.At.Position}: below the old mark";
            if (need.VoltsAtLeast is { } volts && !(part.Volts >= volts)) return $"{p.At.Position}: {part.Volts} V";
            if (need.LineVoltsAtLeast is { } ac && !(part.LineVolts >= ac)) return $"{p.At.Position}: {part.LineVolts} V AC";
            if (choice.Unit == Unit.Ohm && !(part.Watts >= Math.Max(choice.OldWatts ?? 0, need.WattsAtLeast ?? 0))) return $"{p.At.Position}: {part.Watts} W";
            if (part.Value < need.Value!.Low * 0.999999 || part.Value > need.Value.High * 1.000001) return $"{p.At.Position}: value";
            if (part.Kind == NewKind.CeramicClass2 && choice.Role.Role is Role.Coupling or Role.Tuned or Role.Tone) return $"{p.At.Position}: class 2 ceramic where signal passes";
        }
        return null;
    }

    // Two in one place: each is of a kind and class that may stand there; side by side each capacitor bears all the volts, one after the other at least half.
    private static string? PairFault(Choice choice, PlannedPosition p)
    {
        var need = choice.Requirement;
        var parts = Enumerable.Repeat(p.Part, p.Count).Concat(p.Also.Where(a => a.Part.Unit == need.Unit && need.Kinds.Contains(a.Part.Kind)).SelectMany(a => Enumerable.Repeat(a.Part, a.Count))).Take(2).ToArray();
        if (parts.Length != 2) return "no pair";
        if (need.SafetyClass is SafetyClass.Y1 or SafetyClass.Y2) return "a pair in a Y position";
        if (need.SafetyClass != SafetyClass.None && parts.Any(x => x.SafetyClass == SafetyClass.None)) return "no class on the line";
        var (sum, reciprocal) = (parts[0].Value + parts[1].Value, parts[0].Value * parts[1].Value / (parts[0].Value + parts[1].Value));
        bool Within(double value) => value >= need.Value!.Low * 0.999999 && value <= need.Value.High * 1.000001;
        if (!Within(sum) && !Within(reciprocal)) return "value";
        var inSeries = !Within(sum) == (choice.Unit == Unit.Farad);
        if (choice.Unit == Unit.Farad && parts.Any(x => !(x.Volts >= (need.VoltsAtLeast ?? 0) * (inSeries ? 0.5 : 1)))) return "volts";
        if (choice.Unit == Unit.Farad && inSeries && p.Also.All(a => a.Part.Unit != Unit.Ohm)) return "nothing balances the pair";
        return choice.Unit == Unit.Ohm && parts.Sum(x => x.Watts ?? 0) < need.WattsAtLeast ? "watts" : null;
    }

    // Right and wrong parts of every kind, the wrong ones cheap.
    private static SupplierList Offers(int seed, string name)
    {
        var random = new Random(seed);
        T Any<T>(params T[] from) => from[random.Next(from.Length)];
        double[] farads = [100e-12, 470e-12, 1e-9, 2.2e-9, 4.7e-9, 10e-9, 22e-9, 47e-9, 0.1e-6, 0.22e-6, 0.47e-6, 2.2e-6, 10e-6, 22e-6, 47e-6], ohms = [4.7, 47, 150, 470, 1500, 10e3, 47e3, 220e3, 1e6, 10e6];
        var offers = Enumerable.Range(0, 120).Select(i =>
        {
            var kind = (NewKind)random.Next(12);
            var resistor = kind is NewKind.MetalFilm or NewKind.CarbonFilm or NewKind.MetalOxide or NewKind.Wirewound;
            var safety = kind is NewKind.SafetyFilm or NewKind.SafetyCeramic ? Any(SafetyClass.X1, SafetyClass.X2, SafetyClass.Y1, SafetyClass.Y2) : SafetyClass.None;
            var volts = random.Next(6) == 0 ? (double?)null : Any(50.0, 63, 250, 400, 450, 630, 1000, 1600);
            var part = new ChosenPart
            {
                Text = $"{kind} {i}", Series = "", Kind = kind, Unit = resistor ? Unit.Ohm : Unit.Farad, Value = resistor ? Any(ohms) : Any(farads) * Any(1, 1, 1.2, 0.8), Volts = volts, SafetyClass = safety,
                LineVolts = safety == SafetyClass.None ? null : Any(125.0, 250, 275, 305, 500), Watts = resistor ? Any(0.25, 0.5, 1.0, 2, 5) : null, TolerancePercent = Any<double?>(null, 1, 5, 10, 20),
            };
            return new Offer { Item = $"{name}-{i}", Part = part, Prices = [new(1, Math.Round((decimal)(volts ?? 10) / 500 + 0.01m, 4))], Stock = random.Next(4) == 0 ? random.Next(5) : null };
        });
        return new() { Name = name, Terms = new(2, 30), Offers = [.. offers] };
    }
}
