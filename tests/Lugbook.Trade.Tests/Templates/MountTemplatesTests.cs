using System.Globalization;
using CsCheck;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Chassis.Templates;

namespace Lugbook.Trade.Tests.Templates;

/// <summary>
/// Source: a public table of valve bases (electronics-notes.com, valve sockets and bases): B7G 9.5 mm circle, 45° from pin to pin;
/// B9A 11.9 mm, 36°, 72° between 9 and 1; octal 17.5 mm, 45°. Loctal, duodecal: from memory. Strips and the rest: common practice, no source.
/// </summary>
public class MountTemplatesTests
{
    public static TheoryData<string> Sockets => ["octal", "loctal", "noval", "7-pin", "duodecal"];

    private static double Degrees(double x, double y) => (Math.Atan2(x, y) * 180 / Math.PI + 360) % 360;

    [Theory]
    [InlineData("octal", 17.5, 8, 45, 45)]
    [InlineData("noval", 11.9, 9, 36, 72)]
    [InlineData("7-pin", 9.5, 7, 45, 90)]
    public void Pins_lie_as_the_public_table_has_them(string word, double diameter, int pins, double step, double gap)
    {
        var lugs = MountTemplates.Socket(word)!.Lugs;
        Assert.Equal(pins, lugs.Length);
        // The tags lie a stated distance outside the pins.
        Assert.All(lugs, l => Assert.Equal((diameter / 2) + PinCircle.TagReachMillimetres, Math.Sqrt((l.X * l.X) + (l.Y * l.Y)), 6));
        var angles = lugs.Select(l => Degrees(l.X, l.Y)).ToArray();
        for (var i = 1; i < pins; i++) Assert.Equal(step, angles[i] - angles[i - 1], 6);
        Assert.Equal(gap, 360 - angles[^1] + angles[0], 6);
    }

    [Theory, MemberData(nameof(Sockets))]
    public void Key_or_gap_lies_midway_between_the_last_pin_and_pin_1_and_numbers_run_clockwise(string word)
    {
        var lugs = MountTemplates.Socket(word)!.Lugs;
        var (first, last) = (Degrees(lugs[0].X, lugs[0].Y), Degrees(lugs[^1].X, lugs[^1].Y));
        Assert.Equal(first, 360 - last, 6);
        Assert.Equal(lugs.Length, lugs.Select(l => l.No).Distinct().Count());
        Assert.Equal(lugs.OrderBy(l => Degrees(l.X, l.Y)).Select(l => l.No), Enumerable.Range(1, lugs.Length));
    }

    [Theory]
    [InlineData("octal", "octal socket", 3.0)]
    [InlineData("noval", "noval socket", 3.5)]
    [InlineData("7-pin", "7-pin socket", 3.5)]
    public void Sockets_of_the_invented_chassis_are_the_template_turned(string word, string kind, double farthest)
    {
        var template = MountTemplates.Socket(word)!;
        var checkedSockets = 0;
        foreach (var file in Directory.EnumerateFiles(Path.Combine(AppContext.BaseDirectory, "data", "demo"), "lugs.csv", SearchOption.AllDirectories))
            foreach (var socket in File.ReadLines(file).Skip(1).Select(l => l.Split(',')).Where(f => f[2] == kind && !f[0].EndsWith("-cap", StringComparison.Ordinal)).GroupBy(f => f[1]))
            {
                var pins = socket.ToDictionary(f => int.Parse(f[3], CultureInfo.InvariantCulture),
                    f => { var n = f.Select(c => double.TryParse(c, NumberStyles.Float, CultureInfo.InvariantCulture, out var v) ? v : double.NaN).Skip(4).Where(double.IsFinite).ToArray(); return (X: n[^2], Y: n[^1]); });
                if (pins.Count != template.Lugs.Length) continue;
                // The middle from opposite pins, or from three of them; the turn from pin 1.
                var (cx, cy) = Middle([.. pins.OrderBy(p => p.Key).Select(p => p.Value)]);
                var turn = Degrees(pins[1].X - cx, pins[1].Y - cy) - Degrees(template.Lugs[0].X, template.Lugs[0].Y);
                var placed = template.Place("V", cx, cy, turn).Lugs;
                Assert.All(placed, l => Assert.True(Math.Sqrt(Math.Pow(l.X!.Value - pins[l.No!.Value].X, 2) + Math.Pow(l.Y!.Value - pins[l.No.Value].Y, 2)) < farthest, $"{file} {socket.Key}-{l.No}"));
                checkedSockets++;
            }
        Assert.True(checkedSockets >= 2, $"{checkedSockets} sockets of kind {kind} in the demo books");
    }

