using Lugbook.Drawing.Labels;
using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Drawing.Schematic;

/// <summary>How much room a net takes about the point where it begins: it runs to one side, parts to the supply stand on it, parts to common hang from it, the rest goes on at its end, row by row.</summary>
/// <param name="Length">Along its direction, mm.</param>
/// <param name="Above">Above its first row.</param>
/// <param name="Below">Below it.</param>
internal sealed record Room(double Length, double Above, double Below);

/// <summary>Lays a net along a line and draws it.</summary>
/// <param name="pen">Draws.</param>
/// <param name="side">To the right +1, to the left −1.</param>
/// <param name="volts">What stands at a node, in words.</param>
/// <param name="href">Where a part leads.</param>
internal sealed class BusLayout(Pen pen, int side, Func<int, string?> volts, Func<string, string> href)
{
    private const double Gap = 5, Start = 8, Tall = Pen.Reach + 8, LabelRoom = 15;

    /// <param name="net">The net.</param>
    /// <param name="first">How far from the beginning parts may stand: above and below.</param>
    public Room Measure(StageNet net, (double Up, double Down) first)
    {
        var spine = Spine(net, first);
        double length = Math.Max(spine, Hanging(net, first)), above = net.Going(Way.Up).Any() ? Tall : 4, below = net.Going(Way.Down).Any() ? Tall : 4;
        if (volts(net.Node) is not null) above = Math.Max(above, 7);
        var row = 0.0;
        var bottom = 0.0;
        foreach (var (room, _, at) in Rows(net, null))
        {
            row = at;
            length = Math.Max(length, spine + room.Length);
            if (at == 0) above = Math.Max(above, room.Above);
            bottom = Math.Max(bottom, row + room.Below);
        }
        return new(length, above, Math.Max(below, bottom));
    }

    /// <summary>Draws the net from a point.</summary>
    /// <param name="net">The net.</param>
    /// <param name="from">Where it begins.</param>
    /// <param name="first">How far from there parts may stand: above and below.</param>
    /// <param name="told">Volts that stand before it already.</param>
    public void Draw(StageNet net, Pt from, (double Up, double Down) first, string? told = null)
    {
        var spine = Spine(net, first);
        foreach (var (way, begin) in new[] { (Way.Up, first.Up), (Way.Down, first.Down) })
        {
            var x = begin;
            foreach (var branch in net.Going(way))
            {
                // Labels stand to the right of a part: on a line to the left their room comes first.
                var at = new Pt(from.X + side * (side > 0 ? x : x + Wide(branch) - Gap), from.Y);
                if (Math.Abs(at.X - from.X) > 0.01) pen.Dot(at);
                var end = new Pt(at.X, at.Y + (way == Way.Up ? -Pen.Reach : Pen.Reach));
                pen.Part(branch.Part, branch.Lead, at, end, href(branch.Part.Name));
                if (way == Way.Up) pen.Supply(end, branch.Ends ?? "");
                else
                {
                    pen.Common(end);
                    if (branch.Ends is { } slider) pen.Text(new(at.X + 5.5, at.Y + Pen.Reach / 2 + 2 * Pen.Type + 1), $"slider: {slider}");
                }
                x += Wide(branch);
            }
        }
        var tip = new Pt(from.X + side * spine, from.Y);
        if (spine > 0) pen.Line(from, tip);
        var reading = volts(net.Node);
        if (reading is not null && reading != told) pen.Text(new(from.X + side * 1.5, from.Y - 1.5), reading, "volts", side > 0 ? "start" : "end");
        foreach (var (_, draw, at) in Rows(net, reading))
        {
            var begin = new Pt(tip.X, tip.Y + at);
            if (at > 0)
            {
                pen.Line(tip, begin);
                pen.Dot(tip);
            }
            draw(begin);
        }
    }

