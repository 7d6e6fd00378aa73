using System.Collections.Immutable;
using Lugbook.Restoration.Choose;

namespace Lugbook.Restoration.Fit;

/// <summary>Lengths and bends of leads from the distance of the lugs and the size of the body. Formulas: docs/fit.md.</summary>
internal static class LeadForming
{
    // Straight lead between body and first bend, and slack of a lead that runs straight: common practice, no source.
    private const double Straight = 3, Slack = 1, Pitch = 7.5, LugWidth = 2.4, OldLead = 0.8;

    /// <summary>Length of each lead from body to lug, and its bends.</summary>
    internal readonly record struct Lead(double Length, ImmutableArray<double> Bends);

    /// <summary>How a body of this size goes between lugs so far apart.</summary>
    public static (Mounting Mounting, Lead Short, Lead Long) Of(double span, NewBody body)
    {
        if (body.OneSided)
        {
            var side = Math.Sqrt(Math.Pow((span - Math.Min(body.Length, Pitch)) / 2, 2) + Straight * Straight);
            Lead each = new(Straight + side, [Straight]);
            return (Mounting.Upright, each, each);
        }
        if (body.Length + 2 * Straight <= span)
        {
            Lead each = new((span - body.Length) / 2 + Slack, [Straight]);
            return (Mounting.Between, each, each);
        }
        if (body.Length - 2 * Straight <= span)
        {
            var (back, beside) = ((body.Length + 2 * Straight - span) / 2, body.Thickness / 2 + Straight);
            Lead each = new(Straight + Math.Sqrt(back * back + beside * beside), [Straight]);
            return (Mounting.DogLeg, each, each);
        }
        // The long lead: up, round, down along the body, and across to the other lug.
        var turn = body.Thickness / 2 + 1;
        var across = Math.Max(0, span - turn);
        return (Mounting.Standing, new(Straight, []), new(Straight + Math.PI / 2 * turn + body.Length + Straight + across, [Straight, Straight + Math.PI / 2 * turn, Straight + Math.PI / 2 * turn + body.Length + Straight]));
    }

    /// <summary>Lead that is needed at the lug: three quarters of a turn round a cleared lug, a turn and a quarter round an old tail.</summary>
    public static double Wrap(LugVerdict verdict, double lead) => Math.Round(verdict == LugVerdict.ClearToBareMetal ? 0.75 * Math.PI * (LugWidth + lead) : 1.25 * Math.PI * (OldLead + lead), 1);

    public static string Words(Mounting mounting, double span, NewBody body)
    {
        var size = $"The lugs are {Show.Number(span)} mm apart in plan, the body is about {Show.Number(Math.Round(body.Length, 1))} mm long (by its series and value).";
        return mounting switch
        {
            Mounting.Between => $"{size} It fits between them.",
            Mounting.DogLeg => $"{size} Lay it beside the line between them: each lead leaves straight, turns and comes back (dog leg).",
            Mounting.Standing => $"{size} It does not fit: stand it on end over one lug, the other lead back down along the body in a sleeve.",
            _ => $"{size} Its leads leave on one side: it stands upright.",
        };
    }
}
