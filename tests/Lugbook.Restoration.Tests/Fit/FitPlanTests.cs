using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Bodies;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Order.Solving;
using Lugbook.Restoration.Tests.Choose;
using Lugbook.Trade;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Tests.Fit;

/// <summary>Source: plane geometry worked out by hand beside each check; IEC 60664-1 distances from memory; the rest common practice, no source.</summary>
public class FitPlanTests
{
    private static readonly Func<string, MapResult> Map = name => MapStage.Run(DemoBooks.Named(name), DemoBooks.Handbook);

    private static FitResult Run(Book book, FitRules? rules = null, bool solved = false, FitOrder? order = null, ChassisLayout? layout = null)
    {
        var map = MapStage.Run(book, DemoBooks.Handbook);
        return FitStage.Run(map, ChooseStage.Run(map, Shop.Policy), rules, new(layout, solved ? Solved.Demo(book.Name) : null), order);
    }

    [Fact]
    public void A_body_shorter_than_the_span_lies_between_and_both_leads_reach()
    {
        // 40 mm apart, 22 mm long: 9 mm a side and 1 mm slack.
        var (mounting, a, b) = LeadForming.Of(40, new(22, 9, 0.8, false));
        Assert.Equal(Mounting.Between, mounting);
        Assert.Equal(10, a.Length, 3);
        Assert.Equal(a.Length, b.Length);
    }

    [Fact]
    public void A_body_a_little_too_long_lies_beside_the_line()
    {
        // 22 mm body over 20 mm, 3 mm straight each: the lead comes back 4 mm and 7.5 mm aside, √(16 + 56.25) = 8.5 mm.
        var (mounting, a, _) = LeadForming.Of(20, new(22, 9, 0.8, false));
        Assert.Equal(Mounting.DogLeg, mounting);
        Assert.Equal(3 + 8.5, a.Length, 3);
    }

    [Fact]
    public void A_body_far_too_long_stands_on_end_and_its_long_lead_reaches_down_and_across()
    {
        var (mounting, shorter, longer) = LeadForming.Of(9.5, new(22, 9, 0.8, false));
        Assert.Equal(Mounting.Standing, mounting);
        Assert.Equal(3, shorter.Length);
        Assert.True(longer.Length >= 22 + 9.5);
        Assert.True(longer.Bends.Zip(longer.Bends.Skip(1)).All(p => p.First < p.Second) && longer.Bends[^1] < longer.Length);
    }

    [Fact]
    public void No_lead_is_ever_too_short_for_its_lugs()
    {
        for (var span = 3.0; span < 80; span += 0.7)
            for (var body = 5.0; body < 60; body += 1.3)
            {
                var (mounting, a, b) = LeadForming.Of(span, new(body, 0.4 * body, 0.8, false));
                // From lug to lug along lead, body and lead the way is never shorter than the straight line.
                Assert.True(a.Length + b.Length + body >= span, $"{mounting} {span} {body}");
                Assert.True(a.Length >= 3 && b.Length >= 3);
            }
    }

    [Theory]
    [InlineData(50, 1.2)]
    [InlineData(250, 2.5)]
    [InlineData(325, 3.25)]
    [InlineData(1000, 10)]
    [InlineData(2000, 20)]
    public void Distance_grows_with_voltage(double volts, double mm) => Assert.Equal(mm, ClearanceFinder.NeedMm(volts), 2);

    [Fact]
    public void A_lead_that_crosses_a_lug_at_another_voltage_is_sleeved_and_one_on_its_own_node_is_not()
    {
        // C1's leads run straight along the strip: a from A-1 over A-2, which is wired to it, b from A-4 over A-3, which is not.
        var book = Strip().Paper("C1", 20e-9, "A-1", "A-4").Resistor("R1", 1e5, "A-3", "CH").Resistor("R2", 1e5, "A-2", "CH").Wire("A-2", "A-1").Build();
        var sheet = Run(book, layout: Laid(LayoutStage.Run(book), "C1", new(new(25, 20), new(1, 0), 2, 8), (new(24, 20), new(10, 20)), (new(26, 20), new(40, 20))));
        Assert.Contains(sheet.Clearance.Leads, l => l is { Position: "C1", Letter: 'b', Against: "lug A-3", Millimetres: 0 });
        Assert.DoesNotContain(sheet.Clearance.Leads, l => l.Against == "lug A-2");
        var plan = sheet.Steps.Single(s => s.Position == "C1").Plan;
        var near = sheet.Clearance.Leads.Select(l => l.Letter).ToHashSet();
        Assert.All(plan.Leads, l => Assert.Equal(near.Contains(l.Letter), l.SleeveMm > 0));
    }

