using System.Globalization;
using Lugbook.Drawing;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Map;
using Lugbook.Trade;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;
using Lugbook.Trade.Work;

namespace Lugbook.Tests.Drawing;

/// <summary>Source: the drawing's own promises (issue 2, item 8; issue 6), held against the SVG that it writes. Data: the three invented demo books.</summary>
public class ChassisDrawingTests(ITestOutputHelper output)
{
    public static TheoryData<string> Demos => ["radio", "amp", "tv"];

    [Theory, MemberData(nameof(Demos))]
    public void Every_lead_ends_on_its_lug(string demo)
    {
        var book = DemoBooks.Read(demo);
        foreach (var turn in new[] { Turn.None, Turn.Quarter })
        {
            var drawn = new DrawnSvg(book, DrawingOptions.Default with { Rotate = turn, Mirror = turn == Turn.Quarter });
            var lugs = drawn.Lugs();
            var ends = drawn.LeadEnds().ToLookup(e => e.Part);
            foreach (var part in book.Parts.Where(p => p.Kind != PartKind.Valve))
            {
                foreach (var (_, letter, end) in ends[part.Name])
                {
                    var lug = part.Leads.Single(l => l.Letter == letter).Lug;
                    Assert.True(end.To(lugs[lug].At) < 0.2, $"{part.Name} lead {letter} ends {end.To(lugs[lug].At):0.00} mm off {lug}");
                }
                // A can's section shows at its own lug alone: the rest of it is inside the can.
                var inCan = part.Kind == PartKind.Electrolytic && part.Group is not null;
                Assert.Equal(inCan ? 1 : part.Leads.Length, ends[part.Name].Count());
            }
        }
    }

    [Theory, MemberData(nameof(Demos))]
    public void Every_row_of_the_book_is_there_exactly_once(string demo)
    {
        var book = DemoBooks.Read(demo);
        var drawn = new DrawnSvg(book);
        Same("lug", book.Lugs);
        Same("part", book.Parts);
        Same("wire", book.Wires);
        Same("mount", book.Mounts);
        void Same(string kind, IEnumerable<Row> rows)
        {
            var groups = drawn.Groups(kind).SelectMany(g => g).ToList();
            Assert.Equal(rows.Select(r => r.Name + "#" + r.Id.ToString(CultureInfo.InvariantCulture)).Order(),
                groups.Select(g => (string)g.Attribute("data-" + kind)! + "#" + (string)g.Attribute("data-id")!).Order());
            Assert.All(groups, g => Assert.False(string.IsNullOrWhiteSpace((string?)g.Attribute("aria-label"))));
        }
    }

    [Theory, MemberData(nameof(Demos))]
    public void No_label_touches_a_lug_and_crowding_is_reported(string demo)
    {
        foreach (var turn in Enum.GetValues<Turn>())
        {
            var drawn = new DrawnSvg(DemoBooks.Read(demo), DrawingOptions.Default with { Rotate = turn });
            var lugs = drawn.Lugs();
            var touching = drawn.Labels().SelectMany(l => lugs.Where(g => l.Box.DistanceTo(g.Value.At) < g.Value.Radius).Select(g => $"{l.Text} on {g.Key}")).ToList();
            var m = drawn.Scene.Measures;
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{demo} {turn}: {m.Bodies} loose bodies, {m.OverlapArea:0.0} of {m.BodyArea:0} mm2 lie on another, {m.BodiesOnLugs} on the middle of a lug; {m.Labels} labels, {m.LabelsDropped} without a place, {touching.Count} touching a lug"));
            Assert.Empty(touching);
            Assert.Equal(0, m.LabelsOnLugs);
            // Not a promise of the trade: a bound that a change for the worse would break. The real chassis has parts in layers.
            Assert.True(m.OverlapArea < 0.02 * m.BodyArea, $"{m.OverlapArea:0} mm2 of overlap");
            Assert.True(m.LabelsDropped <= m.Labels / 50, $"{m.LabelsDropped} labels dropped");
        }
    }

