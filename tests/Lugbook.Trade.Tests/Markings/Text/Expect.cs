using System.Globalization;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Tests.Markings.Text;

/// <summary>Writes a meaning in one line, so that a table of markings can be read: "0.02 µF@400 ±20 %".</summary>
internal static class Expect
{
    public static string Line(Meaning m)
    {
        var parts = new List<string> { string.Join("+", m.Sections.Select(s => Notation.Print(s.Value, m.Unit) + (s.RatedVolts is { } v ? "@" + v.ToString(CultureInfo.InvariantCulture) : ""))) };
        if (m.VoltsAreAc) parts.Add("AC");
        if (m.Tolerance is { } t) parts.Add(Notation.Print(t));
        if (m.RatedWatts is { } w) parts.Add(w.ToString("0.####", CultureInfo.InvariantCulture) + "W");
        if (m.SafetyClass != SafetyClass.None) parts.Add(m.SafetyClass.ToString());
        if (m.TempcoPpm is { } p) parts.Add(p.ToString(CultureInfo.InvariantCulture) + "ppm");
        if (m.Dielectric is { } d) parts.Add(d);
        return string.Join(" ", parts);
    }

    public static void Best(string line, string marking, PartKind? kind = null)
    {
        var result = TextMarking.Read(marking, new() { Kind = kind });
        Assert.True(result.Complaint is null, $"{marking}: {result.Complaint}");
        Assert.Equal(line, Line(result.Best!));
        Assert.Equal(1, result.Meanings.Sum(m => m.Share), 1e-9);
    }
}