    [Fact]
    public void Without_measured_lugs_nothing_is_said_of_distances()
    {
        var book = TestBook.New().Strip("A", 4).Paper("C1", 20e-9, "A-1", "A-4").Build();
        var sheet = Run(book);
        Assert.Contains("No lug is measured", sheet.Clearance.Unknown, StringComparison.Ordinal);
        Assert.All(sheet.Steps.Single().Plan.Leads, l => Assert.Equal(new FitRules().SleeveMm, l.SleeveMm));
        Assert.All(sheet.Lugs, l => Assert.Empty(l.Near));
    }

    [Fact]
    public void Volts_of_the_solved_set_stand_beside_the_sleeve_and_near_lugs()
    {
        var sheet = Run(DemoBooks.Amp, solved: true);
        Assert.Contains(sheet.Clearance.Leads, l => l.Volts > 50 && l.Sentence.Contains("V apart", StringComparison.Ordinal));
        Assert.All(sheet.Clearance.Lugs, p => Assert.True(p.GapMm < p.NeedMm));
        Assert.Null(sheet.Clearance.Unknown);
    }

    [Fact]
    public void The_marked_end_goes_to_the_side_of_lower_impedance()
    {
        // C8 is polarised and has none. C3 goes from a screen to a foot on common; C4 from a plate (100 kΩ and more) to a grid's leak.
        var steps = Run(DemoBooks.Amp, solved: true).Steps.ToDictionary(s => s.Position);
        Assert.Null(steps["C8"].Plan.MarkedEnd);
        Assert.Contains("it goes to B-3", steps["C3"].Plan.MarkedEnd, StringComparison.Ordinal);
        Assert.Contains("it goes to V1-8", steps["C4"].Plan.MarkedEnd, StringComparison.Ordinal);
        // By wiring alone the common side is as plain.
        Assert.Contains("it goes to B-3", Run(DemoBooks.Amp).Steps.Single(s => s.Position == "C3").Plan.MarkedEnd, StringComparison.Ordinal);
    }

    [Fact]
    public void The_lead_on_an_insulated_lug_comes_first_and_the_chassis_last()
    {
        var step = Run(DemoBooks.Amp).Steps.Single(s => s.Position == "C8");
        Assert.Contains("First a at C-5: it is insulated", step.Plan.First, StringComparison.Ordinal);
        Assert.Equal('a', step.On[0].Letter);
    }

    [Fact]
    public void Heat_is_told_by_distance_to_the_body()
    {
        // The crystal diode runs between C-1 and C-2, right beside B-1, on neither of its lugs.
        var book = Strip().Strip("B", 2).Strip("C", 2).Paper("C1", 20e-9, "B-1", "A-1").Part("D1", "crystal diode", "C-1", "C-2").Build();
        book = Placed(book, ("B-1", 30, 40), ("B-2", 60, 60), ("C-1", 20, 45), ("C-2", 40, 45));
        Assert.Contains(Run(book).Lugs.Single(l => l.Lug == "B-1").HeatSensitive, h => h.StartsWith("D1", StringComparison.Ordinal) && h.Contains("mm away", StringComparison.Ordinal));
        Assert.DoesNotContain(Run(book).Lugs.Single(l => l.Lug == "A-1").HeatSensitive, h => h.StartsWith("D1", StringComparison.Ordinal));
    }

