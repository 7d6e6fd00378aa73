using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Choose;

/// <summary>How far the lugs of a part lie from each other, seen from beneath.</summary>
internal static class LugDistance
{
    /// <summary>Distance, mm; null when a lug's place is not entered or the part is a section of a can.</summary>
    public static double? Of(MapResult map, Part part)
    {
        if (part.Group is not null || map.Book.Lugs.Named(part.LeadA) is not { X: { } ax, Y: { } ay } || map.Book.Lugs.Named(part.LeadB) is not { X: { } bx, Y: { } by }) return null;
        return Math.Round(Math.Sqrt((ax - bx) * (ax - bx) + (ay - by) * (ay - by)), 1);
    }
}
