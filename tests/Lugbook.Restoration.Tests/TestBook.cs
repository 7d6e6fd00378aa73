using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Sheets;

namespace Lugbook.Restoration.Tests;

/// <summary>Builds small books for tests, a line for each thing: <c>TestBook.New().Strip("A", 5).Valve("V1", "6J5").Resistor("R1", 470e3, "V1-5", "CH")</c>.</summary>
internal sealed class TestBook
{
    private readonly List<Mount> _mounts = [];
    private readonly List<Lug> _lugs = [];
    private readonly List<Wire> _wires = [];
    private readonly List<Part> _parts = [];
    private readonly List<SheetPart> _sheet = [];
    private readonly List<DeclaredVoltage> _declared = [];
    private BookFacts _facts = new() { Title = "Test" };

    /// <summary>A book with a chassis, CH.</summary>
    public static TestBook New() => new TestBook().Mount("CH", "chassis", "CH");

    /// <summary>A good small set: transformer, 6X5GT, choke, one 6J5 and one 6V6GT; chassis is common. Each rule's negative, and a base for its slips.</summary>
    public static TestBook GoodSet() => New()
        .Facts(f => f with { Year = 1946 })
        .Mount("P1", "line cord", "P1-1", "P1-2").Mount("S1", "switch", "S1-1", "S1-2").Strip("A", 5).Strip("B", 5).Mount("K1", "can", "K1-1", "K1-2", "K1-3")
        .Wire("P1-1", "S1-1").Wire("P1-2", "A-1").Wire("S1-2", "A-2").Wire("K1-3", "CH", "bond").Wire("A-3", "CH", "bond")
        .Part("S1", "switch", "S1-1", "S1-2")
        .Winding("T1P", "T1", "A-1", "A-2", "power primary 117 V").Winding("T1A", "T1", "V3-3", "K1-3", "high voltage, half").Winding("T1B", "T1", "V3-5", "K1-3", "high voltage, half")
        .Winding("T1H", "T1", "V3-2", "V3-7", "heater 6.3 V 3 A").Wire("V3-7", "K1-3")
        .Valve("V1", "6J5").Valve("V2", "6V6GT").Valve("V3", "6X5GT")
        .Wire("V3-2", "V2-2").Wire("V2-2", "V1-2").Wire("V2-7", "K1-3").Wire("V1-7", "K1-3").Wire("V1-1", "K1-3")
        .Wire("V3-8", "K1-1").Winding("L1", "L1", "K1-1", "K1-2", "filter choke")
        .Electrolytic("C1", 20e-6, 450, "K1-1", "K1-3").Electrolytic("C2", 20e-6, 450, "K1-2", "K1-3")
        .Winding("T2P", "T2", "V2-3", "K1-2", "output primary").Winding("T2S", "T2", "A-4", "A-3", "output secondary").Part("SP", "speaker", "A-4", "A-3", 3)
        .Wire("V2-4", "K1-2").Resistor("R1", 250, "V2-8", "A-3").Electrolytic("C3", 25e-6, 25, "V2-8", "A-3").Resistor("R2", 470e3, "V2-5", "A-3")
        .Resistor("R3", 100e3, "V1-3", "B-1").Wire("B-1", "K1-2").Resistor("R4", 2200, "V1-8", "A-3").Paper("C4", 20e-9, "V1-3", "V2-5")
        .Resistor("R5", 1e6, "V1-5", "A-3").Paper("C5", 20e-9, "V1-5", "B-2").Mount("J1", "jack", "J1-1", "J1-2").Wire("J1-1", "B-2").Wire("J1-2", "CH", "bond");

    public TestBook Facts(Func<BookFacts, BookFacts> change)
    {
        _facts = change(_facts);
        return this;
    }

    /// <summary>A mount with these lugs, numbered from 1, without positions.</summary>
    public TestBook Mount(string name, string kind, params string[] lugs)
    {
        _mounts.Add(new() { Name = name, KindAsWritten = kind });
        for (var i = 0; i < lugs.Length; i++) _lugs.Add(new() { Name = lugs[i], Mount = name, No = i + 1 });
        return this;
    }

    /// <summary>A tag strip with lugs name-1 and up.</summary>
    public TestBook Strip(string name, int lugs) => Mount(name, "tag strip", [.. Enumerable.Range(1, lugs).Select(i => $"{name}-{i}")]);

