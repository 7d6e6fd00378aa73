using CsCheck;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Bodies;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Layout.Mounts;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Markings.Colours;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Tests.Layout;

/// <summary>Geometry and looks of single things.</summary>
public class ShapesTests
{
    /// <summary>Source: geometry; points are made on a known circle.</summary>
    [Fact]
    public void A_circle_is_found_again_from_points_on_it() =>
        Gen.Select(Gen.Double[-500, 500], Gen.Double[-500, 500], Gen.Double[2, 60], Gen.Double[0, 6.28], Gen.Int[3, 12]).Sample((x, y, r, turn, n) =>
        {
            var fit = BestFit.Circle([.. Enumerable.Range(0, n).Select(k => new Pt(x + r * Math.Cos(turn + k * 0.5), y + r * Math.Sin(turn + k * 0.5)))]);
            Assert.NotNull(fit);
            Assert.True(fit.Value.Centre.To(new(x, y)) < 1e-4 * r + 1e-6 && Math.Abs(fit.Value.Radius - r) < 1e-4 * r);
        });

    [Fact]
    public void Points_on_a_line_are_no_circle() => Assert.Null(BestFit.Circle([new(0, 0), new(10, 5), new(20, 10), new(30, 15)]));

    /// <summary>Source: geometry; overlap of rectangles by counting a fine raster.</summary>
    [Fact]
    public void Shared_area_of_two_bodies_agrees_with_counting()
    {
        var slab = Gen.Select(Gen.Double[-5, 5], Gen.Double[-5, 5], Gen.Double[0, 6.28], Gen.Double[2, 12], Gen.Double[2, 8], (x, y, a, l, w) => new Slab(new(x, y), new(Math.Cos(a), Math.Sin(a)), l, w));
        Gen.Select(slab, slab).Sample((a, b) =>
        {
            const double step = 0.1;
            double counted = 0;
            for (var x = -14.0; x < 14; x += step)
                for (var y = -14.0; y < 14; y += step)
                    if (a.DistanceTo(new(x, y)) < 0 && b.DistanceTo(new(x, y)) < 0) counted += step * step;
            Assert.Equal(counted, a.SharedArea(b), 1.5);
            Assert.Equal(a.SharedArea(b), b.SharedArea(a), 1e-6);
            Assert.Equal(a.SharedArea(b) > 0, a.DepthIn(b) > 0);
        }, iter: 60);
    }

    /// <summary>Source: IEC 60062, resistor colour code; 270 Ω ±5 % is red violet brown gold, 4.7 Ω ±10 % yellow violet gold silver.</summary>
    [Theory]
    [InlineData(270, 0.05, "red violet brown gold")]
    [InlineData(4.7, 0.1, "yellow violet gold silver")]
    [InlineData(1e6, 0.2, "brown black green")]
    [InlineData(22e6, 0.1, "red red blue silver")]
    [InlineData(0.47, 0.05, "yellow violet silver gold")]
    public void Bands_of_a_value(double ohms, double tolerance, string bands) => Assert.Equal(Paint.Code(bands), Paint.Bands(ohms, tolerance));

    [Fact]
    public void A_value_that_two_figures_cannot_say_has_no_four_bands()
    {
        Assert.Null(Paint.Bands(4990, 0.01));
        Assert.Null(Paint.Bands(double.NaN, null));
        Assert.Null(Paint.Bands(0, null));
    }

    [Fact]
    public void Words_that_are_no_colours_are_no_code()
    {
        Assert.Null(Paint.Code("half moon"));
        Assert.Null(Paint.Code("yellow - red +"));
        Assert.Equal(3, Paint.Code("red, red, orange")!.Length);
    }

    /// <summary>Source: common practice, no source: pins are numbered clockwise as seen from below, pin 1 after key or gap.</summary>
    [Fact]
    public void The_key_of_a_socket_lies_between_its_last_pin_and_its_first_however_it_is_turned() =>
        Gen.Select(Gen.OneOf(MountKind.OctalSocket, MountKind.LoctalSocket, MountKind.NovalSocket, MountKind.SevenPinSocket, MountKind.DuodecalSocket), Gen.Double[0, 6.28], Gen.Double[6, 16]).Sample((kind, turn, radius) =>
        {
            var pattern = SocketPattern.Of(kind)!;
            Pt At(int pin) { var a = turn + pattern.Angle(pin); return new(100 + radius * Math.Sin(a), 100 + radius * Math.Cos(a)); }
            var lugs = Enumerable.Range(1, pattern.Pins).Select(n => new PlacedLug(n, "V1-" + n, "V1", n, null, At(n), true)).ToArray();
            var figure = SocketFigure.Of(new(1, "V1", kind, "", [.. lugs], new(100, 100), true), pattern);
            Assert.True(figure.Centre.To(new(100, 100)) < 1e-6);
            var mark = figure.Shapes.OfType<OutlineShape>().Last();   // notch or key
            var middle = Pt.Mean([.. mark.Outline.Points().Distinct()]) - figure.Centre;
            var between = (At(1) + At(pattern.Pins)) * 0.5 - figure.Centre;
            Assert.True(middle.Unit.Dot(between.Unit) > 0.999);
        });