    [Fact]
    public void What_is_done_keeps_its_number_whatever_is_found_for_the_rest()
    {
        var book = DemoBooks.Tv;
        var first = Run(book);
        var (third, tenth) = (first.Steps[2], first.Steps[9]);
        var ticked = book with { Work = Table<PositionWork>.Of([new() { Name = third.Position, Done = true, DoneStep = 9 }, new() { Name = tenth.Position, Done = true, DoneStep = 3 }]) };
        var sheet = Run(ticked);
        Assert.Equal((third.Position, tenth.Position), (sheet.Steps[8].Position, sheet.Steps[2].Position));
        // An order that was found before stays while only ticks are made.
        var plain = book with { Work = Table<PositionWork>.Of([new() { Name = third.Position, Done = true, DoneStep = 3 }]) };
        Assert.Equal(first.Steps.Select(s => s.Position), Run(plain, order: first.Order).Steps.Select(s => s.Position));
    }

    [Fact]
    public void Several_open_at_once_never_look_alike_and_the_limit_holds()
    {
        var sheet = Run(DemoBooks.Tv, new FitRules { Open = 3 });
        Assert.All(sheet.Steps.GroupBy(s => s.Round), g => Assert.True(g.Count() <= 3));
        Assert.Contains(sheet.Steps, s => !s.Together.IsEmpty);
        var map = Map("tv");
        var choices = ChooseStage.Run(map, Shop.Policy);
        foreach (var step in sheet.Steps)
            foreach (var other in step.Together)
                if (choices.For(step.Position)!.Group is null || choices.For(step.Position)!.Group != choices.For(other)!.Group)
                    Assert.False(Confusable.LooksLike(map, choices.For(step.Position)!, choices.For(other)!), $"{step.Position} and {other}");
    }

    [Fact]
    public void The_search_is_never_worse_than_the_first_order_and_states_its_bound()
    {
        var map = Map("amp");
        var choices = ChooseStage.Run(map, Shop.Policy);
        var first = FitStage.Run(map, choices).Order;
        var found = FitStage.Order(map, choices, TimeSpan.FromSeconds(10), stop: TestContext.Current.CancellationToken);
        Assert.True(found.Cost.Total <= first.Cost.Total && found.Bound <= found.Cost.Total);
        Assert.Equal(SolveEnd.Proven, found.End);
        Assert.Equal(first.Key, found.Key);
    }

    [Fact]
    public void Own_pace_takes_over_at_five_timed_ticks_and_pauses_do_not_count()
    {
        var sheet = Run(DemoBooks.Tv);
        var capacitors = sheet.Steps.Where(s => s.Polarity is null && !s.Plan.Sentence.StartsWith("A section", StringComparison.Ordinal)).Take(8).ToArray();
        // 10 minutes each; then a night between the fourth and the fifth.
        var at = new DateTimeOffset(2026, 11, 1, 10, 0, 0, TimeSpan.Zero);
        PositionWork Tick(int k) => new() { Name = capacitors[k].Position, Done = true, DoneAt = at.AddMinutes(10 * k + (k >= 4 ? 600 : 0)) };
        var five = Run(DemoBooks.Tv with { Work = Table<PositionWork>.Of(Enumerable.Range(0, 5).Select(Tick)) }).Estimate.Kinds.Single(k => k.Kind == "capacitor");
        Assert.Equal((3, false), (five.Known, five.IsOwn));
        var eight = Run(DemoBooks.Tv with { Work = Table<PositionWork>.Of(Enumerable.Range(0, 8).Select(Tick)) }).Estimate.Kinds.Single(k => k.Kind == "capacitor");
        Assert.Equal((6, true, 10.0), (eight.Known, eight.IsOwn, eight.Minutes));
    }

