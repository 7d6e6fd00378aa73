using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Drawing.Schematic;

/// <summary>A stage drawn: the picture, and where its symbols and texts lie, for checks and links.</summary>
/// <param name="Svg">The picture, which needs nothing else.</param>
/// <param name="Symbols">Every part's symbol, by name.</param>
/// <param name="Texts">Every text.</param>
public sealed record StagePicture(string Svg, ImmutableArray<(string Name, Box Box)> Symbols, ImmutableArray<(string Text, Box Box)> Texts);

/// <summary>The schematic of one valve and what is around it, in the trade's conventions: supply up, signal from left to right, common down.</summary>
/// <remarks>
/// Each section of a valve is drawn by itself. Grids and diode plates look to the left, plate and screen to the right. Parts to a supply stand upright on their node, parts to common hang from it, the others lead
/// on to the next node, which is drawn too as long as it is near and belongs to no other valve. A part is drawn once. Heaters are left out.
/// </remarks>
public static class StageDiagram
{
    private const double Radius = 13, Margin = 8, Apart = 10;

    /// <summary>Draws the stage of a valve.</summary>
    /// <param name="map">The map.</param>
    /// <param name="valve">The valve's part.</param>
    /// <param name="volts">What stands at a node, in words; null where nothing is known.</param>
    /// <param name="href">Where a part's symbol leads.</param>
    /// <returns>The picture; null when no electrode of the valve is on a lug of the book.</returns>
    public static StagePicture? Draw(MapResult map, Part valve, Func<int, string?> volts, Func<string, string> href)
    {
        var pins = map.Nodes.SelectMany(n => n.Pins.Where(p => p.Valve.Id == valve.Id).SelectMany(p => p.Electrodes.Select(e => (n.Index, p.Lug, Electrode: e)))).Where(p => !StageReader.IsHeater(p.Electrode.Kind)).ToArray();
        if (pins.Length == 0) return null;
        var reader = new StageReader(map, valve);
        var blocks = new List<Pen>();
        var shared = pins.Where(p => p.Electrode.Section.Length == 0).ToArray();
        var sections = pins.Select(p => p.Electrode.Section).Where(s => s.Length > 0).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToArray();
        // Diodes beside a triode are drawn with it; two triodes by themselves, with what they share.
        var single = sections.Length == 0 || shared.Any(p => p.Electrode.Kind == ElectrodeKind.Plate);
        foreach (var section in single ? [""] : sections)
        {
            var own = single ? pins : [.. pins.Where(p => p.Electrode.Section == section), .. shared];
            var pen = new Pen();
            Section(pen, new(pen, -1, volts, href), new(pen, 1, volts, href), reader, $"{valve.Name}{(section.Length == 0 ? "" : $" section {section}")}", valve.Marked, own);
            blocks.Add(pen);
        }
        return Stack(map, valve, blocks);
    }

