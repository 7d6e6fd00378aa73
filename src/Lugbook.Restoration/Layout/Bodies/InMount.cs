using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Layout.Mounts;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Layout.Bodies;

/// <summary>Parts that live in their mount: a valve in its socket, a can's section, a control, a winding inside its can.</summary>
internal static class InMount
{
    /// <summary>The part's place in its mount; null when it lies on leads of its own.</summary>
    /// <param name="part">The part.</param>
    /// <param name="leads">Its leads on known lugs.</param>
    /// <param name="mounts">Mounts by name.</param>
    /// <param name="pairs">How many parts are already drawn between two lugs: the next one stands farther in.</param>
    public static PlacedBody? Of(Part part, ImmutableArray<(char Letter, PlacedLug Lug)> leads, Dictionary<string, MountFigure> mounts, Dictionary<(string, string), int> pairs)
    {
        if (part.Kind == PartKind.Valve && leads.Length == 0)
        {
            var socket = mounts.GetValueOrDefault(part.Name) ?? (part.Group is { } g ? mounts.GetValueOrDefault(g) : null);
            return socket is null ? null
                : new(part, Home.Mount, new(Look.Round, socket.Face.Width, socket.Face.Height, 1), new(socket.Centre, new(1, 0), Math.Max(4, socket.Face.Width), Math.Max(3, socket.Face.Height)), []);
        }
        if (leads.Length == 0) return null;
        var name = leads[0].Lug.Mount;
        if (leads.Any(l => !string.Equals(l.Lug.Mount, name, StringComparison.OrdinalIgnoreCase)) || !mounts.TryGetValue(name, out var mount)) return null;
        if (!Belongs(part, mount.Mount)) return null;

        Pt a = leads[0].Lug.At, b = leads.Length > 1 ? leads[1].Lug.At : mount.Centre;
        var form = BodyForm.Of(part);
        var span = a.To(b);
        Pt axis = (b - a).Unit, middle = a.Towards(b, 0.5);
        switch (mount.Mount.Kind)
        {
            case MountKind.PowerResistor:
                form = form with { Look = Look.PowerResistor, Length = Math.Max(4, span - 5), Width = 9.5 };
                break;
            case MountKind.FuseHolder:
                form = form with { Look = Look.Fuse, Length = Math.Max(4, span - 3.5), Width = 5.5 };
                break;
            case MountKind.Control when leads.Length > 1:
                middle = mount.Centre;
                form = new(Look.Round, mount.Face.Width * 0.75, mount.Face.Width * 0.75, 1);
                break;
            case MountKind.Can when part.Kind == PartKind.Electrolytic:
                // A section shows beside its own lug: from there it runs inside the can.
                var own = leads.FirstOrDefault(l => l.Letter == (part.PlusLead ?? 'a'), leads[0]);
                var inward = own.Lug.At.To(mount.Centre) < 1 ? new Pt(0, -1) : (mount.Centre - own.Lug.At).Unit;
                var spot = own.Lug.At - inward * (own.Lug.Radius + 1.5);
                return new(part, Home.Mount, new(Look.Electrolytic, 2.2, 2.2, 1), new(spot, inward * -1, 2.2, 2.2), [new(own.Letter, own.Lug, Outline.Line(spot, own.Lug.At))]);
            default:
                // Between its lugs, moved towards the middle of the mount; capacitors stand inside of windings.
                var towards = mount.Centre - middle;
                var (first, second) = (leads[0].Lug.Name, leads.Length > 1 ? leads[1].Lug.Name : "");
                var pair = string.CompareOrdinal(first, second) < 0 ? (first, second) : (second, first);
                var rank = pairs.GetValueOrDefault(pair);
                pairs[pair] = rank + 1;
                // Lugs at the middle of their mount: one stands on the line, the next beside it, in turn.
                middle += towards.Length < 0.5 ? axis.Turned * ((rank + 1) / 2 * (rank % 2 == 0 ? -2.8 : 2.8)) : towards.Unit * Math.Min(2.2 + 2.8 * rank, Math.Max(towards.Length, 2.2));
                form = part.Kind switch
                {
                    PartKind.Winding => new(Look.Coil, Math.Clamp(span * 0.6, 3, 14), 2.6, 1),
                    _ when part.Kind.IsCapacitor() => new(Look.Plates, 1, 2.8, 1),
                    PartKind.SeleniumRectifier => new(Look.Diode, Math.Clamp(span * 0.4, 4, 10), 4, 1),
                    _ => form with { Length = Math.Clamp(span * 0.5, 2.5, form.Length), Width = Math.Min(form.Width, 3.2) },
                };
                break;
        }
        var slab = form.At(middle, axis);
        var made = ImmutableArray.CreateBuilder<PlacedLead>();
        for (var i = 0; i < leads.Length; i++)
        {
            var from = i switch { 0 => slab.At(-slab.Length / 2, 0), 1 => slab.At(slab.Length / 2, 0), _ => slab.Centre };
            made.Add(new(leads[i].Letter, leads[i].Lug, Outline.Line(from, leads[i].Lug.At)));
        }
        return new(part, Home.Mount, form, slab, made.ToImmutable());
    }

    /// <summary>Named after it, grouped with it, or the kind of part that such a mount is for.</summary>
    private static bool Belongs(Part part, PlacedMount mount)
    {
        if (mount.Kind is MountKind.TagStrip or MountKind.ScrewStrip or MountKind.Chassis or MountKind.EarthLug || mount.Kind.IsSocket()) return false;
        if (part.Group is { Length: > 0 } group) return string.Equals(group, mount.Name, StringComparison.OrdinalIgnoreCase) || Natural(part.Kind, mount.Kind);
        return string.Equals(part.Name, mount.Name, StringComparison.OrdinalIgnoreCase) || Natural(part.Kind, mount.Kind);
    }

    private static bool Natural(PartKind part, MountKind mount) => (part, mount) switch
    {
        (PartKind.Fuse, MountKind.FuseHolder) or (PartKind.Lamp, MountKind.LampHolder) or (PartKind.Control, MountKind.Control) => true,
        (PartKind.Switch, MountKind.Switch or MountKind.Control or MountKind.Jack) or (PartKind.Speaker, MountKind.Speaker) => true,
        (PartKind.SeleniumRectifier, MountKind.SeleniumStack) or (PartKind.VariableCapacitor or PartKind.Trimmer, MountKind.TuningGang) => true,
        (PartKind.Winding, MountKind.IfCan or MountKind.CoilForm or MountKind.Transformer or MountKind.Flyback or MountKind.Yoke or MountKind.LoopPanel) => true,
        (PartKind.SubUnit, MountKind.SealedUnit) => true,
        _ => false,
    };
}
