using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using CsCheck;
using Lugbook.Restoration.Choose;
using Joining = Lugbook.Restoration.Choose.Joining;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Tests.Choose;

/// <summary>Source: the safety rules of the project's notes (IEC 60384-14 classes by position); the oracle below is a plain search that shares no code with the stage.</summary>
public class ChoosePropertyTests
{
    [Fact]
    public void No_ordinary_capacitor_is_ever_chosen_for_a_line_position()
    {
        var (metAcross, metTouch) = (0, 0);
        RandomChassis.Plain.HasNoFault(book =>
        {
            var map = MapStage.Run(book, DemoBooks.Handbook);
            var result = ChooseStage.Run(map, Shop.Policy);
            var oracle = new Oracle(map);
            foreach (var part in book.Parts.Where(p => p.Kind.IsFixedCapacitor()))
            {
                var choice = result.Choices.Single(c => c.PartId == part.Id);
                var (across, touch) = (oracle.IsAcrossLine(part), oracle.IsLineToTouchable(part));
                var asked = choice.Requirement.SafetyClass;
                if (across) Interlocked.Increment(ref metAcross);
                if (touch) Interlocked.Increment(ref metTouch);
                if (across && asked == SafetyClass.None) return $"{part.Name} lies across the line and no class is asked";
                if (touch && !across && asked is not (SafetyClass.Y1 or SafetyClass.Y2)) return $"{part.Name} goes from the line to something touchable and {asked} is asked";
                if (!across && !touch && !oracle.CordIsShorted && asked != SafetyClass.None) return $"{part.Name} is nowhere near the line and {asked} is asked";
                if (choice.Part is { } chosen && !choice.Requirement.Accepts(chosen.SafetyClass)) return $"{part.Name} asks for {asked} and gets {chosen.SafetyClass}";
                if (choice.Candidates.SelectMany(c => c.Parts).Any(p => !choice.Requirement.Accepts(p.SafetyClass))) return $"{part.Name} asks for {asked}, and a way to fill it has another";
                if (touch && choice.Candidates.Any(c => c.Parts.Length > 1)) return $"{part.Name} is between the line and a hand, and two parts are put there";
                if (touch && !across && choice.Part is { } y && (y.Value > part.Value * (1 + 1e-9) || choice.NewTouchCurrents.Any(c => c.Milliamperes > 0.5))) return $"{part.Name} passes too much";
            }
            return "";
        }, 3000);
        // Else the property says nothing.
        Assert.True(metAcross > 300 && metTouch > 300, $"only {metAcross} across and {metTouch} to touchable were met");
    }

    [Fact]
    public void No_choice_lies_below_the_old_ratings_or_outside_its_window() =>
        RandomChassis.Full.HasNoFault(book =>
        {
            foreach (var choice in ChooseStage.Run(MapStage.Run(book, DemoBooks.Handbook), Shop.Policy).Choices)
            {
                var need = choice.Requirement;
                var old = book.Parts.ById(choice.PartId)!;
                if (need.VoltsAtLeast < old.RatedVolts) return $"{choice.Position}: the demand is below the mark";
                if (need.WattsAtLeast < old.RatedWatts) return $"{choice.Position}: the demand is below the mark";
                foreach (var way in choice.Candidates)
                    if (!need.Value!.Holds(way.Value)) return $"{choice.Position}: {way.Text} is outside its window";
                    else if (way.Parts.Any(p => (p.Celsius ?? 0) < need.CelsiusAtLeast || !need.Kinds.Contains(p.Kind))) return $"{choice.Position}: {way.Text} is too cool a type, or of another kind";
                    else if (way.Joining == Joining.Parallel && way.Parts.Any(p => p.Volts < need.VoltsAtLeast)) return $"{choice.Position}: {way.Text} bears less than is asked for";
                    else if (way.Joining == Joining.Series && way.Parts.Sum(p => p.Volts) < need.VoltsAtLeast) return $"{choice.Position}: {way.Text} bears less than is asked for";
                    else if (way.Joining != Joining.Alone && way.Parts.Sum(p => p.Watts) < need.WattsAtLeast) return $"{choice.Position}: {way.Text} is below the watts asked for";
                if (choice.Part is not { } part) continue;
                if (part.Value < need.Value!.Low * (1 - 1e-9) || part.Value > need.Value.High * (1 + 1e-9)) return $"{choice.Position}: {part.Text} is outside its window";
                if (old.Kind.IsCapacitor() && part.Volts < old.RatedVolts) return $"{choice.Position}: {part.Text} is below the old {old.RatedVolts} V";
                if (part.Watts < old.RatedWatts) return $"{choice.Position}: {part.Text} is below the old {old.RatedWatts} W";
                if (part.Volts < need.VoltsAtLeast || !need.Kinds.Contains(part.Kind) || !need.Accepts(part.SafetyClass)) return $"{choice.Position}: {part.Text} does not meet the demand";
                if (part.LineVolts < need.LineVoltsAtLeast) return $"{choice.Position}: {part.Text} is not for this line";
            }
            return "";
        }, 2000);

