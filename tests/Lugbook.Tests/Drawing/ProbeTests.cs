using Lugbook.Drawing;
using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Tests.Drawing;

/// <summary>Source: the drawing's own promise: each probe points at its lug and is told by shape and word, not by colour alone.</summary>
public class ProbeTests
{
    private static Scene Draw(Turn turn = Turn.None) => ChassisDrawing.Draw(DemoBooks.Read("amp"), null, DrawingOptions.Default with { Part = "R7", Probes = ("R5-2", "B-5"), Rotate = turn });

    private static IEnumerable<Shape> Marks(Scene scene) => scene.Layers.Single(l => l.Name == LayerNames.Highlight).Items.SelectMany(i => i.Shapes).Where(s => s.Class.StartsWith("probe", StringComparison.Ordinal));

    [Theory]
    [InlineData(Turn.None)]
    [InlineData(Turn.Quarter)]
    public void Each_needle_ends_at_its_lug(Turn turn)
    {
        var scene = Draw(turn);
        foreach (var (colour, lug) in new[] { ("red", "R5-2"), ("black", "B-5") })
        {
            var needle = Marks(scene).OfType<OutlineShape>().First(s => s.Class == $"probe {colour}");
            Assert.True(needle.Outline.Strokes[0].To.To(scene.LugBoxes[lug].Centre) < scene.LugBoxes[lug].Width / 2, colour);
        }
    }

    [Fact]
    public void Red_has_a_round_head_black_a_square_one_and_both_have_their_word()
    {
        var marks = Marks(Draw()).ToArray();
        Assert.Equal(["probe red"], marks.OfType<DiscShape>().Select(d => d.Class));
        Assert.Equal(["black −", "red +"], marks.OfType<TextShape>().Select(t => t.Text).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Cut_down_to_the_part_what_lies_far_away_is_left_out_and_the_part_stays()
    {
        var whole = Draw();
        var near = whole.Region(["R7", "R5-2", "B-5"]);
        var cut = whole.Cropped(near);
        Assert.Equal(near, cut.Bounds);
        int Count(Scene s) => s.Layers.Sum(l => l.Items.Length);
        Assert.InRange(Count(cut), 10, Count(whole) / 2);
        Assert.Contains(cut.Layers.SelectMany(l => l.Items), i => i is { Kind: ItemKind.Part, Name: "R7" });
        Assert.DoesNotContain(cut.Layers.SelectMany(l => l.Items), i => i.Kind == ItemKind.Lug && !whole.LugBoxes[i.Name].Grown(3).Meets(near));
    }
}
