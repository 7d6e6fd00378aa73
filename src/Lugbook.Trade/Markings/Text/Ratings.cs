using System.Globalization;

namespace Lugbook.Trade.Markings.Text;

/// <summary>Which of the written voltages rates which section.</summary>
internal static class Ratings
{
    /// <summary>Rated volts of each section (null when not marked), whether they are AC, and the doubts.</summary>
    public static (double?[] Volts, bool Ac) Of(Facts facts, double? fromCode, int sections, List<string> doubts)
    {
        var written = facts.Volts;
        var traits = facts.VoltTraits;
        var ac = facts.Classes.Count > 0 || ((traits & VoltTraits.Ac) != 0 && (traits & VoltTraits.Dc) == 0);
        if (written.Count == 0)
            return ([.. Enumerable.Repeat(fromCode, sections)], fromCode is not null && ac);

        var flagged = traits & (VoltTraits.Peak | VoltTraits.Test);
        var numbers = written.ToList();
        if (numbers.Any(v => (v.Traits & VoltTraits.Ac) != 0) && numbers.Any(v => (v.Traits & VoltTraits.Ac) == 0) && sections == 1)
        {
            var wanted = facts.Classes.Count > 0 ? VoltTraits.Ac : VoltTraits.None;
            var other = numbers.Where(v => (v.Traits & VoltTraits.Ac) != wanted).ToList();
            numbers = [.. numbers.Where(v => (v.Traits & VoltTraits.Ac) == wanted)];
            ac = wanted == VoltTraits.Ac;
            doubts.Add($"also marked {Volt(other[0].Volts)} {(ac ? "DC" : "AC")}");
        }
        var plain = numbers.Where(v => (v.Traits & (VoltTraits.Peak | VoltTraits.Test)) == 0).ToList();
        if (flagged != 0)
        {
            if (sections > 1 && plain.Count == sections) numbers = plain;
            else if (numbers.Count == 1 || numbers.All(v => v.Volts == numbers[0].Volts))
            {
                doubts.Add((flagged & VoltTraits.Test) != 0
                    ? $"test volts are not a rating: the working volts are about {Volt(Math.Round(numbers[0].Volts / 3))} to {Volt(numbers[0].Volts / 2)}; go by the circuit"
                    : $"peak or surge volts are not a rating: the working volts are about {Volt(Math.Round(numbers[0].Volts / 1.15))}; go by the circuit");
                return (new double?[sections], false);
            }
        }
        if (sections == 1)
        {
            var lowest = numbers.Min(v => v.Volts);
            if (numbers.Any(v => v.Volts > lowest) && flagged == 0) doubts.Add(facts.Classes.Count > 1
                ? $"of {numbers.Count} voltages, one for each class, the lowest is given"
                : $"of {numbers.Count} voltages the lowest is taken as the rating; the higher is peak or test volts");
            return ([lowest], ac);
        }
        if (numbers.Count == 1) return ([.. Enumerable.Repeat((double?)numbers[0].Volts, sections)], ac);
        // 450/500 V on a can of two sections: working and surge volts of both, since no maker rates the smaller section a little higher.
        if (numbers.Count == 2 && numbers[1].Volts > numbers[0].Volts && numbers[1].Volts <= 1.25 * numbers[0].Volts)
        {
            doubts.Add($"{Volt(numbers[1].Volts)}, a little above {Volt(numbers[0].Volts)}, is taken for surge volts, not for a section's rating");
            return ([.. Enumerable.Repeat((double?)numbers[0].Volts, sections)], ac);
        }
        if (numbers.Count == 2 * sections && flagged != 0)
            return ([.. Enumerable.Range(0, sections).Select(i => (double?)Math.Min(numbers[i].Volts, numbers[i + sections].Volts))], ac);
        if (numbers.Count < sections)
        {
            doubts.Add($"{numbers.Count} voltages for {sections} sections: the first is taken for all but the last ones");
            return ([.. Enumerable.Range(0, sections).Select(i => (double?)numbers[Math.Max(0, i - sections + numbers.Count)].Volts)], ac);
        }
        if (numbers.Count > sections) doubts.Add($"{numbers.Count} voltages for {sections} sections: the first ones are taken in order");
        return ([.. numbers.Take(sections).Select(v => (double?)v.Volts)], ac);
    }

    private static string Volt(double volts) => volts.ToString("0.##", CultureInfo.InvariantCulture) + " V";
}
