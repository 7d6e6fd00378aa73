using System.Globalization;
using System.Text;
using Lugbook.Drawing;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Store.Exchange;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;

namespace Lugbook.Tests.Drawing;

/// <summary>How good the drawing is, in figures: demo books and the invented chassis that the program was not made on. Page: docs/accuracy/drawing.md.</summary>
public class DrawingReportTests(ITestOutputHelper output)
{
    private const double Readable = 1.5;   // mm of type on the sheet; the smallest that is meant to be read when printed to scale

    // Straight lines between lugs as the shelves of the release before proposed them, measured with this same count before they were replaced: length mm, crossings.
    private static readonly Dictionary<string, (double Length, int Crossings)> Shelves = new()
    {
        ["radio"] = (3502, 128), ["amp"] = (3918, 141), ["tv"] = (21783, 1281), ["hifi"] = (5770, 228), ["stage"] = (5251, 256), ["superhet"] = (5008, 176), ["tester"] = (4486, 275),
    };

    private static Book Named(string name)
    {
        var demo = Path.Combine(AppContext.BaseDirectory, "data", "demo", name);
        var read = BookFiles.ReadAsync(Directory.Exists(demo) ? demo : Path.Combine(AppContext.BaseDirectory, "unseen", name), CancellationToken.None).GetAwaiter().GetResult();
        return read.Book ?? throw new InvalidOperationException(string.Join(' ', read.Complaints));
    }

    [Fact]
    public void No_label_covers_a_lug_on_any_chassis_and_a_proposed_layout_is_shorter_and_crosses_less_than_shelves()
    {
        var page = new StringBuilder("""
            # How good the chassis drawing is

            Written by the test of `DrawingReportTests` with `LUGBOOK_WRITE_DOCS` naming the folder. radio, amp and tv are the demo books; the others were invented for tests, and the drawing was not made on them.

            ## Where everything was measured

            Overlap: area where bodies of loose parts lie on one another, of the area of all. A real chassis has parts in layers; how many of these overlaps the real one has nobody measured, so all of them are counted.
            Bodies over lugs: bodies that cover the middle of a lug. Crossings: leads and wires as drawn, beside straight lines from lug to lug. Text too small: print below 1.5 mm.

            | chassis | loose bodies | overlap | bodies over lugs | labels | labels over lugs | labels without a place | crossings drawn | crossings of straight lines | texts too small |
            |---|---|---|---|---|---|---|---|---|---|

            """);
        foreach (var name in Shelves.Keys)
        {
            var book = Named(name);
            var layout = LayoutStage.Run(book);
            var scene = ChassisDrawing.Draw(book, layout, null, DrawingOptions.Default);
            var m = scene.Measures;
            var texts = scene.Layers.SelectMany(l => l.Items).SelectMany(i => i.Shapes).OfType<TextShape>().ToArray();
            page.Append(CultureInfo.InvariantCulture, $"| {name} | {m.Bodies} | {m.OverlapArea:0} of {m.BodyArea:0} mm² | {m.BodiesOnLugs} | {m.Labels} | {m.LabelsOnLugs} | {m.LabelsDropped} | {Drawn(layout)} | {Crossings(Straight(book, layout))} | {texts.Count(t => t.Size < Readable)} of {texts.Length} |\n");
            Assert.Equal(0, m.LabelsOnLugs);
        }
        page.Append("""

            ## Where nothing was measured

            The same books without any coordinates. Straight lines from lug to lug, parts and wires, bonds left out: total length and crossings; beside the shelves that were proposed before, and the chassis as it was built.

            | chassis | length: shelves | length: now | length: as built | crossings: shelves | crossings: now | crossings: as built |
            |---|---|---|---|---|---|---|

            """);
        foreach (var (name, shelves) in Shelves)
        {
            var book = Named(name);
            var built = Straight(book, LayoutStage.Run(book));
            var now = Straight(book, LayoutStage.Run(book with { Lugs = Table<Lug>.Of(book.Lugs.Select(l => l with { X = null, Y = null })) }));
            page.Append(CultureInfo.InvariantCulture, $"| {name} | {shelves.Length:0} mm | {Length(now):0} mm | {Length(built):0} mm | {shelves.Crossings} | {Crossings(now)} | {Crossings(built)} |\n");
            Assert.True(Length(now) < shelves.Length && Crossings(now) < shelves.Crossings, name);
        }
        output.WriteLine(page.ToString());
        if (Environment.GetEnvironmentVariable("LUGBOOK_WRITE_DOCS") is { Length: > 0 } folder) File.WriteAllText(Path.Combine(folder, "drawing.md"), page.ToString());
    }