    [Theory]
    [InlineData(0.5, 1)]
    [InlineData(1, 2)]
    [InlineData(2, 10)]
    public void A_resistor_of_more_watts_is_larger(double less, double more)
    {
        static double Area(double watts) => BodyForm.Of(new() { Name = "R", KindAsWritten = "resistor", Value = 1000, Unit = Unit.Ohm, RatedWatts = watts }) is var f ? f.Length * f.Width : 0;
        Assert.True(Area(less) < Area(more));
    }

    [Fact]
    public void A_short_gap_between_lugs_draws_the_body_beside_it_and_not_over_the_lugs()
    {
        PlacedLug a = new(1, "A-1", "A", 1, null, new(0, 0), true), b = new(2, "A-2", "A", 2, null, new(9.5, 0), true);
        var part = new Part { Name = "C1", KindAsWritten = "paper", Value = 1e-7, Unit = Unit.Farad, RatedVolts = 400, LeadA = "A-1", LeadB = "A-2" };
        var body = new BodyPlacer([a, b], [], null).Place([new(part, [('a', a), ('b', b)])])[0];
        Assert.True(body.Slab.DistanceTo(a.At) > 1.4 && body.Slab.DistanceTo(b.At) > 1.4);
        Assert.Equal(a.At, body.Leads[0].Course.Strokes[^1].To);
        Assert.Equal(b.At, body.Leads[1].Course.Strokes[^1].To);
    }

    [Fact]
    public void A_free_body_lies_on_the_straight_line_between_its_lugs()
    {
        PlacedLug a = new(1, "A-1", "A", 1, null, new(0, 0), true), b = new(2, "B-1", "B", 1, null, new(40, 30), true);
        var part = new Part { Name = "R1", KindAsWritten = "resistor", Value = 1000, Unit = Unit.Ohm, LeadA = "A-1", LeadB = "B-1" };
        var body = new BodyPlacer([a, b], [], null).Place([new(part, [('a', a), ('b', b)])])[0];
        Assert.True(body.Slab.Centre.To(new(20, 15)) < 1e-9);
        Assert.Equal(9.5, body.Slab.Length, 1e-9);
    }

    [Fact]
    public void Parallel_parts_do_not_lie_on_each_other()
    {
        PlacedLug a = new(1, "A-1", "A", 1, null, new(0, 0), true), b = new(2, "B-1", "B", 1, null, new(35, 0), true);
        var parts = Enumerable.Range(1, 4).Select(i => new BodyPlacer.Request(new Part { Name = "R" + i, KindAsWritten = "resistor", Value = 1000, Unit = Unit.Ohm, LeadA = "A-1", LeadB = "B-1" }, [('a', a), ('b', b)])).ToArray();
        var bodies = new BodyPlacer([a, b], [], null).Place(parts);
        for (var i = 0; i < 4; i++)
            for (var j = i + 1; j < 4; j++)
                Assert.Equal(0, bodies[i].Slab.SharedArea(bodies[j].Slab));
    }

    /// <summary>Source: none; the notes are worded as people word them.</summary>
    [Theory]
    [InlineData("blue lead to V8-5, red lead to U-2", "blue red")]
    [InlineData("red; centre tap red-yellow to U-2", "red red")]   // two colours: the main one is drawn
    [InlineData("yellow and yellow", "yellow yellow")]
    public void Lead_colours_come_from_the_note(string note, string colours)
    {
        var part = new Part { Name = "T7P", KindAsWritten = "winding", LeadA = "V8-5", LeadB = "U-2", Note = note };
        var found = SharedBody.LeadColours(part, [('a', new(1, "V8-5", "V8", 5, null, default, true)), ('b', new(2, "U-2", "U", 2, null, default, true))]);
        Assert.Equal(Paint.In(colours), found);
    }
}
