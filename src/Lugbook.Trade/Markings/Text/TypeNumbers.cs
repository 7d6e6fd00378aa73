using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>Military type numbers that end in the value: RC20GF473J, RN60D1002F, CM20B471J, CK05BX102K.</summary>
/// <remarks>Scheme from memory of the JAN and MIL specifications; common practice, no source.</remarks>
internal static class TypeNumbers
{
    private static readonly string[] Resistors = ["RC", "RCR", "RN", "RNR", "RNC", "RL", "RLR"];
    private static readonly string[] Capacitors = ["CM", "CMR", "CK", "CKR", "CC", "CN", "CY", "CYR", "CB", "DM", "CP"];

    /// <summary>Does such a number begin with this word?</summary>
    public static bool Begins(string word) => Resistors.Contains(word) || Capacitors.Contains(word);

    /// <summary>The value in it, or nothing.</summary>
    public static IEnumerable<Candidate> Read(IReadOnlyList<Token> run)
    {
        if (run.Count < 4 || !run[0].IsWord || !Begins(run[0].Text) || !run[1].IsFigures(2)) yield break;
        var last = run.Count - 1;
        var tail = run[last].IsWord ? run[last--].Text : "";
        if (last < 2 || last > 3 || (last == 3 && !run[2].IsWord) || tail.Length > 2) yield break;
        var unit = Resistors.Contains(run[0].Text) ? Unit.Ohm : Unit.Farad;
        double value;
        if (run[last].IsFigures(3) && run[last].Text[2] != '7')
            value = CompactCode.CodeValue(run[last].Text) is { } farads ? (unit == Unit.Farad ? farads : Numeral.Scale(run[last].Text[..2], Noughts(run[last].Text[2]))) : 0;
        else if (run[last].IsFigures(4))
            value = Numeral.Scale(run[last].Text[..3], Noughts(run[last].Text[3]) - (unit == Unit.Farad ? 12 : 0));
        else yield break;
        if (!(value > 0)) yield break;
        yield return new(unit, [value], Form.TypeNumber, "military type number", "the figures before the tolerance letter are the value and its noughts")
        {
            Tolerance = tail.Length > 0 ? ToleranceLetters.Of(tail[0], unit, value) : null,
        };
    }

    private static int Noughts(char c) => c switch { '8' => -2, '9' => -1, _ => c - '0' };
}