    private static void Section(Pen pen, BusLayout toLeft, BusLayout toRight, StageReader reader, string name, string? type, (int Node, string Lug, Electrode Electrode)[] pins)
    {
        (int Node, string Lug, Electrode Electrode)[] Of(params ElectrodeKind[] kinds) => [.. pins.Where(p => kinds.Contains(p.Electrode.Kind)).DistinctBy(p => p.Node)];
        var plate = Of(ElectrodeKind.Plate).Take(1).ToArray();
        var cathode = Of(ElectrodeKind.Cathode).Take(1).ToArray();
        var left = Of(ElectrodeKind.ControlGrid, ElectrodeKind.DiodePlate);
        var right = Of(ElectrodeKind.Screen, ElectrodeKind.Suppressor, ElectrodeKind.Other).Concat(Of(ElectrodeKind.Plate).Skip(1)).ToArray();
        Envelope(pen, plate.Length > 0, cathode.Length > 0, left.Length, right.Length);
        var drawn = new Dictionary<int, string>();
        // Grids first: where a part joins grid and plate it is drawn at the grid.
        var y = 0.0;
        for (var k = 0; k < left.Length; k++)
        {
            var pin = new Pt(-Radius, left.Length == 1 ? 0 : -6 + 12.0 * k / (left.Length - 1));
            Pin(pen, pin, left[k].Lug, "end");
            if (Ends(pen, reader, drawn, toLeft, left[k].Node, pin, -1)) continue;
            var net = reader.Read(left[k].Node);
            var room = toLeft.Measure(net, (8, 8));
            y = k == 0 ? pin.Y : Math.Max(y + room.Above + 4, pin.Y);
            // The lowest pin turns down nearest to the valve, so that no two lines cross.
            var lane = -Radius - 6 - 3.0 * (left.Length - 1 - k);
            pen.Line(pin, new(lane, pin.Y), new(lane, y));
            toLeft.Draw(net, new(lane, y), (8, 8));
            y += room.Below;
            drawn[left[k].Node] = left[k].Lug;
        }
        var nets = new List<(int Number, (int Node, string Lug, Electrode Electrode) Pin, StageNet Net)>();
        for (var k = 0; k < right.Length; k++)
        {
            var pin = new Pt(Radius, right.Length == 1 ? -2 : -7 + 10.0 * k / (right.Length - 1));
            Pin(pen, pin, right[k].Lug, "start");
            // A suppressor on the cathode, a screen on the plate: said, not drawn twice.
            var same = cathode.Concat(plate).FirstOrDefault(p => p.Node == right[k].Node);
            if (same.Lug is not null)
            {
                toRight.Flag(pin, $"pin {Number(same.Lug)}");
                continue;
            }
            if (!Ends(pen, reader, drawn, toRight, right[k].Node, pin, 1)) nets.Add((k, right[k], reader.Read(right[k].Node)));
            drawn.TryAdd(right[k].Node, right[k].Lug);
        }
        var plateNet = plate.Length > 0 && !reader.IsCommon(plate[0].Node) && !reader.IsSupply(plate[0].Node) && !drawn.ContainsKey(plate[0].Node) ? reader.Read(plate[0].Node) : null;
        var cathodeNet = cathode.Length > 0 && !reader.IsCommon(cathode[0].Node) && !drawn.ContainsKey(cathode[0].Node) ? reader.Read(cathode[0].Node) : null;
        var (top, bottom) = (-Radius - 4.0, Radius + 4.0);
        // What is only said at a pin needs room before the first part.
        var said = nets.Count < right.Length ? 16.0 : 0;
        for (var k = 0; k < nets.Count; k++)
        {
            var pinY = right.Length == 1 ? -2 : -7 + 10.0 * nets[k].Number / (right.Length - 1);
            var room = toRight.Measure(nets[k].Net, (8, 8));
            var at = k == 0 ? pinY : Math.Max(bottom + room.Above + 2, pinY);
            var lane = Radius + 8 + said + 3.0 * (nets.Count - 1 - k);
            pen.Line(new(Radius, pinY), new(lane, pinY), new(lane, at));
            toRight.Draw(nets[k].Net, new(lane, at), (8, 8));
            if (k == 0) top = Math.Min(top, at - room.Above - 4);
            bottom = k == 0 ? Math.Max(Radius, at + room.Below) : Math.Max(bottom, at + room.Below);
        }
        if (plateNet is not null)
        {
            var room = toRight.Measure(plateNet, (0, Radius + 8));
            var at = Math.Min(-Radius - 8, top - room.Below);
            Pin(pen, new(0, -Radius), plate[0].Lug, "start");
            pen.Line(new(0, -Radius), new(0, at));
            if (plateNet.Branches.IsEmpty && plateNet.Elsewhere.IsEmpty) toRight.Flag(new(0, at), reader.NameOf(plate[0].Node));
            else toRight.Draw(plateNet, new(0, at), (0, Radius + 8));
        }
        else if (plate.Length > 0)
        {
            Pin(pen, new(0, -Radius), plate[0].Lug, "start");
            pen.Line(new(0, -Radius), new(0, -Radius - 8));
            if (reader.IsSupply(plate[0].Node)) pen.Supply(new(0, -Radius - 8), reader.NameOf(plate[0].Node));
            else if (drawn.TryGetValue(plate[0].Node, out var twin)) toRight.Flag(new(0, -Radius - 8), $"pin {Number(twin)}");
            else toRight.Flag(new(0, -Radius - 8), "common");
        }
        if (cathodeNet is not null)
        {
            var room = toRight.Measure(cathodeNet, (Radius + 8, 0));
            var at = Math.Max(Radius + 8, nets.Count == 0 ? 0 : bottom + room.Above + 2);
            Pin(pen, new(0, Radius + 4), cathode[0].Lug, "end");
            pen.Line(new(0, Radius), new(0, at));
            if (cathodeNet.Branches.IsEmpty && cathodeNet.Elsewhere.IsEmpty) toRight.Flag(new(0, at), reader.NameOf(cathode[0].Node));
            else toRight.Draw(cathodeNet, new(0, at), (Radius + 8, 0));
        }
        else if (cathode.Length > 0)
        {
            Pin(pen, new(0, Radius + 4), cathode[0].Lug, "end");
            pen.Line(new(0, Radius), new(0, Radius + 6));
            if (drawn.TryGetValue(cathode[0].Node, out var twin)) toRight.Flag(new(0, Radius + 6), $"pin {Number(twin)}");
            else pen.Common(new(0, Radius + 6));
        }
        Heading(pen, name, type);
    }

    // Above all else, where nothing can lie.
    private static void Heading(Pen pen, string name, string? type)
    {
        var bounds = pen.Bounds.With(new(-Radius, -Radius, Radius, Radius));
        pen.Text(new(bounds.Left, bounds.Top - 6), $"{name} {type}".Trim(), "name");
    }

    private static void Pin(Pen pen, Pt at, string lug, string anchor)
    {
        pen.Text(new(at.X + (anchor == "end" ? -1 : 1), at.Y - 1), Number(lug), "pin", anchor);
    }

    private static string Number(string lug) => lug[(lug.IndexOf('-', StringComparison.Ordinal) + 1)..];

