using System.Collections.Immutable;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>The other ways in which a part can lie while it is read.</summary>
internal static class Turning
{
    /// <summary>Bands from the other end, dots with the part turned half round: doing it twice gives the first back.</summary>
    /// <remarks>Six dots are written row by row, so half a turn reverses their order too. Rear dots of nine are a row of their own.</remarks>
    public static ImmutableArray<T> Turn<T>(ImmutableArray<T> colours) => colours.Length == 9
        ? [.. colours[..6].Reverse(), .. colours[6..].Reverse()]
        : [.. colours.Reverse()];

    /// <summary>All turned readings that the body allows; none when it lies in one way only.</summary>
    public static IEnumerable<ImmutableArray<T>> Of<T>(CodeLayout layout, ImmutableArray<T> colours)
    {
        if (!layout.CanTurn) yield break;
        var turned = Turn(colours);
        if (!turned.SequenceEqual(colours)) yield return turned;
        // Three dots on the face and two on the back: only the face may have been turned.
        if (layout.Id == "mica-rma-5")
        {
            ImmutableArray<T> face = [colours[2], colours[1], colours[0], colours[3], colours[4]];
            if (!face.SequenceEqual(colours) && !face.SequenceEqual(turned)) yield return face;
        }
    }
}
