using Lugbook.Restoration.Choose;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Fit;

/// <summary>The new part as a body with leads, mm.</summary>
/// <param name="Length">From the choice: between shortest and longest of its series by value.</param>
/// <param name="Thickness">Across.</param>
/// <param name="Lead">Diameter of its leads.</param>
/// <param name="OneSided">Both leads leave on one side.</param>
internal sealed record NewBody(double Length, double Thickness, double Lead, bool OneSided)
{
    /// <summary>Null when the user's own part goes in, when two parts make one, or when the series has no size.</summary>
    /// <remarks>
    /// Lead diameters from memory of usual sheets: resistors up to 0.6 W 0.6 mm, above 0.8 mm; capacitors with bodies up to 14 mm 0.6 mm, above 0.8 mm. A body is about 0.4 as thick as long (common practice, no source).
    /// </remarks>
    public static NewBody? Of(Choice choice)
    {
        if (choice.Candidates is not [{ BodyMm: { } length, Parts: [var part] } first, ..] || choice.New != first.Text) return null;
        var ceramic = part.Kind is NewKind.C0G or NewKind.CeramicClass2 or NewKind.SafetyCeramic;
        var lead = choice.Unit == Unit.Ohm ? part.Watts is > 0.6 ? 0.8 : 0.6 : length > 14 ? 0.8 : 0.6;
        return new(length, ceramic ? 4 : 0.4 * length, lead, ceramic);
    }
}
