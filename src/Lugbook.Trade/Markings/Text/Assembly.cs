using System.Collections.Immutable;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>A meaning that is not yet weighed against the others.</summary>
internal readonly record struct Draft(Meaning Meaning, Candidate Candidate, double Weight);

/// <summary>Decides what the facts amount to: which number is the value, which the volts, and in which ways it can be taken.</summary>
internal static class Assembly
{
    /// <summary>All drafts, or the failure.</summary>
    public static List<Draft> Build(Facts facts, MarkingContext context, out Failure? failure)
    {
        failure = Bares(facts, context, out var values);
        if (failure is not null) return [];
        var candidates = Sections.Combine(values, out failure, out var windingOhms);
        if (failure is not null) return [];

        ShareVolts(values, facts);
        var situation = Situate(facts, context);
        var possible = candidates.Where(c => c.Values.All(v => Belief.IsPossible(c.Unit, v))).ToList();
        if (possible.Count == 0)
        {
            failure = new(values.Length > 0 ? values[0].Start : 0, "the value is beyond any part of the trade", "Look at the figures and the unit again.");
            return [];
        }
        if (windingOhms is not null && context.Kind == Parts.PartKind.Winding)
            possible.Insert(0, new(Unit.Ohm, [windingOhms.Value], Form.Spelt, "DC resistance of a winding", "of a winding the value is its DC resistance") { Weight = 3 });
        else if (windingOhms is not null)
            facts.Doubts.Add($"its DC resistance is marked {Notation.Print(windingOhms.Value, Unit.Ohm)}");
        return [.. possible.Select(c => new Draft(Describe(c, facts, situation, possible), c, Math.Max(1e-12, Belief.Of(c, situation))))];
    }

    // "40 MFD 450V, 20-20 MFD 25V": each group's volts are for its own sections.
    private static void ShareVolts(ImmutableArray<ValueGroup> values, Facts facts)
    {
        if (values.Length < 2) return;
        var shared = new List<VoltNumber>();
        for (var i = 0; i < values.Length; i++)
        {
            var end = i + 1 < values.Length ? values[i + 1].VoltsBefore : facts.Volts.Count;
            var own = facts.Volts.Skip(values[i].VoltsBefore).Take(Math.Max(0, end - values[i].VoltsBefore)).ToList();
            var count = values[i].Candidates[0].Values.Length;
            if (own.Count == 0 || (own.Count != 1 && own.Count != count)) return;
            for (var n = 0; n < count; n++) shared.Add(own[own.Count == 1 ? 0 : n]);
        }
        facts.Volts = shared;
    }

    // "40-30 @ 150V 20 @ 25V": several bare groups, each with its volts after it.
    private static List<VoltNumber>? Groups(List<BareGroup> bares, Facts facts)
    {
        var shared = new List<VoltNumber>();
        for (var i = 0; i < bares.Count; i++)
        {
            var end = i + 1 < bares.Count ? bares[i + 1].VoltsBefore : facts.Volts.Count;
            if (end != bares[i].VoltsBefore + 1) return null;
            shared.AddRange(Enumerable.Repeat(facts.Volts[bares[i].VoltsBefore], bares[i].Numbers.Length));
        }
        return shared;
    }

    private static Situation Situate(Facts facts, MarkingContext context) =>
        new(context, facts, facts.Volts.Count > 0) { Volts = facts.Volts.Count > 0 ? facts.Volts.Min(v => v.Volts) : null };

