using System.Collections.Immutable;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Choose;

/// <summary>Makes one choice and explains it.</summary>
internal sealed class ChoiceMaker(MapResult map, CircuitView view, LineView line, ChoosePolicy policy)
{
    private readonly RoleFinder _roles = new(view, line);
    private readonly RequirementRule _requirements = new(map, view, policy);

    public Choice Choose(Part part)
    {
        var role = _roles.Find(part);
        var (safety, safetyReason, question) = SafetyRule.Of(part, role, map, line);
        var need = _requirements.Of(part, role, safety, safetyReason);
        var work = map.Book.Work.Named(part.Name);
        var (decision, reason, byUser) = DecisionRule.Decide(part, work, need, policy.School, policy.Judged?.Of(part.Name));
        var written = string.IsNullOrWhiteSpace(work?.Replacement) ? null : work.Replacement.Trim();
        var fault = written is null ? null : UserPart.Fault(written, part, need);
        var touch = safety is SafetyClass.Y1 or SafetyClass.Y2;
        // An electrolytic has no business on an alternating line: more likely a lead is on the wrong lug in the book.
        var impossible = safety != SafetyClass.None && part.Kind == PartKind.Electrolytic;
        var (chosen, nearly) = impossible ? (null, "") : PartPicker.Pick(need, policy.Catalogue);
        return new()
        {
            PartId = part.Id,
            Position = part.Name,
            OldKind = part.KindAsWritten,
            Marked = part.Marked,
            Unit = need.Unit,
            OldValue = part.Value,
            OldVolts = part.RatedVolts,
            OldWatts = part.RatedWatts,
            Group = part.Group,
            Lugs = [.. part.Leads.Select(l => l.Lug)],
            Decision = decision,
            DecisionReason = reason,
            DecidedByUser = byUser,
            Role = role,
            Requirement = need,
            Part = chosen,
            UserReplacement = written,
            UserReplacementFault = fault,
            Explanation = impossible ? "Nothing is proposed: by the map an electrolytic stands on the alternating line, and that cannot be."
                : chosen is null ? $"No part of the catalogue fits. {nearly}{(need.Value is null ? "" : " Two parts together may; that is not worked out here.")}" : Explain(part, need, chosen),
            Question = impossible ? $"Are the lugs of {part.Name} right? {role.Evidence} No electrolytic can work there." : fault is not null ? $"The replacement that you wrote: {fault}{(need.SafetyClass == SafetyClass.None ? "" : " It is not taken.")} Is it right?" : written is not null ? null : question ?? Ask(part, role, need, chosen, decision, byUser),
            OldTouchCurrents = touch && part.Value is { } old ? SafetyRule.Currents(map.Book.Facts, old) : [],
            NewTouchCurrents = touch && chosen is { } now ? SafetyRule.Currents(map.Book.Facts, now.Value) : [],
            Cautions = CautionsOf(part, role, need, safety),
            Done = work?.Done ?? false,
        };
    }

    private static string Explain(Part part, Requirement need, ChosenPart chosen)
    {
        var differs = new List<string>();
        if (part.Value is { } old) differs.Add(Math.Abs(chosen.Value / old - 1) < 0.0005 ? "the same value" : $"value {Show.Deviation(old, chosen.Value)}");
        if (need.Unit == Unit.Farad && need.SafetyClass == SafetyClass.None && chosen.Volts is { } volts)
            differs.Add(part.RatedVolts is { } was ? volts == was ? $"{Show.Volts(volts)} as before" : $"{Show.Volts(volts)} for {Show.Number(was)}" : $"{Show.Volts(volts)}, the old rating not being known");
        if (need.Unit == Unit.Ohm)
        {
            if (chosen.Watts is { } watts) differs.Add(part.RatedWatts is { } was ? watts == was ? $"{Show.Number(watts)} W as before" : $"{Show.Number(watts)} W for {Show.Number(was)}" : $"{Show.Number(watts)} W, the old rating not being known");
            if (chosen.Volts is { } limit) differs.Add($"working voltage {Show.Volts(Math.Min(limit, Math.Round(Math.Sqrt((chosen.Watts ?? 0) * chosen.Value), 1)))}");
        }
        var why = need.SafetyReason is { } safety ? $"{safety} {need.KindReason}" : need.KindReason;
        return $"{chosen.Text}: {string.Join(", ", differs)}. {need.Value!.Reason} {why}";
    }

    private string? Ask(Part part, RoleFinding role, Requirement need, ChosenPart? chosen, Decision decision, bool byUser)
    {
        if (need.SafetyClass != SafetyClass.None && byUser && decision != Decision.Goes)
            return $"{part.Name} stands in a line position and stays by your decision. Does it carry the class {need.SafetyClass} mark? If not, it should go.";
        if (role.Role == Role.LineToTouchable && part.Value is { } old && chosen is { } part1 && part1.Value < old * (1 - 1e-9))
        {
            var was = SafetyRule.Currents(map.Book.Facts, old).MaxBy(c => c.Milliamperes)!;
            var now = SafetyRule.Currents(map.Book.Facts, part1.Value).MaxBy(c => c.Milliamperes)!;
            return $"Yours to decide: {part1.Text} passes {Show.Number(Math.Round(now.Milliamperes, 2))} mA at {Show.Number(now.LineVolts)} V {Show.Number(now.LineHertz)} Hz, the old {Show.Value(old, Unit.Farad)} {Show.Number(Math.Round(was.Milliamperes, 2))} mA. "
                + "The smaller value returns radio frequency less well and may hum; the old value is only for a chassis that no hand reaches, and then too in class Y, built from several.";
        }
        if (need.Value is null) return $"What is the value of {part.Name}? Enter it and a part will be proposed.";
        if (need.VoltsAtLeast is null && need.SafetyClass == SafetyClass.None) return $"What voltage must {part.Name} bear? Enter its rating.";
        if (!line.Known && SafetyRule.IsCandidate(part)) return $"Does {part.Name} lie across the line, or from the line to chassis or aerial? The map does not tell. There only a part with a safety class may stand, and this one has none.";
        if (need.Polarity is { PlusLug: null } && !part.Leads.IsEmpty && decision == Decision.Goes) return $"Which lead of {part.Name} is plus?";
        return null;
    }

    private static ImmutableArray<Caution> CautionsOf(Part part, RoleFinding role, Requirement need, SafetyClass safety)
    {
        var cautions = ImmutableArray.CreateBuilder<Caution>();
        if (safety != SafetyClass.None) cautions.Add(Cautions.LineCapacitors);
        if (safety is SafetyClass.X1 or SafetyClass.X2 && part.Value > 0.1e-6 * (1 + 1e-9)) cautions.Add(Cautions.LineBleeder);
        if (role.Role == Role.TouchBarrier) cautions.Add(Cautions.Barrier);
        if (need.Polarity is not null) cautions.Add(Cautions.Polarity);
        if (role.Role == Role.Boost) cautions.Add(Cautions.Flyback);
        var words = $"{part.KindAsWritten} {part.Note}";
        if (part.Kind.IsFixedCapacitor() && (Says(words, "oil") || Says(words, "bathtub") || Says(words, "potted"))) cautions.Add(Cautions.Pcb);
        if (Says(words, "asbestos")) cautions.Add(Cautions.Asbestos);
        return cautions.ToImmutable();
    }

    private static bool Says(string words, string word) => words.Split(' ', ',', ';', '-', '(', ')').Any(w => w.Equals(word, StringComparison.OrdinalIgnoreCase));
}
