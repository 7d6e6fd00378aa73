using CsCheck;
using Lugbook.Drawing;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Work;

namespace Lugbook.Tests.Drawing;

/// <summary>Source: none; books as people leave them half entered must still give a picture.</summary>
public class OtherPeoplesBooksTests
{
    private static readonly string[] MountKindsWritten = ["tag strip", "octal socket", "loctal", "noval socket", "7-pin socket", "duodecal socket", "can", "IF can", "control", "switch", "jack",
        "fuse holder", "lamp holder", "line cord", "screw strip", "tuning gang", "speaker", "selenium stack", "sealed tuner", "power resistor", "transformer", "flyback", "yoke", "coil form", "earth lug", "loop panel", "chassis", "what's this <&>\""];
    private static readonly string[] Names = ["A", "B", "V1", "V2", "K1", "R4", "T1", "ÄÖ", "x y", "<&\">"];

    private static readonly Gen<double?> Coordinate = Gen.OneOf(Gen.Double[0, 300].Select(d => (double?)d), Gen.Double[0, 300].Select(d => (double?)d), Gen.Const((double?)null),
        Gen.OneOf<double?>(0, -5, double.NaN, double.PositiveInfinity, 1e300, -1e308, 5e-324, 40));
    private static readonly Gen<string> LugName = Gen.Select(Gen.OneOf(Names), Gen.Int[0, 14], (m, n) => n == 0 ? m : $"{m}-{n}");
    private static readonly Gen<string?> MaybeLug = Gen.OneOf(LugName.Select(s => (string?)s), LugName.Select(s => (string?)s), Gen.OneOf<string?>(null, "", "-", "Q-99999999999", "lone", "V1-cap", "-3", " "));
    private static readonly Gen<Lug> AnyLug = Gen.Select(LugName, Gen.OneOf(Names), Gen.Int[-2, 14], Coordinate, Coordinate, (name, mount, no, x, y) =>
        new Lug { Name = name, Mount = mount, No = no < 0 ? null : no == 14 ? int.MaxValue : no, X = x, Y = y, Function = no == 3 ? "mounting foot" : "square: 8 mfd" });
    private static readonly Gen<Part> AnyPart =
        from name in Gen.Int[1, 30]
        from kind in Gen.OneOf((string[])[.. PartKinds.Known, "gizmo"])
        from a in MaybeLug
        from b in MaybeLug
        from c in MaybeLug
        from value in Gen.OneOf<double?>(null, 0, 1, 47, 4700, 1e6, 1e-8, 5e-5, -1, double.NaN, double.PositiveInfinity, 1e300, 5e-324)
        from extra in Gen.Int[0, 5]
        select new Part
        {
            Name = extra == 5 ? "V1" : "P" + name, KindAsWritten = kind, LeadA = a, LeadB = b, LeadC = extra == 1 ? c : null, Value = value, Unit = PartKinds.UnitOf(PartKinds.Of(kind)), Marked = extra == 2 ? "1\u0001 <MEG> & \ud800" : ".05 MFD 400V",
            RatedVolts = extra == 3 ? double.NaN : 400, RatedWatts = value, PlusLead = extra == 0 ? 'b' : null, Group = extra >= 3 ? Names[name % Names.Length] : extra == 2 ? "G" : null,
            Code = extra == 1 ? "red red orange silver" : extra == 0 ? "none" : null, Note = "blue lead to A-1, red lead to B-2",
        };
    private static readonly Gen<Book> AnyBook =
        from mounts in Gen.Select(Gen.OneOf(Names), Gen.OneOf(MountKindsWritten), (n, k) => new Mount { Name = n, KindAsWritten = k }).Array[0, 10]
        from lugs in AnyLug.Array[0, 40]
        from parts in AnyPart.Array[0, 25]
        from wires in Gen.Select(MaybeLug, MaybeLug, Gen.OneOf("wire", "bond", "bare", "twisted", "shielded", "line cord", "string"), (a, b, k) => new Wire { Name = "W", From = a ?? "", To = b ?? "", KindAsWritten = k, Colour = "red white" }).Array[0, 15]
        from done in Gen.Bool
        select Book.Empty("any", "Any <set> & \"more\"") with
        {
            Mounts = Table<Mount>.Of(mounts), Lugs = Table<Lug>.Of(lugs), Parts = Table<Part>.Of(parts), Wires = Table<Wire>.Of(wires),
            Work = Table<PositionWork>.Of(parts.Select(p => new PositionWork { Name = p.Name, Decision = (Decision)(p.Name.Length % 4), Done = done })),
        };

    [Fact]
    public void Any_book_gives_well_formed_svg_with_every_row_in_it_and_only_finite_numbers()
    {
        Gen.Select(AnyBook, Gen.Bool, Gen.Enum<Turn>()).Sample((book, mirror, turn) =>
        {
            var drawn = new DrawnSvg(book, new() { Mirror = mirror, Rotate = turn, ShowWork = true, Stage = "V1", Part = "P1", Lug = "A-1", Node = "B-1" });
            Assert.DoesNotContain("NaN", drawn.Text, StringComparison.Ordinal);
            Assert.DoesNotContain("∞", drawn.Text, StringComparison.Ordinal);
            Assert.DoesNotContain("Infinity", drawn.Text, StringComparison.Ordinal);
            Assert.True(drawn.Scene.Bounds.Width is > 1 and < 1e6);
            foreach (var (kind, ids) in new[] { ("lug", book.Lugs.Select(r => r.Id)), ("part", book.Parts.Select(r => r.Id)), ("wire", book.Wires.Select(r => r.Id)), ("mount", book.Mounts.Select(r => r.Id)) })
                Assert.Equal(ids.Order(), drawn.Groups(kind).SelectMany(g => g).Select(g => (int?)g.Attribute("data-id")).OfType<int>().Order());
            Assert.Equal(0, drawn.Scene.Measures.LabelsOnLugs);
        }, iter: 150);
    }