    // Bare numbers become the value when there is none, and volts when there is one.
    private static Failure? Bares(Facts facts, MarkingContext context, out ImmutableArray<ValueGroup> values)
    {
        values = [.. facts.Values];
        var bares = facts.Bares.ToList();
        if (values.IsEmpty)
        {
            if (bares.Count == 0) return NoValue(facts);
            if (bares.Count > 1 && Groups(bares, facts) is { } shared)
            {
                facts.Volts = shared;
                bares = [new([.. bares.SelectMany(b => b.Numbers)], [.. bares.SelectMany(b => b.Separators)], [.. bares.SelectMany(b => b.Starts)], false)];
            }
            if (bares.Count > 1 && facts.Volts.Count == 0 && bares.All(b => b.Numbers.Length > 1 && b.Numbers[^1].Value >= 6 && VoltageCodes.IsRating(b.Numbers[^1].Value)))
            {
                // "20-450 20-25"
                foreach (var b in bares)
                    for (var n = 1; n < b.Numbers.Length; n++) AddVolts(facts, b.Numbers[^1].Value, b.Starts[^1]);
                bares = [new([.. bares.SelectMany(b => b.Numbers[..^1])], [.. bares.SelectMany(b => b.Separators[..^1])], [.. bares.SelectMany(b => b.Starts[..^1])], false)];
            }
            var group = bares[0];
            bares.RemoveAt(0);
            if (Pairs(group, facts, bares) is { } regrouped) group = regrouped;
            var count = ValuesIn(group, facts, bares);
            var ranged = count == 2 && group.Separators[1] == '-' && Situate(facts, context).Kind is Parts.PartKind.Trimmer or Parts.PartKind.VariableCapacitor && group.Numbers[0].Value < group.Numbers[1].Value;
            for (var i = count; i < group.Numbers.Length; i++) AddVolts(facts, group.Numbers[i].Value, group.Starts[i]);
            bares.RemoveAll(b => IsDate(b, facts));
            foreach (var bare in bares)
                if (Volts(bare, facts) is { } wrong) return wrong;
            var situation = Situate(facts, context);
            var numbers = ranged ? group.Numbers[1..2] : group.Numbers[..count];
            var candidates = BareNumbers.Candidates(numbers, situation);
            if (candidates.IsEmpty)
                return new(group.Starts[0] + 2, "no three-digit code ends in 7, and no such value is made", "Look at the figures again, or write the unit.");
            if (ranged) candidates = [.. candidates.Select(c => c with { Form = Form.Range, Weight = c.Form == Form.TrueValue ? 1 : 0.01, Doubt = "it adjusts from a lower value, which is marked too" })];
            values = [new(candidates, group.Starts[0], false)];
            return null;
        }
        bares.RemoveAll(b => IsDate(b, facts));
        foreach (var bare in bares)
        {
            if (!values.Any(v => v.Candidates.Any(c => c.Unit == Unit.Farad)))
                return new(bare.Starts[0], "a second number without a unit", "Write the unit after it: V, W or %.");
            if (Volts(bare, facts) is { } wrong) return wrong;
        }
        return null;
    }

    // "40-40/450, 20/25": values and their volts, part by part.
    private static BareGroup? Pairs(BareGroup group, Facts facts, List<BareGroup> others)
    {
        if (facts.Volts.Count > 0 || others.Count > 0 || !group.Separators.Any(s => s is ',' or ';' or '&')) return null;
        var values = new List<int>();
        var volts = new List<(int At, int Count)>();
        var pending = 0;
        for (var i = 0; i < group.Numbers.Length; i++)
        {
            if (group.Separators[i] == '/' && VoltageCodes.IsRating(group.Numbers[i].Value) && pending > 0)
            {
                volts.Add((i, pending));
                pending = 0;
            }
            else if (pending > 0 && group.Separators[i] is ',' or ';' or '&') return null;
            else
            {
                values.Add(i);
                pending++;
            }
        }
        if (pending > 0 || volts.Count < 2) return null;
        foreach (var (at, count) in volts)
            for (var n = 0; n < count; n++) AddVolts(facts, group.Numbers[at].Value, group.Starts[at]);
        return new([.. values.Select(i => group.Numbers[i])], [.. values.Select(i => group.Separators[i])], [.. values.Select(i => group.Starts[i])], group.Follows);
    }

    private static Failure NoValue(Facts facts) => facts.Volts.Count > 0
        ? new(facts.Volts[0].Start, "a voltage alone is no value", "Write the value too: .05 MFD 400V.")
        : facts.Watts is not null || facts.Amperes is not null
            ? new(0, "watts or amperes alone are no value", "Write the value too: 47K 1/2W.")
            : new(0, "there is no value in it", "Write the value's figures, with ? for each one that cannot be read.");