    private double Wide(Branch branch) => Math.Max(5.5 + Pen.LabelWidth(branch.Part), branch is { Way: Way.Down, Ends: { } slider } ? 5.5 + TextWidth.Of($"slider: {slider}", Pen.Type) : branch.Ends is { } name ? TextWidth.Of(name, Pen.Type) : 0) + Gap + 2;

    private double Spine(StageNet net, (double Up, double Down) first)
    {
        // Where nothing goes on, the line ends at the last part.
        if (net.Going(Way.Onward).Any() || net.Elsewhere.Length > 0) return Math.Max(Start, Hanging(net, first));
        return Math.Max(Last(net, Way.Up, first.Up), Last(net, Way.Down, first.Down));
    }

    private double Hanging(StageNet net, (double Up, double Down) first) =>
        Math.Max(net.Going(Way.Up).Any() ? first.Up + net.Going(Way.Up).Sum(Wide) : 0, net.Going(Way.Down).Any() ? first.Down + net.Going(Way.Down).Sum(Wide) : 0);

    // To the right the last part stands before its label, to the left behind it.
    private double Last(StageNet net, Way way, double first) => net.Going(way).Any()
        ? first + net.Going(way).SkipLast(1).Sum(Wide) + (side > 0 ? 0 : Wide(net.Going(way).Last()) - Gap) : 0;

    /// <summary>What goes on at the end: its room, how to draw it, and how far below the first row it lies.</summary>
    private IEnumerable<(Room Room, Action<Pt> Draw, double At)> Rows(StageNet net, string? told)
    {
        var at = 0.0;
        Room? before = null;
        foreach (var branch in net.Going(Way.Onward))
        {
            var inner = branch.Beyond is { } beyond ? Measure(beyond, (Start, Start)) : null;
            var label = Math.Max(0, Pen.LabelWidth(branch.Part) + 4 - Pen.Reach) / 2;
            var text = branch.Ends is { } ends ? TextWidth.Of(ends, Pen.Type) + 5 : 0;
            var room = new Room(Pen.Reach + 2 * label + (inner?.Length ?? text), Math.Max(LabelRoom, inner?.Above ?? 0), Math.Max(5, inner?.Below ?? 0));
            if (before is not null) at += before.Below + room.Above + 2;
            yield return (room, begin => Onward(branch, begin, label, told), at);
            before = room;
        }
        foreach (var electrode in net.Elsewhere)
        {
            var room = new Room(TextWidth.Of(electrode, Pen.Type) + 8, 5, 4);
            if (before is not null) at += before.Below + room.Above + 2;
            yield return (room, begin => Flag(begin, electrode), at);
            before = room;
        }
    }

    private void Onward(Branch branch, Pt begin, double label, string? told)
    {
        var start = new Pt(begin.X + side * label, begin.Y);
        var end = new Pt(start.X + side * Pen.Reach, begin.Y);
        var tip = new Pt(end.X + side * label, begin.Y);
        if (label > 0)
        {
            pen.Line(begin, start);
            pen.Line(end, tip);
        }
        pen.Part(branch.Part, branch.Lead, start, end, href(branch.Part.Name));
        if (branch.Beyond is { } beyond) Draw(beyond, tip, (Start, Start), told);
        else if (branch.Ends is { } ends) Flag(tip, ends, 0);
    }

    /// <summary>A short line and what it leads to, in words.</summary>
    public void Flag(Pt at, string text, double stem = 3)
    {
        var tip = new Pt(at.X + side * stem, at.Y);
        if (stem > 0) pen.Line(at, tip);
        pen.Raw($"<path class=\"flag\" d=\"M {tip.X:0.##} {tip.Y - 1.6:0.##} L {tip.X + side * 2.4:0.##} {tip.Y:0.##} L {tip.X:0.##} {tip.Y + 1.6:0.##} Z\"/>");
        pen.Text(new(tip.X + side * 3.4, tip.Y + 1.1), text, "text", side > 0 ? "start" : "end");
    }
}