    [Fact]
    public void Suspects_bear_rank_and_weight_in_print_and_cover_no_lug()
    {
        var drawn = new DrawnSvg(DemoBooks.Read("radio"), new() { Suspects = [new("C8", 0.2), new("R6", 0.7), new("V3-2", 0.001), new("nothing of the kind", 0.9)] });
        var words = drawn.Scene.Layers.SelectMany(l => l.Items).SelectMany(i => i.Shapes).OfType<TextShape>().Where(t => t.Class == "suspect-word").ToList();
        Assert.Equal(["1: 70 %", "2: 20 %", "3: < 1 %"], words.Select(t => t.Text));
        Assert.All(words, w => Assert.All(drawn.Lugs(), l => Assert.True(Box.Of(w.At, 8, 2.6).DistanceTo(l.Value.At) > l.Value.Radius, $"{w.Text} on {l.Key}")));
    }

    [Fact]
    public void Values_and_bands_can_be_switched_off_and_lugs_stay_where_they_are()
    {
        var book = DemoBooks.Read("radio");
        var plain = new DrawnSvg(book);
        var bare = new DrawnSvg(book, new() { Values = false, Bands = false });
        int Bands(DrawnSvg drawn) => drawn.Scene.Layers.SelectMany(l => l.Items).SelectMany(i => i.Shapes).Count(s => s is OutlineShape { Class: "band" });
        Assert.True(Bands(plain) > 20);
        Assert.Equal(0, Bands(bare));
        Assert.DoesNotContain(bare.Labels(), l => l.Text.Contains('Ω', StringComparison.Ordinal));
        Assert.Equal(plain.Lugs(), bare.Lugs());
    }

    private static List<(Pt A, Pt B)> Straight(Book book, ChassisLayout layout)
    {
        List<(Pt, Pt)> lines = [];
        foreach (var part in book.Parts)
            if (part.Leads.Select(l => layout.Places.Find(l.Lug)!.At).ToArray() is [var first, .. var others]) lines.AddRange(others.Select(o => (first, o)));
        lines.AddRange(book.Wires.Where(w => w.Kind != WireKind.Bond).Select(w => (layout.Places.Find(w.From)!.At, layout.Places.Find(w.To)!.At)));
        return lines;
    }

    /// <summary>Crossings of different leads and wires as drawn, each pair counted once.</summary>
    private static int Drawn(ChassisLayout layout)
    {
        List<List<Pt>> courses = [.. layout.Bodies.SelectMany(b => b.Leads).Select(l => l.Points), .. layout.Wires.Where(w => w.Course is not null).Select(w => w.Course!.Points(4).ToList())];
        var boxes = courses.ConvertAll(c => Box.Around(c));
        var count = 0;
        for (var i = 0; i < courses.Count; i++)
            for (var j = i + 1; j < courses.Count; j++)
                if (boxes[i].Meets(boxes[j]) && Cross(courses[i], courses[j])) count++;
        return count;
    }

    private static bool Cross(List<Pt> a, List<Pt> b) =>
        Enumerable.Range(1, a.Count - 1).Any(i => Enumerable.Range(1, b.Count - 1).Any(j => Crosses((a[i - 1], a[i]), (b[j - 1], b[j]))));

    private static double Length(List<(Pt A, Pt B)> lines) => lines.Sum(l => l.A.To(l.B));
    private static int Crossings(List<(Pt A, Pt B)> lines) => lines.Select((l, i) => lines.Skip(i + 1).Count(o => Crosses(l, o))).Sum();

    private static bool Crosses((Pt A, Pt B) s, (Pt A, Pt B) t)
    {
        static double Side(Pt a, Pt b, Pt c) => (b.X - a.X) * (c.Y - a.Y) - (b.Y - a.Y) * (c.X - a.X);
        return Side(s.A, s.B, t.A) * Side(s.A, s.B, t.B) < -1e-6 && Side(t.A, t.B, s.A) * Side(t.A, t.B, s.B) < -1e-6;
    }
}