    // ".02-600", "22/35", "40-20-450": the last number can be the volts when no others are marked.
    private static int ValuesIn(BareGroup group, Facts facts, List<BareGroup> others)
    {
        var count = group.Numbers.Length;
        if (count < 2 || facts.Volts.Count > 0 || others.Count > 0) return count;
        var last = group.Numbers[^1].Value;
        if (!VoltageCodes.IsRating(last) || last < 6) return count;
        var before = group.Numbers[^2].Value;
        var sign = group.Separators[^1];
        if (sign == 'x') return last >= 100 && before < 1 ? count - 1 : count;   // .05 x 400
        var asVolts = sign == '/' ? last > before || (before >= 500 && last >= 100 && last != before) || (before >= 4 * last && last is 6.3 or 10 or 12 or 16 or 25 or 35 or 63) : last >= 100 && last > before;
        return asVolts && sign is '/' or '-' or ',' && (sign != '/' || last >= 100 || before < 1 || last is 6.3 or 10 or 12 or 16 or 25 or 35 or 50 or 63) ? count - 1 : count;
    }

    // 6/58, 12-62, 1956: when it was made.
    private static bool IsDate(BareGroup group, Facts facts)
    {
        bool Year(double n) => n is >= 1924 and <= 1989 && n == Math.Floor(n) && !VoltageCodes.IsRating(n);
        var date = group.Numbers.Length == 1 ? Year(group.Numbers[0].Value)
            : group.Numbers.Length == 2 && group.Separators[1] is '/' or '-' && group.Numbers[0] is { IsWhole: true, Value: >= 1 and <= 53 } && (Year(group.Numbers[1].Value) || group.Numbers[1] is { IsWhole: true, Value: >= 28 and <= 79 });
        if (date) facts.Doubts.Add("two numbers or a year are taken as the date: " + string.Join("/", group.Numbers.Select(n => n.Figures)));
        return date;
    }

    private static Failure? Volts(BareGroup group, Facts facts)
    {
        for (var i = 0; i < group.Numbers.Length; i++)
        {
            var number = group.Numbers[i].Value;
            var fits = (group.Numbers[i].IsWhole || VoltageCodes.IsRating(number)) && number is >= 3 and <= 40000 && (VoltageCodes.IsRating(number) || number >= 100);
            if (!fits)
                return new(group.Starts[i], "two values without a section mark", "Put - or / between the sections, or write V after a voltage.");
            AddVolts(facts, number, group.Starts[i]);
        }
        return null;
    }

    private static void AddVolts(Facts facts, double volts, int start) => facts.Volts.Add(new(volts, VoltTraits.None, start, -1));

    private static Meaning Describe(Candidate c, Facts facts, Situation situation, List<Candidate> all)
    {
        var doubts = new List<string>(facts.Doubts);
        if (c.Doubt is not null) doubts.Add(c.Doubt);
        if (facts.Unread.Count > 0) doubts.Add("not understood and left out: " + string.Join(", ", facts.Unread.Distinct()));
        var (volts, ac) = Ratings.Of(facts, c.Volts, c.Values.Length, doubts);
        if (!situation.Fits(c.Unit)) doubts.Add($"the unit is not that of a {Parts.PartKinds.Spelling(situation.Kind!.Value)}: measure it");
        if (facts.Amperes is { } amperes) doubts.Add($"its current is marked {Notation.Print(amperes, Unit.Ampere)}");
        if (facts.Classes.Count > 1) doubts.Add("marked for two classes: " + string.Join(" and ", facts.Classes));
        var tolerance = facts.TolerancePicofarads is { } pico && c.Unit == Unit.Farad ? ToleranceLetters.Absolute(pico, c.Value) : facts.Tolerance ?? c.Tolerance;
        return new()
        {
            Unit = c.Unit,
            Sections = [.. c.Values.Zip(volts, (v, r) => new Section(v, r))],
            Tolerance = tolerance,
            RatedWatts = c.Unit == Unit.Ohm ? facts.Watts : null,
            VoltsAreAc = ac,
            SafetyClass = facts.Classes.Count == 0 ? SafetyClass.None : facts.Classes.Max(),
            TempcoPpm = c.Unit == Unit.Farad ? c.TempcoPpm ?? facts.TempcoPpm : null,
            Dielectric = c.Unit == Unit.Farad ? facts.Dielectric ?? facts.DielectricWord : null,
            Code = c.Code,
            Reason = Reasons.Of(c, situation, all),
            Share = 1,
            Doubts = [.. doubts],
        };
    }
}
