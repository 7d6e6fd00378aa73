using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Choose;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Order;

/// <summary>For which positions something is bought, and what the work uses up besides.</summary>
internal static class Wanted
{
    /// <summary>Why nothing is bought for a position; null when something is.</summary>
    /// <param name="choice">The position.</param>
    /// <param name="policy">Rules of thumb.</param>
    /// <param name="elsewhere">True when others than the catalogue may have a part.</param>
    public static string? WhyNot(Choice choice, OrderPolicy policy, bool elsewhere = false) => choice switch
    {
        { Done: true } => "The exchange is done.",
        { Decision: Decision.Stays } => $"It stays. {choice.DecisionReason}",
        { Decision: Decision.Undecided } => "Nobody has decided.",
        { Decision: Decision.MeasureFirst } when !policy.IncludeMeasureFirst => choice.Part is { } p ? $"Measure first; if it fails: {p.Text}." : $"Measure first. {choice.DecisionReason}",
        { UserReplacement: { } own } when choice.New == own => $"You chose it yourself: {own}. Buy it with the rest or take it from the drawer.",
        { Candidates.IsEmpty: true } when !elsewhere => choice.Explanation,
        _ => null,
    };

    public static ImmutableArray<Consumable> Consumables(ChooseResult choices, IReadOnlyList<Choice> wanted, OrderPolicy policy)
    {
        if (wanted.Count == 0) return [];
        var leads = wanted.Sum(c => c.Candidates is [var first, ..] ? first.Parts.Length : 1) * 2;
        var touched = choices.LugLoads;
        var crowded = touched.Count(l => l.Ends >= policy.CrowdedFrom);
        var sections = wanted.Count(c => c.Group is { } g && choices.SharedBodies.Any(b => string.Equals(b.Group, g, StringComparison.OrdinalIgnoreCase)) && c.Requirement.Polarity is not null);
        var list = ImmutableArray.CreateBuilder<Consumable>();
        Consumable Metres(string what, double mm, string reason) => new(what, Math.Ceiling(mm / 100) / 10, "m", reason);
        list.Add(Metres("sleeve, two or three diameters", leads * policy.SleeveMmPerLead, $"{N(leads)} leads at {N(policy.SleeveMmPerLead)} mm; common practice, no source."));
        list.Add(Metres("solder, resin cored", leads * policy.SolderMmPerJoint, $"{N(leads)} joints at {N(policy.SolderMmPerJoint)} mm; common practice, no source."));
        if (touched.Length > 0)
            list.Add(Metres("desoldering braid", crowded * policy.BraidMmPerCrowdedLug + (touched.Length - crowded) * policy.BraidMmPerLug,
                $"{N(crowded)} lugs with {N(policy.CrowdedFrom)} ends or more at {N(policy.BraidMmPerCrowdedLug)} mm, {N(touched.Length - crowded)} others at {N(policy.BraidMmPerLug)} mm; common practice, no source."));
        if (sections > 0)
            list.Add(Metres("hook-up wire, insulated for the set's voltage", sections * policy.WireMmPerSection, $"{N(sections)} can sections built anew at {N(policy.WireMmPerSection)} mm; common practice, no source."));
        return list.ToImmutable();
    }

    private static string N(double number) => number.ToString("0.##", CultureInfo.InvariantCulture);
}