    [Fact]
    public void Materials_and_cut_ends_are_counted_from_the_steps()
    {
        var sheet = Run(DemoBooks.Amp);
        var leads = sheet.Steps.Sum(s => s.On.Length);
        Assert.Contains($"{leads} joints", sheet.Materials.Single(m => m.What.StartsWith("solder", StringComparison.Ordinal)).Reason, StringComparison.Ordinal);
        // Each new lead leaves one end; each old lead on a cleared lug leaves its stub.
        Assert.Equal(leads + sheet.Lugs.Where(l => l.Verdict == LugVerdict.ClearToBareMetal).Sum(l => l.Off.Length), sheet.Inspection.Sum(i => i.CutEnds));
        Assert.Equal(sheet.Lugs.Select(l => l.Lug), sheet.Inspection.Select(i => i.Lug));
        Assert.Equal(50, Run(DemoBooks.Amp, new FitRules { SolderMm = 500 }).Materials.Single(m => m.What.StartsWith("solder", StringComparison.Ordinal)).Amount / leads * 100, 0);
    }

    [Fact]
    public void Rules_are_read_and_written_and_a_slip_is_named()
    {
        var (rules, complaints) = FitRules.Read("sleeve 18.5; Open: 2; light braid = 30");
        Assert.Empty(complaints);
        Assert.Equal((18.5, 2, 30.0), (rules.SleeveMm, rules.Open, rules.LightBraidMm));
        Assert.Equal(rules, FitRules.Read(rules.Write()).Rules);
        Assert.Null(new FitRules().Write());
        Assert.Contains("open is a number from 1 to 6", FitRules.Read("open 20").Complaints.Single(), StringComparison.Ordinal);
        Assert.Contains("no rule of the bench", FitRules.Read("sleve 3").Complaints.Single(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_part_that_lies_over_another_comes_out_before_it()
    {
        // Two tubes lie across each other; the smaller is drawn above, and the book has it second.
        var book = Strip().Strip("B", 2).Paper("C1", 100e-9, "A-1", "A-4").Paper("C2", 1e-9, "B-1", "B-2").Build();
        book = Placed(book, ("A-1", 10, 30), ("A-4", 60, 30), ("B-1", 35, 12), ("B-2", 35, 48));
        var plan = Laid(Laid(LayoutStage.Run(book), "C1", new(new(35, 30), new(1, 0), 36, 12), (new(17, 30), new(10, 30)), (new(53, 30), new(60, 30))),
            "C2", new(new(35, 30), new(0, 1), 17, 7), (new(35, 21), new(35, 12)), (new(35, 39), new(35, 48)));
        var map = MapStage.Run(book, DemoBooks.Handbook);
        var choices = ChooseStage.Run(map, Shop.Policy);
        // Whether one of them lies across the line is asked of a book without a line; that is not the matter here.
        var sheet = FitStage.Run(map, choices with { Choices = [.. choices.Choices.Select(c => c with { Question = null })] }, null, new(plan));
        var (large, small) = (sheet.Steps.Single(s => s.Position == "C1"), sheet.Steps.Single(s => s.Position == "C2"));
        Assert.True(small.Number < large.Number, $"{small.Turn} {small.Open} / {large.Turn} {large.Open}");
        Assert.Contains("lies over C1", small.Turn, StringComparison.Ordinal);
    }

    // The plan with one part laid by hand.
    private static ChassisLayout Laid(ChassisLayout layout, string part, Slab slab, params (Pt From, Pt To)[] leads)
    {
        return layout with
        {
            Bodies = [.. layout.Bodies.Select(b => b.Part.Name != part ? b : b with { Slab = slab, Leads = [.. b.Leads.Select((l, i) => new PlacedLead(l.Letter, l.Lug, Outline.Line(leads[i].From, leads[i].To)))] })],
        };
    }

    private static TestBook Strip() => TestBook.New().Strip("A", 4)
        .ChangeLug("A-1", l => l with { X = 10, Y = 20 }).ChangeLug("A-2", l => l with { X = 20, Y = 20 }).ChangeLug("A-3", l => l with { X = 30, Y = 20 }).ChangeLug("A-4", l => l with { X = 40, Y = 20 });

    private static Book Placed(Book book, params (string Lug, double X, double Y)[] places) =>
        book with { Lugs = Table<Lugbook.Trade.Chassis.Lug>.Of(book.Lugs.Select(l => places.FirstOrDefault(p => p.Lug == l.Name) is { Lug: not null } p ? l with { X = p.X, Y = p.Y } : l)) };
}
