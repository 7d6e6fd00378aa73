using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Markings.Colours;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Layout.Bodies;

/// <summary>A body that several parts share and that is no mount: a transformer on flying leads, a printed network, a twin diode.</summary>
/// <param name="Name">The group's name.</param>
/// <param name="Slab">What it covers.</param>
/// <param name="IsIron">A transformer rather than a moulded block.</param>
/// <param name="Members">Its parts, each with its own strip of the body.</param>
public sealed record SharedBody(string Name, Slab Slab, bool IsIron, ImmutableArray<PlacedBody> Members)
{
    /// <summary>Builds it near the middle of its lugs, where there is most room.</summary>
    internal static SharedBody Place(string name, IReadOnlyList<BodyPlacer.Request> members, IReadOnlyList<PlacedLug> lugs, IReadOnlyList<Slab> taken, Box? chassis)
    {
        var iron = members.All(m => m.Part.Kind == PartKind.Winding);
        double row = iron ? 5.2 : 3.6, width = iron ? 16 : 13, height = Math.Max(7, members.Count * row + 2.4);
        var ends = members.SelectMany(m => m.Leads.Select(l => l.Lug.At)).ToArray();
        var mean = Pt.Mean(ends);
        Slab best = new(mean, new(1, 0), width, height);
        var least = double.MaxValue;
        foreach (var ring in new[] { 0.0, 8, 16, 24, 34, 46, 60 })
            for (var k = 0; k < (ring == 0 ? 1 : 12); k++)
            {
                var slab = best with { Centre = mean + new Pt(Math.Cos(k * Math.PI / 6), Math.Sin(k * Math.PI / 6)) * ring };
                var cost = ring * 0.35;
                foreach (var t in taken) if (slab.Grown(1).DepthIn(t) is > 0 and var depth) cost += 4 + 2 * depth;
                foreach (var lug in lugs) if (slab.DistanceTo(lug.At) - lug.Radius - 1 is < 0 and var clear) cost += 6 - 3 * clear;
                if (chassis is { } box) cost += slab.Corners.Sum(c => box.DistanceTo(c));
                if (cost < least - 1e-9) (least, best) = (cost, slab);
            }
        List<PlacedBody> placed = [];
        for (var i = 0; i < members.Count; i++)
        {
            var y = height / 2 - 1.2 - row * (i + 0.5);
            var strip = new Slab(best.At(0, y), best.Axis, width - 5, row - 1.2);
            // Lead a on the side of the body that is nearer to its lug, when that serves both leads.
            var leads = members[i].Leads;
            double ax = leads.Length > 0 ? leads[0].Lug.At.X : 0, bx = leads.Length > 1 ? leads[1].Lug.At.X : ax;
            if (leads.Length > 1 ? ax > bx : ax > best.Centre.X) strip = strip with { Axis = strip.Axis * -1 };
            var colours = iron ? LeadColours(members[i].Part, leads) : [];
            placed.Add(new(members[i].Part, Home.Shared, new(iron ? Look.Coil : BodyForm.Of(members[i].Part).Look, strip.Length, strip.Width, 1), strip,
                [.. leads.Select((l, n) => new PlacedLead(l.Letter, l.Lug, Flying(strip, n, l.Lug.At), n < colours.Length ? colours[n] : null))]));
        }
        return new(name, best, iron, [.. placed]);
    }

    private static Outline Flying(Slab strip, int index, Pt lug)
    {
        var outwards = strip.Axis * (index == 0 ? -1 : 1);
        var from = strip.At((index == 0 ? -1 : 1) * (strip.Length / 2), 0);
        var edge = from + outwards * 2.5;
        var reach = Math.Min(14, Math.Max(2, 0.4 * edge.To(lug)));
        return new([new(Step.Move, from), new(Step.Line, edge), new(Step.Curve, lug, edge + outwards * reach, lug.Towards(edge, 0.25))]);
    }

    /// <summary>Colours of a winding's leads, from its note: "blue lead to V4-3, red lead to K1-1", "yellow and yellow".</summary>
    /// <remarks>A colour belongs to the lug that is named after it; colours that are left go to leads that are left, in order.</remarks>
    internal static string?[] LeadColours(Part part, ImmutableArray<(char Letter, PlacedLug Lug)> leads)
    {
        var colours = new string?[leads.Length];
        if (part.Note is not { Length: > 0 } note) return colours;
        var free = new List<string>();
        foreach (var word in note.Split([' ', ',', ';', ':'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (Paint.In(word) is [var paint, ..]) free.Add(paint);
            for (var i = 0; i < leads.Length && free.Count > 0; i++)
                if (colours[i] is null && string.Equals(word.TrimEnd('.', ')'), leads[i].Lug.Name, StringComparison.OrdinalIgnoreCase))
                {
                    colours[i] = free[^1];
                    free.RemoveAt(free.Count - 1);
                    break;
                }
        }
        for (var i = 0; i < colours.Length && free.Count > 0; i++)
            if (colours[i] is null) { colours[i] = free[0]; free.RemoveAt(0); }
        return colours;
    }
}