    [Theory, MemberData(nameof(Demos))]
    public void Turning_and_mirroring_keep_every_distance_and_all_text_upright(string demo)
    {
        var book = DemoBooks.Read(demo);
        var plain = new DrawnSvg(book).Lugs();
        var names = plain.Keys.Order().ToList();
        foreach (var turn in Enum.GetValues<Turn>())
            foreach (var mirror in new[] { false, true })
            {
                var drawn = new DrawnSvg(book, new() { Rotate = turn, Mirror = mirror });
                foreach (var text in drawn.Scene.Layers.SelectMany(l => l.Items).SelectMany(i => i.Shapes).OfType<TextShape>())
                    Assert.True(text.Direction.X > -1e-6 && !(text.Direction.X < 1e-6 && text.Direction.Y > 0), $"{text.Text} reads along {text.Direction}");
                var turned = drawn.Lugs();
                for (var i = 1; i < names.Count; i++)
                    Assert.Equal(plain[names[0]].At.To(plain[names[i]].At), turned[names[0]].At.To(turned[names[i]].At), 0.03);
            }
    }

    [Fact]
    public void Mirroring_twice_is_the_same_picture()
    {
        var book = DemoBooks.Read("radio");
        var plain = new DrawnSvg(book);
        var mirrored = new DrawnSvg(book, new() { Mirror = true });
        foreach (var (name, lug) in plain.Lugs())
        {
            var m = mirrored.Lugs()[name].At;
            Assert.Equal(lug.At.X, -m.X, 0.011);
            Assert.Equal(lug.At.Y, m.Y, 0.011);
        }
        foreach (var (part, box) in plain.Scene.PartBoxes)
        {
            Assert.Equal(box.Left, -mirrored.Scene.PartBoxes[part].Right, 1e-6);
            Assert.Equal(box.Top, mirrored.Scene.PartBoxes[part].Top, 1e-6);
        }
    }

    [Fact]
    public void Seen_from_beneath_right_is_right_and_the_rear_is_up_and_a_millimetre_is_a_millimetre()
    {
        var lugs = new DrawnSvg(DemoBooks.Read("radio")).Lugs();
        Assert.Equal(200.2 - 12, lugs["V1-1"].At.X - lugs["A-1"].At.X, 0.011);
        Assert.Equal(-(76.2 - 38), lugs["V1-1"].At.Y - lugs["A-1"].At.Y, 0.011);
        var above = new DrawnSvg(DemoBooks.Read("radio"), new() { Mirror = true }).Lugs();
        Assert.True(above["V1-1"].At.X < above["A-1"].At.X);
        // Clockwise by a quarter: the rear goes to the right, and what was at the right goes down.
        var turned = new DrawnSvg(DemoBooks.Read("radio"), new() { Rotate = Turn.Quarter }).Lugs();
        Assert.True(turned["V1-1"].At.X > turned["A-1"].At.X && turned["V1-1"].At.Y > turned["A-1"].At.Y);
    }