    /// <summary>An electrode that is on common or on a supply itself, or whose node is drawn at another pin.</summary>
    private static bool Ends(Pen pen, StageReader reader, Dictionary<int, string> drawn, BusLayout bus, int node, Pt at, int side)
    {
        if (drawn.TryGetValue(node, out var twin))
        {
            bus.Flag(at, $"pin {Number(twin)}");
            return true;
        }
        if (reader.IsSupply(node))
        {
            bus.Flag(at, reader.NameOf(node));
            return true;
        }
        if (!reader.IsCommon(node)) return false;
        var foot = new Pt(at.X + side * 6, at.Y + 5);
        pen.Line(at, new(foot.X, at.Y), foot);
        pen.Common(foot);
        return true;
    }

    private static void Envelope(Pen pen, bool plate, bool cathode, int left, int right)
    {
        pen.Raw($"<circle class=\"glass\" cx=\"0\" cy=\"0\" r=\"{Radius}\"/>");
        if (plate) pen.Raw($"<path class=\"plate\" d=\"M -6 -9 L 6 -9 M 0 -9 L 0 {-Radius}\"/>");
        if (cathode) pen.Raw($"<path class=\"plate\" d=\"M -6 9 A 9 9 0 0 1 0 8 L 0 {Radius}\"/>");
        for (var k = 0; k < left; k++)
        {
            var y = left == 1 ? 0 : -6 + 12.0 * k / (left - 1);
            pen.Raw($"<path class=\"grid\" d=\"M {-Radius} {y:0.##} L 6 {y:0.##}\"/>");
        }
        for (var k = 0; k < right; k++)
        {
            var y = right == 1 ? -2 : -7 + 10.0 * k / (right - 1);
            pen.Raw($"<path class=\"grid\" d=\"M {Radius} {y:0.##} L -6 {y:0.##}\"/>");
        }
    }

    private static StagePicture Stack(MapResult map, Part valve, List<Pen> blocks)
    {
        var body = new StringBuilder();
        var symbols = ImmutableArray.CreateBuilder<(string, Box)>();
        var texts = ImmutableArray.CreateBuilder<(string, Box)>();
        var y = 0.0;
        var all = blocks.Select(b => b.Bounds.With(new(-Radius, -Radius, Radius, Radius)).Grown(2)).ToArray();
        var (left, right) = (all.Min(b => b.Left), all.Max(b => b.Right));
        for (var k = 0; k < blocks.Count; k++)
        {
            var shift = y - all[k].Top;
            body.Append(CultureInfo.InvariantCulture, $"<g transform=\"translate(0 {shift:0.##})\">{blocks[k].Svg}</g>");
            symbols.AddRange(blocks[k].Symbols.Select(s => (s.Name, Moved(s.Box, shift))));
            texts.AddRange(blocks[k].Texts.Select(t => (t.Text, Moved(t.Box, shift))));
            y += all[k].Height + Apart;
        }
        var (width, height) = (right - left + 2 * Margin, y - Apart + 2 * Margin);
        var svg = string.Create(CultureInfo.InvariantCulture, $"""
            <svg xmlns="http://www.w3.org/2000/svg" class="stage-diagram" viewBox="{left - Margin:0.#} {-Margin:0.#} {width:0.#} {height:0.#}" style="max-width:{width * 1.25:0}mm" role="group" aria-label="{System.Security.SecurityElement.Escape($"Stage of {valve.Name} {valve.Marked} in {map.Book.Facts.Title}: supply up, common down, signal from left to right")}">
            <style>{Css}</style><rect class="sheet" x="{left - Margin:0.#}" y="{-Margin:0.#}" width="{width:0.#}" height="{height:0.#}"/>{body}</svg>
            """);
        return new(svg, symbols.ToImmutable(), texts.ToImmutable());
    }

    private static Box Moved(Box box, double y) => new(box.Left, box.Top + y, box.Right, box.Bottom + y);

    private const string Css = ".stage-diagram{--p:var(--draw-paper,#faf6ec);--i:var(--draw-ink,#2c2925);--h:var(--draw-mark,#b3261e);font-family:\"Helvetica Neue\",Arial,\"Liberation Sans\",\"DejaVu Sans\",sans-serif;font-size:3.4px}"
        + ".stage-diagram .sheet{fill:var(--p)}.stage-diagram path{fill:none;stroke:var(--i);stroke-width:.4;stroke-linejoin:round;stroke-linecap:round}.stage-diagram .plate{stroke-width:.7}.stage-diagram .grid{stroke-dasharray:1.6 1}"
        + ".stage-diagram .filled,.stage-diagram .flag{fill:var(--i)}.stage-diagram .glass{fill:none;stroke:var(--i);stroke-width:.5}.stage-diagram .joint{fill:var(--i)}.stage-diagram text{fill:var(--i);stroke:none}"
        + ".stage-diagram .name{font-weight:700}.stage-diagram .pin{font-size:2.6px}.stage-diagram .volts{fill:var(--h);font-weight:600}.stage-diagram a:hover text,.stage-diagram a:focus text{fill:var(--h)}@media print{.stage-diagram{--p:#fff}}";
}
