using CsCheck;
using Lugbook.Restoration.Square;

namespace Lugbook.Restoration.Tests.Square;

/// <summary>A pinhole camera over a flat chassis: what it sees is known to the last digit, so what is squared up can be held against it.</summary>
/// <remarks>Source: the pinhole camera, x = K·(R·X + t), Hartley and Zisserman 6.1; the chassis is the plane z = 0.</remarks>
public class SquareTests
{
    private static readonly (string Lug, double X, double Y)[] Lugs =
        [("A-1", 20, 15), ("A-5", 95, 22), ("B-1", 250, 18), ("V1-3", 60, 120), ("V2-5", 150, 95), ("V3-8", 240, 130), ("C-2", 28, 170), ("C-4", 140, 175)];

    /// <summary>Chassis mm to pixels of a 12-megapixel camera at this tilt about the x axis and turn about the line of sight, degrees.</summary>
    private static (double X, double Y) See(double x, double y, double tilt, double turn, double distance = 500)
    {
        const double focal = 3200;   // pixels
        double a = tilt * Math.PI / 180, b = turn * Math.PI / 180;
        double cx = x - 140, cy = -(y - 95);                        // the photograph's y runs down
        (cx, cy) = (cx * Math.Cos(b) - cy * Math.Sin(b), cx * Math.Sin(b) + cy * Math.Cos(b));
        var depth = distance + cy * Math.Sin(a);
        return (2000 + focal * cx / depth, 1500 + focal * cy * Math.Cos(a) / depth);
    }

    private static Pick Taken(int lug, double tilt, double turn, double dx = 0, double dy = 0)
    {
        var (name, x, y) = Lugs[lug];
        var (px, py) = See(x, y, tilt, turn);
        return new(name, px + dx, py + dy, x, y);
    }

    private static Pick[] All(double tilt, double turn, params int[] lugs) => [.. lugs.Select(i => Taken(i, tilt, turn))];

    [Fact]
    public void Four_lugs_of_a_tilted_photograph_put_every_other_lug_within_a_thousandth_of_a_pixel() =>
        Gen.Select(Gen.Double[-40, 40], Gen.Double[-180, 180]).Sample((tilt, turn) =>
        {
            var squared = SquareStage.Run(All(tilt, turn, 0, 2, 6, 5));
            Assert.Null(squared.Refusal);
            foreach (var (_, x, y) in Lugs)
            {
                var (seen, shown) = (See(x, y, tilt, turn), squared.ToPixels!.Map(x, y));
                Assert.True(Math.Abs(seen.X - shown.X) < 1e-3 && Math.Abs(seen.Y - shown.Y) < 1e-3);
                var (mx, my) = squared.ToChassis!.Map(seen.X, seen.Y);
                Assert.True(Math.Abs(mx - x) < 1e-4 && Math.Abs(my - y) < 1e-4);
            }
        });

    [Fact]
    public void Taps_that_err_by_half_a_pixel_stay_below_two_pixels_all_over_the_chassis() =>
        Gen.Select(Gen.Double[-35, 35], Gen.Double[-180, 180], Gen.Select(Gen.Double[-0.5, 0.5], Gen.Double[-0.5, 0.5]).Array[8]).Sample((tilt, turn, err) =>
        {
            var squared = SquareStage.Run([.. Enumerable.Range(0, 8).Select(i => Taken(i, tilt, turn, err[i].Item1, err[i].Item2))]);
            foreach (var (_, x, y) in Lugs)
            {
                var (seen, shown) = (See(x, y, tilt, turn), squared.ToPixels!.Map(x, y));
                Assert.True(Math.Sqrt(Math.Pow(seen.X - shown.X, 2) + Math.Pow(seen.Y - shown.Y, 2)) < 2);
            }
        });

    [Fact]
    public void Three_lugs_square_a_photograph_up_that_was_taken_straight_and_say_what_they_cannot_tell()
    {
        var squared = SquareStage.Run(All(0, 30, 0, 2, 6));
        var (x, y) = squared.ToPixels!.Map(150, 95);
        var seen = See(150, 95, 0, 30);
        Assert.Equal((seen.X, seen.Y), (x, y), (a, b) => Math.Abs(a.Item1 - b.Item1) < 1e-6 && Math.Abs(a.Item2 - b.Item2) < 1e-6);
        Assert.Contains("nothing is left over", Assert.Single(squared.Remarks), StringComparison.Ordinal);
    }