    /// <summary>The centre of the circle through the first, a middle and the last pin.</summary>
    private static (double X, double Y) Middle((double X, double Y)[] p)
    {
        var (a, b, c) = (p[0], p[p.Length / 2], p[^1]);
        var d = 2 * ((a.X * (b.Y - c.Y)) + (b.X * (c.Y - a.Y)) + (c.X * (a.Y - b.Y)));
        var (sa, sb, sc) = ((a.X * a.X) + (a.Y * a.Y), (b.X * b.X) + (b.Y * b.Y), (c.X * c.X) + (c.Y * c.Y));
        return (((sa * (b.Y - c.Y)) + (sb * (c.Y - a.Y)) + (sc * (a.Y - b.Y))) / d, ((sa * (c.X - b.X)) + (sb * (a.X - c.X)) + (sc * (b.X - a.X))) / d);
    }

    [Fact]
    public void A_strip_has_its_pitch_its_middle_and_its_foot()
    {
        var (mount, lugs) = MountTemplates.TagStrip(5, 3).Place("A", 120, 45);
        Assert.Equal(MountKind.TagStrip, mount.Kind);
        Assert.Equal([101.0, 110.5, 120.0, 129.5, 139.0], lugs.Select(l => l.X!.Value));
        Assert.All(lugs, l => Assert.Equal(45, l.Y));
        Assert.Equal(["A-3"], lugs.Where(l => l.Function == "mounting foot").Select(l => l.Name));
    }

    [Fact]
    public void A_strip_turned_by_90_degrees_runs_to_the_front()
    {
        // Clockwise as seen from beneath, x right and y to the rear: right turns to front.
        var lugs = MountTemplates.TagStrip(3).Place("A", 100, 50, 90).Lugs;
        Assert.Equal([(100.0, 59.5), (100.0, 50.0), (100.0, 40.5)], lugs.Select(l => (l.X!.Value, l.Y!.Value)));
    }

    [Fact]
    public void Without_a_place_the_lugs_have_none()
    {
        Assert.All(MountTemplates.Octal.Place("V3").Lugs, l => Assert.True(l is { X: null, Y: null }));
        Assert.All(MountTemplates.Octal.Place("V3", 5).Lugs, l => Assert.True(l is { X: null, Y: null }));
    }

    [Fact]
    public void Every_kind_is_one_that_the_book_knows_and_names_a_source()
    {
        MountTemplate[] all = [MountTemplates.Octal, MountTemplates.Loctal, MountTemplates.Noval, MountTemplates.SevenPin, MountTemplates.Duodecal, MountTemplates.TagStrip(4),
            MountTemplates.Can(3), MountTemplates.Control, MountTemplates.Switch(), MountTemplates.Jack(), MountTemplates.FuseHolder, MountTemplates.LampHolder, MountTemplates.LineCord,
            MountTemplates.EarthLug, MountTemplates.IfCan, MountTemplates.Transformer(7), MountTemplates.Speaker, MountTemplates.ChassisMetal];
        Assert.All(all, t => Assert.NotEqual(MountKind.Other, MountKinds.Of(t.KindAsWritten)));
        Assert.All(all, t => Assert.False(string.IsNullOrWhiteSpace(t.Source)));
        Assert.Equal(all.Length, all.Select(t => MountKinds.Of(t.KindAsWritten)).Distinct().Count());
    }

    [Fact]
    public void No_two_lugs_of_a_template_lie_closer_than_4_mm()
    {
        // Common practice, no source: an iron's tip must fit between them.
        IEnumerable<MountTemplate> all = [.. Enumerable.Range(1, 4).Select(MountTemplates.Can), MountTemplates.Octal, MountTemplates.Noval, MountTemplates.SevenPin, MountTemplates.Duodecal, MountTemplates.IfCan, MountTemplates.Switch(12)];
        foreach (var t in all)
            foreach (var a in t.Lugs)
                foreach (var b in t.Lugs.Where(b => b.No > a.No))
                    Assert.True(Math.Sqrt(Math.Pow(a.X - b.X, 2) + Math.Pow(a.Y - b.Y, 2)) > 4, $"{t.KindAsWritten} {a.No} {b.No}");
    }

    [Fact]
    public void Turning_and_placing_keeps_every_distance() =>
        Gen.Select(Gen.Int[1, 10], Gen.Double[-500, 500], Gen.Double[-500, 500], Gen.Double[-720, 720]).Sample((n, x, y, turn) =>
        {
            var lugs = MountTemplates.TagStrip(n).Place("A", x, y, turn).Lugs;
            for (var i = 1; i < n; i++)
                if (Math.Abs(Math.Sqrt(Math.Pow(lugs[i].X!.Value - lugs[i - 1].X!.Value, 2) + Math.Pow(lugs[i].Y!.Value - lugs[i - 1].Y!.Value, 2)) - MountTemplates.StripPitchMillimetres) > 0.15) return false;
            return true;
        });

    [Theory]
    [InlineData(0), InlineData(11)]
    public void A_strip_outside_its_range_is_refused(int lugs) => Assert.Throws<ArgumentOutOfRangeException>(() => MountTemplates.TagStrip(lugs));
}