    /// <summary>A socket and the valve in it; the base from the handbook, octal when it has none.</summary>
    public TestBook Valve(string name, string type)
    {
        var line = DemoBooks.Handbook.Find(type);
        var (kind, pins) = line?.Base switch { "noval" => ("noval socket", 9), "7-pin miniature" => ("7-pin socket", 7), "loctal" => ("loctal socket", 8), _ => ("octal socket", 8) };
        return Socket(name, kind, pins, line?.Pinout.ContainsKey("cap") == true).ValveOnly(name, type);
    }

    public TestBook Socket(string name, string kind, int pins, bool cap = false)
    {
        Mount(name, kind, [.. Enumerable.Range(1, pins).Select(i => $"{name}-{i}")]);
        if (cap) _lugs.Add(new() { Name = $"{name}-cap", Mount = name });
        return this;
    }

    public TestBook ValveOnly(string name, string? type)
    {
        _parts.Add(new() { Name = name, KindAsWritten = "valve", Marked = type });
        return this;
    }

    public TestBook Wire(string from, string to, string? kind = null)
    {
        _wires.Add(new() { Name = $"W{_wires.Count + 1}", From = from, To = to, KindAsWritten = kind });
        return this;
    }

    public TestBook Part(string name, string kind, string? a, string? b, double? value = null, string? c = null, char? plus = null, Func<Part, Part>? more = null)
    {
        Part part = new() { Name = name, KindAsWritten = kind, LeadA = a, LeadB = b, LeadC = c, PlusLead = plus, Value = value, Unit = PartKinds.UnitOf(PartKinds.Of(kind)) };
        _parts.Add(more?.Invoke(part) ?? part);
        return this;
    }

    public TestBook Resistor(string name, double ohms, string? a, string? b, string? marked = null) => Part(name, "resistor", a, b, ohms, more: p => p with { Marked = marked });
    public TestBook Paper(string name, double farads, string? a, string? b, string? marked = null) => Part(name, "paper", a, b, farads, more: p => p with { Marked = marked, RatedVolts = 400 });
    public TestBook Electrolytic(string name, double farads, double volts, string plus, string minus) =>
        Part(name, "electrolytic", plus, minus, farads, plus: 'a', more: p => p with { RatedVolts = volts });
    public TestBook Winding(string name, string group, string a, string b, string marked) => Part(name, "winding", a, b, 10, more: p => p with { Group = group, Marked = marked });

    public TestBook Declared(string lug, double volts)
    {
        _declared.Add(new() { Name = lug, Volts = volts });
        return this;
    }

    public TestBook Sheet(string name, string kind, double? value, string? marked = null, Func<SheetPart, SheetPart>? more = null)
    {
        SheetPart part = new() { Name = name, KindAsWritten = kind, Value = value, Unit = PartKinds.UnitOf(PartKinds.Of(kind)), Marked = marked };
        _sheet.Add(more?.Invoke(part) ?? part);
        return this;
    }

    /// <summary>Changes one part.</summary>
    public TestBook Change(string name, Func<Part, Part> change)
    {
        var at = _parts.FindIndex(p => p.Name == name);
        _parts[at] = change(_parts[at]);
        return this;
    }

    /// <summary>Changes one lug, such as its position or function.</summary>
    public TestBook ChangeLug(string name, Func<Lug, Lug> change)
    {
        var at = _lugs.FindIndex(l => l.Name == name);
        _lugs[at] = change(_lugs[at]);
        return this;
    }

    /// <summary>Takes out a part.</summary>
    public TestBook Without(string name)
    {
        _parts.RemoveAll(p => p.Name == name);
        return this;
    }

    /// <summary>Takes out the wires between two lugs.</summary>
    public TestBook Cut(string from, string to)
    {
        if (_wires.RemoveAll(w => w.From == from && w.To == to) == 0) throw new InvalidOperationException($"No wire from {from} to {to}.");
        return this;
    }

    public Book Build() => Book.Empty("test", "Test") with
    {
        Facts = _facts,
        Mounts = Table<Mount>.Of(_mounts),
        Lugs = Table<Lug>.Of(_lugs),
        Wires = Table<Wire>.Of(_wires),
        Parts = Table<Part>.Of(_parts),
        SheetParts = Table<SheetPart>.Of(_sheet),
        Declared = Table<DeclaredVoltage>.Of(_declared),
    };
}
