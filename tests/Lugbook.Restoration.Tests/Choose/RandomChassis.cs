using CsCheck;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Tests.Choose;

/// <summary>Chassis that nobody would build: lugs, wires and parts thrown together, so that rules meet what demos never show.</summary>
internal static class RandomChassis
{
    private static readonly string[] Sockets = ["6SN7GTB", "6V6GT", "5Y3GT", "35Z5GT", "12SK7", "12SQ7", "unknown type"];
    private static readonly string[] Kinds = ["paper", "paper", "paper", "ceramic", "mica", "film", "electrolytic", "resistor", "resistor", "winding", "fuse", "switch", "lamp", "control", "selenium rectifier", "condenser"];
    private static readonly double[] Farads = [100e-12, 470e-12, 1e-9, 5e-9, .01e-6, .02e-6, .05e-6, .1e-6, .25e-6, .5e-6, 2e-6, 8e-6, 20e-6, 50e-6];
    private static readonly double[] Ohms = [5, 50, 150, 470, 1500, 10e3, 47e3, 220e3, 1e6, 10e6];
    private static readonly double[] Volts = [25, 150, 200, 350, 400, 450, 500, 600, 1600];

    /// <summary>Without valves, so that a plain search can say what is on the line.</summary>
    public static Gen<Book> Plain { get; } = Of(valves: false);

    /// <summary>With valves in sockets.</summary>
    public static Gen<Book> Full { get; } = Of(valves: true);

    /// <summary>Fails with the first fault that is found, after the chassis was made as small as it goes; an empty text is no fault.</summary>
    public static void HasNoFault(this Gen<Book> books, Func<Book, string> fault, int iterations) =>
        books.Sample(book =>
        {
            if (fault(book) is { Length: > 0 } found) Assert.Fail($"{found}\n{Print(book)}");
        }, iter: iterations);

    private static string Print(Book book) => string.Join('\n', book.Parts.Select(p => $"{p.Name} {p.KindAsWritten} {p.Value} {p.RatedVolts} V {p.LeadA} {p.LeadB} {p.LeadC}"))
        + "\n" + string.Join(' ', book.Wires.Select(w => $"{w.From}={w.To}"));

    private static Gen<Book> Of(bool valves) =>
        from seed in Gen.ULong
        from lugs in Gen.Int[4, 14]
        from wires in Gen.Int[0, 8]
        from parts in Gen.Int[1, 18]
        from sockets in valves ? Gen.Int[0, 3] : Gen.Const(0)
        select Build(new Random((int)(seed & 0x7fffffff)), lugs, wires, parts, sockets);

    private static Book Build(Random random, int lugCount, int wireCount, int partCount, int socketCount)
    {
        T Any<T>(IReadOnlyList<T> from) => from[random.Next(from.Count)];
        var mounts = new List<Mount> { new() { Name = "CH", KindAsWritten = "chassis" }, new() { Name = "P1", KindAsWritten = "line cord" }, new() { Name = "A", KindAsWritten = "tag strip" }, new() { Name = "TB", KindAsWritten = "screw strip" } };
        var lugs = new List<Lug> { new() { Name = "CH", Mount = "CH" }, new() { Name = "P1-1", Mount = "P1", No = 1 }, new() { Name = "P1-2", Mount = "P1", No = 2 }, new() { Name = "TB-1", Mount = "TB", No = 1 } };
        for (var i = 1; i <= lugCount; i++) lugs.Add(new() { Name = $"A-{i}", Mount = "A", No = i, X = random.Next(200), Y = random.Next(100) });
        var parts = new List<Part>();
        for (var v = 1; v <= socketCount; v++)
        {
            mounts.Add(new() { Name = $"V{v}", KindAsWritten = "octal socket" });
            parts.Add(new() { Name = $"V{v}", KindAsWritten = "valve", Marked = Any(Sockets) });
            for (var pin = 1; pin <= 8; pin++) lugs.Add(new() { Name = $"V{v}-{pin}", Mount = $"V{v}", No = pin });
        }
        var names = lugs.Select(l => l.Name).ToArray();
        var bundles = new List<Wire>();
        for (var w = 1; w <= wireCount + socketCount * 4; w++) bundles.Add(new() { Name = $"W{w}", From = Any(names), To = Any(names), KindAsWritten = random.Next(5) == 0 ? "bond" : "wire" });
        for (var p = 1; p <= partCount + socketCount * 4; p++)
        {
            var kind = Any(Kinds);
            var of = PartKinds.Of(kind);
            var known = random.Next(10) > 0;
            parts.Add(new()
            {
                Name = $"{(of.IsCapacitor() ? 'C' : 'R')}{p}",
                KindAsWritten = kind,
                Value = !known ? null : of.IsCapacitor() ? Any(Farads) : PartKinds.UnitOf(of) is null ? null : Any(Ohms),
                Unit = PartKinds.UnitOf(of),
                RatedVolts = of.IsCapacitor() && random.Next(8) > 0 ? Any(Volts) : null,
                RatedWatts = of == PartKind.Resistor && random.Next(3) > 0 ? Any([0.25, 0.5, 1.0, 2, 5, 10]) : null,
                Tolerance = random.Next(3) > 0 ? Trade.Quantities.Tolerance.Percent(Any([2.0, 5, 10, 20])) : null,
                LeadA = random.Next(25) == 0 ? null : Any(names),
                LeadB = random.Next(25) == 0 ? "Z-9" : Any(names),
                LeadC = of == PartKind.Control ? Any(names) : null,
                PlusLead = of == PartKind.Electrolytic && random.Next(4) > 0 || of.IsRectifier() ? Any(['a', 'b']) : null,
            });
        }
        var work = parts.Where(p => p.Kind != PartKind.Valve && random.Next(4) == 0)
            .Select(p => new PositionWork { Name = p.Name, Decision = (Decision)random.Next(4), Reason = "thrown", Done = random.Next(2) == 0 });
        return Book.Empty("thrown", "thrown together") with
        {
            Mounts = Table<Mount>.Of(mounts),
            Lugs = Table<Lug>.Of(lugs),
            Wires = Table<Wire>.Of(bundles),
            Parts = Table<Part>.Of(parts),
            Work = Table<PositionWork>.Of(work),
        };
    }
}