    [Fact]
    public void Every_part_has_one_choice_or_one_reason_and_every_choice_explains_itself() =>
        RandomChassis.Full.Sample(book =>
        {
            var result = ChooseStage.Run(MapStage.Run(book, DemoBooks.Handbook), Shop.Policy);
            return result.Choices.Length + result.NotChosen.Length == book.Parts.Count
                && result.Choices.All(c => c.Explanation.Length > 0 && c.DecisionReason.Length > 0 && c.Role.Evidence.Length > 0 && (c.Part is not null || c.Explanation.Contains("No", StringComparison.Ordinal)));
        }, iter: 500);

    [Fact]
    public void The_answer_does_not_depend_on_the_culture_and_is_plain_json()
    {
        var map = MapStage.Run(DemoBooks.Tv, DemoBooks.Handbook);
        var before = CultureInfo.CurrentCulture;
        string Text() => JsonSerializer.Serialize(ChooseStage.Run(map, Shop.Policy));
        var plain = Text();
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(plain, Text());
        }
        finally { CultureInfo.CurrentCulture = before; }
        Assert.Equal(JsonValueKind.Object, JsonDocument.Parse(plain).RootElement.ValueKind);
    }

    /// <summary>What is on the line, by enumerating paths: slow, plain, and written without a look at the stage.</summary>
    private sealed class Oracle
    {
        private readonly MapResult _map;
        private readonly int[] _blades;
        private readonly HashSet<int> _onLine;
        private readonly HashSet<int> _touch;
        private readonly HashSet<int> _live;

        public Oracle(MapResult map)
        {
            _map = map;
            _blades = [.. new[] { "P1-1", "P1-2" }.Select(l => map.NodeByLug[l]).Distinct()];
            _onLine = Flood(_blades, IsLow, []);
            // A coil or a low resistance brings chassis and aerial within reach of whatever it joins to them.
            _touch = Flood(new[] { "CH", "TB-1" }.Select(l => map.NodeByLug[l]).Where(n => !_onLine.Contains(n)), IsLow, _onLine);
            _live = Flood(_onLine, p => !p.Kind.IsCapacitor(), _touch);
        }

        /// <summary>Both blades on one node: nonsense, and the stage may then ask for more than it must.</summary>
        public bool CordIsShorted => _blades.Length < 2;

        /// <summary>Would current flow from blade to blade through this part alone, beside low resistances? Only then does line voltage stand on it.</summary>
        public bool IsAcrossLine(Part part)
        {
            if (Ends(part) is not var (a, b) || _blades.Length < 2) return false;
            return Disjoint(a, b, _blades[0], _blades[1]) || Disjoint(b, a, _blades[0], _blades[1]);
        }

        public bool IsLineToTouchable(Part part) =>
            Ends(part) is var (a, b) && (_live.Contains(a) && _touch.Contains(b) || _live.Contains(b) && _touch.Contains(a));

        private static bool IsLow(Part p) => p.Kind is PartKind.Winding or PartKind.Fuse or PartKind.Switch or PartKind.Lamp || (p.Kind is PartKind.Resistor or PartKind.Control && !(p.Value > 3300));

        private (int, int)? Ends(Part part) =>
            part.LeadA is { } la && part.LeadB is { } lb && _map.NodeByLug.TryGetValue(la, out var a) && _map.NodeByLug.TryGetValue(lb, out var b) && a != b ? (a, b) : null;

        private IEnumerable<(int A, int B)> Edges(Func<Part, bool> through) =>
            from p in _map.Book.Parts
            where through(p)
            let nodes = p.Leads.Select(l => _map.NodeByLug.GetValueOrDefault(l.Lug, -1)).Where(n => n >= 0).ToArray()
            from x in nodes
            from y in nodes
            where x != y
            select (x, y);

        private HashSet<int> Flood(IEnumerable<int> from, Func<Part, bool> through, HashSet<int> never)
        {
            var reached = new HashSet<int>(from);
            var edges = Edges(through).ToArray();
            for (var grown = true; grown;)
            {
                grown = false;
                foreach (var (a, b) in edges)
                    if (reached.Contains(a) && !never.Contains(b) && reached.Add(b)) grown = true;
            }
            return reached;
        }

        // Every simple path from a to one blade, and then a second one from b to the other that shares no node with it.
        private bool Disjoint(int a, int b, int first, int second)
        {
            var edges = Edges(IsLow).ToLookup(e => e.A, e => e.B);
            bool Second(int at, HashSet<int> used) => at == second || edges[at].Any(n => used.Add(n) && Second(n, used));
            bool First(int at, ImmutableHashSet<int> path) => at == first
                ? !path.Contains(b) && !path.Contains(second) && Second(b, [.. path, b])
                : edges[at].Any(n => !path.Contains(n) && First(n, path.Add(n)));
            return First(a, [a]);
        }
    }
}
