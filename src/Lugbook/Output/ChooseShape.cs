using Lugbook.Restoration.Choose;
using Lugbook.Trade;
using Lugbook.Trade.Markings;

namespace Lugbook.Output;

/// <summary>The JSON shape of a choice.</summary>
internal static class ChooseShape
{
    public static object Of(Book book, ChooseResult result) => new
    {
        Book = book.Name,
        book.Facts.Title,
        Cautions = result.Cautions.Select(Of),
        result.Line,
        Choices = result.Choices.Select(c => new
        {
            c.Position,
            Old = new { Kind = c.OldKind, c.Marked, Value = c.OldValue, c.Unit, Volts = c.OldVolts, Watts = c.OldWatts, c.Group, c.Lugs },
            c.Decision,
            c.DecisionReason,
            c.DecidedByUser,
            Role = new { c.Role.Role, Words = ChooseStage.WordsOf(c.Role.Role), c.Role.Evidence, c.Role.ByUser },
            Requirement = new
            {
                c.Requirement.Value, c.Requirement.VoltsAtLeast, c.Requirement.VoltsReason, c.Requirement.LineVoltsAtLeast,
                c.Requirement.WattsAtLeast, c.Requirement.WattsReason, c.Requirement.Kinds, c.Requirement.KindReason,
                SafetyClass = Class(c.Requirement.SafetyClass), c.Requirement.SafetyReason, c.Requirement.TolerancePercentAtMost, c.Requirement.Polarity,
                c.Requirement.RippleAmperes, c.Requirement.RippleHertz, c.Requirement.CelsiusAtLeast, c.Requirement.CelsiusReason, c.Requirement.LugDistanceMm,
            },
            Part = c.Part is null ? null : Of(c.Part),
            Candidates = c.Candidates.Select(w => new { w.Text, w.Joining, w.Value, w.TolerancePercent, Parts = w.Parts.Select(Of), w.Sharing, w.Balancer, w.BodyMm, w.WhyNot }),
            c.Effect,
            c.Dressing,
            c.UserReplacement,
            c.Explanation,
            c.Question,
            c.OldTouchCurrents,
            c.NewTouchCurrents,
            Cautions = c.Cautions.Select(Of),
            c.Done,
        }),
        result.NotChosen,
        result.SharedBodies,
        result.Together,
        result.Unsolved,
    };

    public static object Of(Caution caution) => new { caution.Id, caution.Sentence };

    public static object Of(ChosenPart part) => new
    {
        part.Text, part.Kind, part.Value, part.Unit, part.Volts, part.LineVolts, part.Watts, SafetyClass = Class(part.SafetyClass),
        part.TolerancePercent, part.Celsius, part.RippleAmperes, part.RippleHertz, part.BodyMm, part.DiameterMm, part.Series, part.PriceLow, part.PriceHigh,
    };

    private static SafetyClass? Class(SafetyClass found) => found == SafetyClass.None ? null : found;
}
