using System.Text.RegularExpressions;
using Lugbook.Restoration.Judge;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Choose;

/// <summary>Does the old part go? The user's word first, then safety, then what was measured, then the family.</summary>
internal static partial class DecisionRule
{
    public static (Decision Decision, string Reason, bool ByUser) Decide(Part part, PositionWork? work, Requirement requirement, School school, PartVerdict? judged)
    {
        if (work is { Decision: not Decision.Undecided })
            return (work.Decision, work.Reason is { Length: > 0 } reason ? reason : "Decided by the user; no reason written.", true);
        if (requirement.SafetyClass != SafetyClass.None)
        {
            // Early class-marked parts were metallised paper, and those burst: the mark does not save them.
            var marked = part.Kind == PartKind.Paper ? [] : ClassesMarked(part).Where(requirement.Accepts).ToArray();
            return marked.Length > 0
                ? (Decision.Stays, $"It carries the class mark {marked[0]}, which this position asks for.", false)
                : (Decision.Goes, $"This position asks for class {requirement.SafetyClass}; the old part carries no such mark.", false);
        }
        if (judged is not null) return (judged.Decision, judged.Reason, judged.ByUser);
        return part.Kind switch
        {
            PartKind.Paper when school == School.Replace => (Decision.Goes, "Paper capacitors leak after so many years; hardly any passes a test at working voltage.", false),
            PartKind.Electrolytic when school == School.Replace => (Decision.Goes, "Old electrolytics dry out, leak or short.", false),
            PartKind.Paper or PartKind.Electrolytic => (Decision.MeasureFirst, "Measure leakage at working voltage, and capacitance; it goes if it fails.", false),
            PartKind.Mica or PartKind.SilverMica => (Decision.Stays, "Mica lasts; it goes only on evidence. Make sure it is mica: some paper capacitors wear the same case.", false),
            PartKind.Ceramic => (Decision.Stays, "Ceramic lasts; it goes only on evidence.", false),
            PartKind.Film => (Decision.Stays, "Film lasts; it goes only on evidence.", false),
            PartKind.Resistor => (Decision.MeasureFirst, "Measure it: composition drifts, nearly always upwards; beyond its tolerance it goes.", false),
            _ => (Decision.MeasureFirst, "Its kind is not entered: find out first. Paper and electrolytic go, mica and ceramic stay.", false),
        };
    }

    /// <summary>The classes printed on the old part, as far as its marking is entered.</summary>
    public static IEnumerable<SafetyClass> ClassesMarked(Part part) =>
        Mark().Matches(part.Marked ?? "").Select(m => Enum.Parse<SafetyClass>(m.Value, ignoreCase: true));

    [GeneratedRegex(@"\b(X1|X2|Y1|Y2)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Mark();
}
