using System.Collections.Immutable;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Choose;

/// <summary>Makes one choice and explains it.</summary>
internal sealed class ChoiceMaker(MapResult map, CircuitView view, LineView line, ChoosePolicy policy, ChooseBasis? basis)
{
    private readonly RoleFinder _roles = new(view, line, new(view));
    private readonly CapacitorRule _capacitors = new(map, view, policy, basis);
    private readonly ResistorRule _resistors = new(map, view, basis);

    public Choice Choose(Part part)
    {
        var work = map.Book.Work.Named(part.Name);
        var found = _roles.Find(part);
        var (role, roleQuestion) = Overruled(found, work, part);
        // The map's line positions are line positions whatever else is said; what the user calls one is one too.
        var byMap = SafetyRule.Of(part, found, map, line);
        var (safety, safetyReason, question) = byMap.Class == SafetyClass.None && role.Role is Role.AcrossLine or Role.LineToTouchable ? SafetyRule.Of(part, role, map, line) : byMap;
        var need = part.Kind == PartKind.Resistor ? _resistors.Of(part, role) : _capacitors.Of(part, role, safety, safetyReason);
        var (decision, reason, byUser) = DecisionRule.Decide(part, work, need, policy.School, policy.Judged?.Of(part.Name));
        var written = string.IsNullOrWhiteSpace(work?.Replacement) ? null : work.Replacement.Trim();
        var fault = written is null ? null : UserPart.Fault(written, part, need);
        var touch = safety is SafetyClass.Y1 or SafetyClass.Y2;
        // An electrolytic has no business on an alternating line: more likely a lead is on the wrong lug in the book.
        var impossible = safety != SafetyClass.None && part.Kind == PartKind.Electrolytic;
        var (candidates, nearly) = impossible ? ([], "") : PartPicker.Pick(need, policy.Catalogue);
        var chosen = candidates is [var first, ..] ? first : null;
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
            Candidates = candidates,
            Dressing = chosen is null ? null : DressingOf(need, chosen),
            UserReplacement = written,
            UserReplacementFault = fault,
            Explanation = impossible ? "Nothing is proposed: by the map an electrolytic stands on the alternating line, and that cannot be."
                : chosen is null ? $"No part of the catalogue fits. {nearly}{(need.Value is null ? "" : " Nor do two together.")}" : Explain(part, need, chosen, nearly),
            Question = impossible ? $"Are the lugs of {part.Name} right? {role.Evidence} No electrolytic can work there." : fault is not null ? $"The replacement that you wrote: {fault}{(need.SafetyClass == SafetyClass.None ? "" : " It is not taken.")} Is it right?" : written is not null ? null : roleQuestion ?? question ?? Ask(part, role, need, chosen, decision, byUser),
            OldTouchCurrents = touch && part.Value is { } old ? SafetyRule.Currents(map.Book.Facts, old) : [],
            NewTouchCurrents = touch && chosen is { Parts.Length: 1 } now ? SafetyRule.Currents(map.Book.Facts, now.Value) : [],
            Cautions = CautionsOf(part, role, need, safety),
            Done = work?.Done ?? false,
        };
    }

    // The user's word about the role holds for window, kind and volts. It takes no safety away.
    private static (RoleFinding Role, string? Question) Overruled(RoleFinding found, PositionWork? work, Part part)
    {
        if (string.IsNullOrWhiteSpace(work?.Role)) return (found, null);
        if (RoleWords.Read(work.Role) is not { } said) return (found, $"The role that you wrote, '{work.Role.Trim()}', is not known. Write one of: {string.Join(", ", RoleWords.For(part.Kind == PartKind.Resistor).Select(RoleWords.Of))}.");
        if (said == found.Role) return (found, null);
        var own = new RoleFinding(said, $"You say so. By the map: {RoleWords.Of(found.Role)}. {found.Evidence}") { ByUser = true };
        return found.IsAcrossLine || found.Role is Role.LineToTouchable or Role.TouchBarrier
            ? (found, $"You call {part.Name} {RoleWords.Of(said)}, but by the map it is {RoleWords.Of(found.Role)}. On the line the map's word stands: correct the wiring in the book if it is wrong.")
            : (own, null);
    }

    // Leads need a bend at each end: 3 mm is the least for a lead of 0.8 mm (common practice, no source).
    private static string? DressingOf(Requirement need, Candidate chosen)
    {
        if (need.LugDistanceMm is not { } apart || chosen.BodyMm is not { } body || apart <= 0) return null;
        return body + 6 <= apart ? null
            : apart + 6 >= body ? $"Its body is about {Show.Number(body)} mm and its lugs are {Show.Number(apart)} mm apart: bend the leads back under it, or stand it on end."
            : $"Its body is about {Show.Number(body)} mm, longer than the {Show.Number(apart)} mm between its lugs: stand it on end or lay it beside them, with sleeved leads.";
    }

    private static string Explain(Part part, Requirement need, Candidate candidate, string? nearly)
    {
        var differs = new List<string>();
        var chosen = candidate.Parts[0];
        if (part.Value is { } old) differs.Add(Math.Abs(candidate.Value / old - 1) < 0.0005 ? "the same value" : $"value {Show.Deviation(old, candidate.Value)}");
        if (candidate.Parts.Length > 1)
        {
            differs.Add($"±{Show.Number(candidate.TolerancePercent ?? 0)} % at worst");
            return $"{candidate.Text}: {string.Join(", ", differs)}. {candidate.Sharing}{(candidate.Balancer is { } balance ? $" {balance.Sentence}" : "")} No single part fits. {nearly}{(nearly is null ? "" : " ")}{need.Value!.Reason} {need.KindReason}";
        }
        if (need.Unit == Unit.Farad && need.SafetyClass == SafetyClass.None && chosen.Volts is { } volts)
            differs.Add(part.RatedVolts is { } was ? volts == was ? $"{Show.Volts(volts)} as before" : $"{Show.Volts(volts)} for {Show.Number(was)}" : $"{Show.Volts(volts)}, the old rating not being known");
        if (need.Unit == Unit.Ohm)
        {
            if (chosen.Watts is { } watts) differs.Add(part.RatedWatts is { } was ? watts == was ? $"{Show.Number(watts)} W as before" : $"{Show.Number(watts)} W for {Show.Number(was)}" : $"{Show.Number(watts)} W, the old rating not being known");
            if (chosen.Volts is { } limit) differs.Add($"working voltage {Show.Volts(Math.Min(limit, Math.Round(Math.Sqrt((chosen.Watts ?? 0) * chosen.Value), 1)))}");
        }
        // Beneath a chassis 60 to 70 °C are usual (common practice, no source); an 85 °C type lives there, and not long near a hot body.
        if (chosen.Kind == NewKind.Electrolytic && chosen.Celsius is { } celsius and < 100) differs.Add($"for {Show.Number(celsius)} °C only: no 105 °C type has this value at this rating, so keep it away from hot parts");
        if (need.RippleAmperes is { } asks && chosen.RippleAmperes is { } bears) differs.Add($"{RippleRating.Amperes(RippleRating.At(need.RippleHertz ?? 120, bears, chosen.RippleHertz))} of ripple at {Show.Number(need.RippleHertz ?? 120)} Hz for the computed {RippleRating.Amperes(asks)}");
        var why = need.SafetyReason is { } safety ? $"{safety} {need.KindReason}" : need.KindReason;
        return $"{chosen.Text}: {string.Join(", ", differs)}. {need.Value!.Reason} {why}";
    }

    private string? Ask(Part part, RoleFinding role, Requirement need, Candidate? chosen, Decision decision, bool byUser)
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