    [Fact]
    public void The_same_book_is_drawn_the_same_twice() =>
        AnyBook.Sample(book => Assert.Equal(new DrawnSvg(book).Text, new DrawnSvg(book).Text), iter: 30);

    [Fact]
    public void A_list_of_parts_with_lugs_alone_is_drawn_on_supposed_mounts()
    {
        var book = Book.Empty("list", "List") with
        {
            Parts = Table<Part>.Of([
                new() { Name = "V3", KindAsWritten = "valve", Marked = "6V6GT" },
                new() { Name = "C7", KindAsWritten = "paper", Marked = ".02 400V", Value = 2e-8, Unit = Unit.Farad, LeadA = "V3-6", LeadB = "A-2" },
                new() { Name = "R1", KindAsWritten = "resistor", Marked = "47K", Value = 47000, Unit = Unit.Ohm }]),
        };
        var drawn = new DrawnSvg(book);
        Assert.Equal(["A-2", "V3-6"], drawn.Lugs().Keys.Order());
        Assert.Equal(2, drawn.LeadEnds().Count(e => e.Part == "C7"));
        Assert.Contains("octal socket, supposed", drawn.Text, StringComparison.Ordinal);
        Assert.Contains("on no lug yet", drawn.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_socket_measured_at_two_pins_gets_its_other_pins_where_they_are()
    {
        // Octal, circle of 11 mm about (50, 80), key to the right: pin 1 follows the key clockwise as seen from beneath.
        Pt Pin(int n) { var a = Math.PI / 2 + (n - 0.5) * Math.PI / 4; return new(50 + 11 * Math.Sin(a), 80 + 11 * Math.Cos(a)); }
        var book = Book.Empty("s", "S") with
        {
            Mounts = Table<Mount>.Of([new() { Name = "V1", KindAsWritten = "octal" }]),
            Lugs = Table<Lug>.Of(Enumerable.Range(1, 8).Select(n => new Lug { Name = $"V1-{n}", Mount = "V1", No = n, X = n is 2 or 5 ? Pin(n).X : null, Y = n is 2 or 5 ? Pin(n).Y : null })),
        };
        var lugs = new DrawnSvg(book).Lugs();
        for (var n = 1; n <= 8; n++)
            Assert.True(lugs[$"V1-{n}"].At.To(new(Pin(n).X, -Pin(n).Y)) < 0.02, $"pin {n} at {lugs[$"V1-{n}"].At}");
    }

    [Fact]
    public void A_book_of_six_hundred_parts_is_drawn_whole()
    {
        var random = new Random(11);
        var mounts = Enumerable.Range(0, 110).Select(i => new Mount { Name = "M" + i, KindAsWritten = i % 3 == 0 ? "7-pin socket" : "tag strip" }).ToArray();
        var lugs = new List<Lug>();
        for (var i = 0; i < mounts.Length; i++)
        {
            double x = 30 + i % 11 * 42, y = 30 + i / 11 * 42, turn = random.NextDouble() * 6;
            for (var n = 1; n <= 7; n++)
            {
                double a = turn + n * Math.PI / 4;
                var (dx, dy) = i % 3 == 0 ? (8 * Math.Sin(a), 8 * Math.Cos(a)) : ((n - 4) * 5 * Math.Cos(turn), (n - 4) * 5 * Math.Sin(turn));
                lugs.Add(new() { Name = $"M{i}-{n}", Mount = "M" + i, No = n, X = x + dx, Y = y + dy });
            }
        }
        var kinds = new[] { "resistor", "ceramic", "paper", "mica", "resistor" };
        var parts = Enumerable.Range(0, 600).Select(i =>
        {
            var a = lugs[random.Next(lugs.Count)];
            var near = lugs.Where(l => l != a && Math.Abs(l.X!.Value - a.X!.Value) + Math.Abs(l.Y!.Value - a.Y!.Value) < 55).ToList();
            return new Part { Name = "P" + i, KindAsWritten = kinds[i % 5], Value = i % 5 is 0 or 4 ? 4700 : 1e-9, Unit = i % 5 is 0 or 4 ? Unit.Ohm : Unit.Farad, LeadA = a.Name, LeadB = near[random.Next(near.Count)].Name };
        });
        var book = Book.Empty("big", "Big") with { Mounts = Table<Mount>.Of(mounts), Lugs = Table<Lug>.Of(lugs), Parts = Table<Part>.Of(parts) };
        var drawn = new DrawnSvg(book);
        Assert.Equal(600, drawn.Groups("part").Count);
        Assert.Equal(1200, drawn.LeadEnds().Count());
        Assert.Equal(0, drawn.Scene.Measures.LabelsOnLugs);
    }
}