    [Fact]
    public void Numbers_are_written_alike_in_every_culture()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
            var plain = new DrawnSvg(DemoBooks.Read("amp")).Text;
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(plain, new DrawnSvg(DemoBooks.Read("amp")).Text);
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("sv-SE");
            Assert.Equal(plain, new DrawnSvg(DemoBooks.Read("amp")).Text);
        }
        finally { CultureInfo.CurrentCulture = before; }
    }

    [Fact]
    public void An_empty_book_is_a_friendly_scene()
    {
        var drawn = new DrawnSvg(Book.Empty("new", "New set"));
        Assert.Contains("Enter a part", drawn.Text, StringComparison.Ordinal);
        Assert.True(drawn.Scene.Bounds.Width > 10 && drawn.Scene.Bounds.Height > 10);
    }

    [Fact]
    public void A_layer_that_is_not_wanted_is_empty_and_the_rest_stays_where_it_was()
    {
        var book = DemoBooks.Read("radio");
        var drawn = new DrawnSvg(book, new() { Layers = [LayerNames.Mounts, LayerNames.Lugs] });
        Assert.Empty(drawn.Layer(LayerNames.Parts));
        Assert.Empty(drawn.Layer(LayerNames.Labels));
        Assert.Equal(new DrawnSvg(book).Lugs(), drawn.Lugs());
    }

    [Fact]
    public void The_states_of_the_work_differ_without_their_colours()
    {
        var book = DemoBooks.Read("radio");
        string Drawn(PositionWork? work)
        {
            var svg = new DrawnSvg(book with { Work = work is null ? Table<PositionWork>.Empty : Table<PositionWork>.Of([work]) }, new() { ShowWork = true });
            // What is drawn, less every class and colour.
            return string.Join('\n', svg.Groups("part")["C3"].Single().Elements().Where(e => e.Name.LocalName != "title").Select(e => e.Name.LocalName + e.Attribute("d")?.Value + e.Value));
        }
        var states = new[] { null, new PositionWork { Name = "C3", Decision = Decision.Goes }, new PositionWork { Name = "C3", Decision = Decision.Goes, Done = true },
            new PositionWork { Name = "C3", Decision = Decision.Stays }, new PositionWork { Name = "C3", Decision = Decision.MeasureFirst } };
        Assert.Equal(5, states.Select(Drawn).Distinct().Count());
    }

    [Fact]
    public void A_highlighted_part_takes_its_lugs_with_it_and_dims_the_rest()
    {
        var drawn = new DrawnSvg(DemoBooks.Read("radio"), new() { Part = "c8" });
        string[] Lit(string kind) => [.. drawn.Groups(kind).SelectMany(g => g).Where(g => ((string?)g.Attribute("class") ?? "").Split(' ').Contains("hl")).Select(g => (string)g.Attribute("data-" + kind)!).Order()];
        Assert.True(drawn.Scene.Dims);
        Assert.Equal(["C8"], Lit("part"));
        Assert.Equal(["R4-2", "V3-2"], Lit("lug"));
        Assert.False(new DrawnSvg(DemoBooks.Read("radio"), new() { Part = "no such part" }).Scene.Dims);
    }

    /// <summary>Source: the wires of the demo radio, followed by hand: W8 to W13 join these seven lugs.</summary>
    [Fact]
    public void With_a_map_a_node_lights_all_its_lugs_its_wires_and_its_parts()
    {
        var book = DemoBooks.Read("radio");
        var map = MapStage.Run(book, new ValveHandbook([]));
        var drawn = new DrawnSvg(book, new() { Node = "V4-4" }, map);
        string[] Lit(string kind) => [.. drawn.Groups(kind).SelectMany(g => g).Where(g => ((string?)g.Attribute("class") ?? "").Split(' ').Contains("hl")).Select(g => (string)g.Attribute("data-" + kind)!).Order(StringComparer.Ordinal)];
        Assert.Equal(["B-1", "K1-2", "T1-2", "T2-2", "V1-4", "V2-6", "V4-4"], Lit("lug"));
        Assert.Equal(["W10", "W11", "W12", "W13", "W8", "W9"], Lit("wire"));
        Assert.Equal(["C12B", "R6", "R9", "T1CP", "T1P", "T2CP", "T2P"], Lit("part"));
        Assert.Equal(["V4-4"], new DrawnSvg(book, new() { Node = "V4-4" }).Groups("lug").SelectMany(g => g).Where(g => ((string?)g.Attribute("class") ?? "").Contains("hl", StringComparison.Ordinal)).Select(g => (string)g.Attribute("data-lug")!));
    }

    [Fact]
    public void A_stage_is_the_valve_and_what_hangs_on_its_pins()
    {
        var book = DemoBooks.Read("radio");
        var drawn = new DrawnSvg(book, new() { Stage = "V3" }, MapStage.Run(book, new ValveHandbook([])));
        var lit = drawn.Groups("part").SelectMany(g => g).Where(g => ((string?)g.Attribute("class") ?? "").Split(' ').Contains("hl")).Select(g => (string)g.Attribute("data-part")!).ToHashSet();
        Assert.Superset(new HashSet<string> { "V3", "R5", "R6", "C8", "C9", "C10", "T2S" }, lit);
        Assert.DoesNotContain("R9", lit);
        Assert.DoesNotContain("V1", lit);
    }

    [Fact]
    public void Notes_stand_at_their_lugs()
    {
        var drawn = new DrawnSvg(DemoBooks.Read("radio"), new() { LugNotes = DrawingOptions.Default.LugNotes.Add("V5-8", "123 V") });
        var note = drawn.Labels().Single(l => l.Text == "123 V");
        Assert.InRange(note.Box.DistanceTo(drawn.Lugs()["V5-8"].At), 1, 6);
    }

    [Fact]
    public void A_region_holds_what_it_was_asked_for()
    {
        var scene = new DrawnSvg(DemoBooks.Read("tv")).Scene;
        var box = scene.Region(["v12"], 5);
        Assert.All(scene.LugBoxes.Where(l => l.Key.StartsWith("V12-", StringComparison.Ordinal)), l => Assert.True(box.Holds(l.Value.Centre)));
        Assert.True(box.Width < scene.Bounds.Width / 4);
        Assert.Equal(scene.Bounds, scene.Region(["nothing of the kind"]));
    }
}
