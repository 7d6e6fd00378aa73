using Lugbook.Trade.Parts;
using Lugbook.Trade.Preferred;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>Says in a sentence why a meaning ranks where it does.</summary>
internal static class Reasons
{
    /// <summary>The sentence.</summary>
    public static string Of(Candidate c, Situation s, List<Candidate> all)
    {
        var parts = new List<string> { c.Reason };
        if (c.OtherMark is { } mark) parts.Add(mark switch
        {
            OtherMark.ToThousands => "the point before three figures is a thousands mark",
            OtherMark.ToDecimal => "the comma before three figures is a decimal mark",
            _ => "the nought before it means nothing",
        });
        if (c.Habit is Habit.MThousand or Habit.MMillion && all.Any(o => o.Habit is Habit.MThousand && c.Habit is Habit.MMillion || o.Habit is Habit.MMillion && c.Habit is Habit.MThousand))
            Meg(c, s, parts);
        else if (all.Count > 1)
        {
            if (!s.Fits(c.Unit)) parts.Add($"but that is no value for a {PartKinds.Spelling(s.Kind!.Value)}");
            else if (c.Unit != Unit.Henry && c.Form != Form.Range && !OldValues.IsMade(c.Value, c.Unit)) parts.Add($"but {Notation.Print(c.Value, c.Unit)} is not a made value");
            else if (Belief.Likely(c, s) < 0.2) parts.Add($"but {Notation.Print(c.Value, c.Unit)} is seldom seen in such a part");
        }
        if (s.Context.ExpectedValue is > 0 and var expected && double.IsFinite(expected) && all.Count > 1 && Math.Abs(Math.Log(c.Value / expected)) < 0.5)
            parts.Add($"it agrees with the expected {Notation.Print(expected, c.Unit)}");
        var sentence = string.Join("; ", parts);
        var first = sentence.Length > 1 && char.IsLower(sentence[1]) || sentence[0] == 'a' ? char.ToUpperInvariant(sentence[0]) : sentence[0];
        return first + sentence[1..] + ".";
    }

    private static void Meg(Candidate c, Situation s, List<string> parts)
    {
        var (thousand, because) = MegEvidence.Weigh(s.Context, Belief.Figures(c));
        var isThousand = c.Habit == Habit.MThousand;
        var value = Notation.Print(c.Value, c.Unit);
        if (Belief.Likely(c, s) < 0.05) parts.Add($"but {value} is not made for such sets");
        if (because is null) return;
        var supports = thousand > 0.5 == isThousand;
        parts.Add((supports ? "" : "but ") + because);
    }
}