    [Fact]
    public void Least_squares_is_the_least_no_small_change_of_the_map_fits_better()
    {
        Pick[] picks = [.. Enumerable.Range(0, 8).Select(i => Taken(i, 20, 10, i % 3 - 1, i % 2 * 2 - 1))];
        var best = SquareStage.Run(picks).ToPixels!;
        double Sum(Homography h) => picks.Sum(p => h.Map(p.X, p.Y) is var (x, y) ? Math.Pow(x - p.PixelX, 2) + Math.Pow(y - p.PixelY, 2) : 0);
        var least = Sum(best);
        foreach (var by in new[] { 1 + 1e-5, 1 - 1e-5 })
            foreach (var other in new[] { best with { A = best.A * by }, best with { B = best.B * by }, best with { C = best.C * by }, best with { D = best.D * by }, best with { E = best.E * by }, best with { F = best.F * by }, best with { G = best.G * by }, best with { H = best.H * by } })
                Assert.True(Sum(other) >= least);
    }

    [Fact]
    public void A_wrong_tap_is_named_and_its_error_is_the_largest()
    {
        var picks = All(15, 5, 0, 1, 2, 3, 4, 5, 6);
        picks[4] = picks[4] with { PixelX = picks[4].PixelX + 60 };   // 10 mm or so
        var squared = SquareStage.Run(picks);
        Assert.Contains("V2-5 looks mistaken", Assert.Single(squared.Remarks), StringComparison.Ordinal);
        Assert.Equal("V2-5", squared.Errors.MaxBy(e => e.Millimetres)!.Lug);
        Assert.InRange(squared.WorstMillimetres, 3, 12);
    }

    [Fact]
    public void Five_picks_tell_that_one_is_off_and_ask_for_a_sixth()
    {
        var picks = All(15, 5, 0, 2, 4, 5, 6);
        picks[2] = picks[2] with { PixelX = picks[2].PixelX + 120 };
        Assert.Contains("a sixth", Assert.Single(SquareStage.Run(picks).Remarks), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("at least three", new[] { 0, 1 })]
    [InlineData("picked twice", new[] { 0, 2, 6, 0 })]
    public void Too_few_and_the_same_lug_twice_are_refused(string reason, int[] lugs) =>
        Assert.Contains(reason, SquareStage.Run(All(0, 0, lugs)).Refusal, StringComparison.Ordinal);

    [Fact]
    public void Three_in_a_line_are_refused_by_name()
    {
        Pick On(string lug, double x, double y) => See(x, y, 10, 0) is var (px, py) ? new(lug, px, py, x, y) : throw new InvalidOperationException();
        Assert.Contains("A-1, A-2 and A-3 lie in a line", SquareStage.Run([On("A-1", 10, 10), On("A-2", 50, 10), On("A-3", 90, 10)]).Refusal, StringComparison.Ordinal);
        Assert.Contains("lie in a line", SquareStage.Run([On("A-1", 10, 10), On("A-2", 50, 10), On("A-3", 90, 10), On("B-1", 50, 90)]).Refusal, StringComparison.Ordinal);
        Assert.Null(SquareStage.Run([On("A-1", 10, 10), On("A-2", 50, 10), On("A-3", 90, 10), On("B-1", 20, 90), On("B-2", 80, 95)]).Refusal);
        Assert.Contains("same spot", SquareStage.Run([On("A-1", 10, 10), On("A-2", 90, 10), On("A-3", 50, 90) with { PixelX = On("A-1", 10, 10).PixelX, PixelY = On("A-1", 10, 10).PixelY }]).Refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void Exchanged_names_are_refused_and_found_out()
    {
        var picks = All(10, 20, 0, 2, 5, 6, 4);
        (picks[0], picks[4]) = (picks[0] with { Lug = picks[4].Lug, X = picks[4].X, Y = picks[4].Y }, picks[4] with { Lug = picks[0].Lug, X = picks[0].X, Y = picks[0].Y });
        var crossed = SquareStage.Run(picks).Refusal;
        Assert.Contains("crossed", crossed, StringComparison.Ordinal);
        var three = All(10, 20, 0, 2, 6);
        (three[0], three[1]) = (three[0] with { Lug = "B-1", X = 250, Y = 18 }, three[1] with { Lug = "A-1", X = 20, Y = 15 });
        Assert.Contains("mirrored", SquareStage.Run(three).Refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void There_and_back_again_is_where_one_began() => Gen.Select(Gen.Double[-30, 30], Gen.Double[-90, 90], Gen.Double[0, 280], Gen.Double[0, 190]).Sample((tilt, turn, x, y) =>
    {
        var there = SquareStage.Run(All(tilt, turn, 0, 2, 5, 6)).ToPixels!;
        var (px, py) = there.Map(x, y);
        var (bx, by) = there.Inverse().Map(px, py);
        Assert.True(Math.Abs(bx - x) < 1e-6 && Math.Abs(by - y) < 1e-6);
        var (ix, iy) = there.Inverse().After(there).Map(x, y);
        Assert.True(Math.Abs(ix - x) < 1e-6 && Math.Abs(iy - y) < 1e-6);
    });
}
