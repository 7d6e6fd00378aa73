using System.Collections.Immutable;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>What the colours may mean, and why they fail where they do.</summary>
internal sealed record Found(List<Candidate> Candidates, List<Failure> Faults, bool Filled);

/// <summary>Colours that one code cannot read as written.</summary>
internal sealed record Failure(CodeLayout Layout, double Prior, Fault Fault, ImmutableArray<Sighting> Seen)
{
    /// <summary>How near the code is: one that fails at one colour of six is nearer than one that fails at four, and a type dot that fits speaks for it.</summary>
    public double Nearness => Prior * Math.Pow((Fault.Good + 0.5) / Seen.Length, 6) * (!Layout.Types.IsEmpty && Fault.Slot > 0 ? 3 : 1);
}

/// <summary>Tries codes, directions and stand-ins for what cannot be read.</summary>
internal static class Search
{
    // Two unknown figures leave a series of values; three leave every value there is.
    private const int MostUnknown = 2;

    /// <summary>All readings of the colours by the codes given.</summary>
    public static Found Run(IEnumerable<CodeLayout> layouts, ImmutableArray<Sighting> seen, MarkingContext context, bool named)
    {
        var found = new Found([], [], seen.Any(s => s.Colour is null));
        foreach (var layout in layouts)
        {
            var prior = named ? 1 : Belief.InCode(layout, context);
            if (prior <= 0) continue;
            foreach (var form in layout.Forms)
            {
                if (form.Slots.Length == seen.Length)
                {
                    Attempt(found, layout, form, seen, false, prior, context);
                    foreach (var turned in Turning.Of(layout, seen)) Attempt(found, layout, form, turned, true, prior, context);
                }
                else if (layout.Merges && form.Slots.Length > seen.Length && seen.Length >= 3 && (named || (Belief.Kind(context) is { } kind && layout.Kinds.Contains(kind))))
                {
                    foreach (var widened in Widened(seen, form.Slots.Length)) Attempt(found, layout, form, widened, false, 0.3 * prior, context, "One wide band stands for equal neighbours.");
                }
            }
        }
        KeepWhatWasMade(found);
        if (!found.Filled) AddChanged(found, seen, context);
        return found;
    }

    private static void Attempt(Found found, CodeLayout layout, Arrangement form, ImmutableArray<Sighting> seen, bool turned, double prior, MarkingContext context, string altered = "")
    {
        var unknown = seen.Where((s, i) => s.Colour is null && IsValue(form.Slots[i])).Count();
        if (unknown > MostUnknown)
        {
            if (!turned) found.Faults.Add(new(layout, prior, new(seen.ToList().FindIndex(s => s.Colour is null), "too little is readable", false, 0), seen));
            return;
        }
        Fault? first = null;
        foreach (var (colours, weight, filled, change) in Choices(layout, form, seen))
        {
            var (read, fault) = Decoder.Read(layout, form, colours);
            if (read is null) { first ??= fault; continue; }
            var (belief, fit, series) = Belief.InReading(read, context);
            found.Candidates.Add(new(read, turned, change.Length > 0 ? change : altered, filled)
            {
                Prior = prior,
                Belief = belief * weight * (turned ? Belief.OfTurned : 1) * (filled.Length > 0 ? Belief.OfCommon(read) * (turned ? 0.3 : 1) : 1),
                Fit = fit, Series = series,
            });
        }
        if (!turned && altered.Length == 0 && first is not null) found.Faults.Add(new(layout, prior, first, seen));
    }

    /// <summary>Every way to fill what cannot be read or is doubted; the literal one first.</summary>
    private static IEnumerable<(ImmutableArray<Colour?> Colours, double Weight, string Filled, string Change)> Choices(CodeLayout layout, Arrangement form, ImmutableArray<Sighting> seen)
    {
        var doubted = seen.Count(s => s.Unsure);
        IEnumerable<(ImmutableArray<Colour?> Colours, double Weight, string Filled, string Change)> all = [([], 1, "", "")];
        for (var i = 0; i < seen.Length; i++)
        {
            var slot = form.Slots[i];
            var one = seen[i];
            List<(Colour? Colour, double Weight, string Filled, string Change)> options;
            if (one.Colour is { } colour)
            {
                options = [(colour, 1, "", "")];
                if (one.Unsure && doubted <= MostUnknown)
                    options.AddRange(Ageing.Before(colour, slot.Role).Select(b => ((Colour?)b.Was, 0.4, "", $"With {b.Was.Name()} for the doubtful {colour.Name()} in {slot.Place}.")));
            }
            else if (IsValue(slot))
            {
                options = [.. layout.Table.Rows.Where(r => Decoder.Objection(layout, slot, r.Colour) is null && !(i == 0 && r.Figure == 0))
                    .Select(r => ((Colour?)r.Colour, 1.0, $"{r.Colour.Name()} as {slot.Words}", ""))];
            }
            else
            {
                options = [(null, 1, "", "")];
            }
            all = all.SelectMany(a => options, (a, o) => (a.Colours.Add(o.Colour), a.Weight * o.Weight, Join(a.Filled, o.Filled), $"{a.Change} {o.Change}".Trim()));
        }
        return all;
    }

    private static string Join(string a, string b) => a.Length == 0 ? b : b.Length == 0 ? a : $"{a}, {b}";

    private static bool IsValue(Slot slot) => slot.Role is Role.Figure or Role.Multiplier;

    /// <summary>Drops turned readings that only the turn made possible, when nothing of that value was made; and filled ones likewise.</summary>
    private static void KeepWhatWasMade(Found found)
    {
        var all = found.Candidates;
        var written = all.Where(c => !c.Turned && c.Altered.Length == 0).Select(c => c.Read.Layout.Id).ToHashSet();
        all.RemoveAll(c => c.Turned && !written.Contains(c.Read.Layout.Id) && (c.Fit < (c.Read.Layout.IsCapacitor ? Fit.Round : Fit.Finer) || c.Belief < 0.01));
        all.RemoveAll(c => c.Altered.Length > 0 && c.Fit < Fit.Round);
        if (!found.Filled) return;
        if (all.Any(c => c.Filled.Length > 0 && c.Fit >= Fit.Round)) all.RemoveAll(c => c.Filled.Length > 0 && c.Fit < Fit.Round);
        else all.RemoveAll(c => c.Filled.Length > 0 && c.Fit == Fit.None);
    }

    /// <summary>Rule Q-03: when no reading is a made value, one colour may have changed with age.</summary>
    private static void AddChanged(Found found, ImmutableArray<Sighting> seen, MarkingContext context)
    {
        var all = found.Candidates;
        if (all.Count == 0) return;
        var likely = 0.1 * all.Max(c => c.Prior);
        if (all.Any(c => c.Prior >= likely && c.Altered.Length == 0 && c.Fit >= Fit.Round && Belief.OfPercent(c.Read) > 0.1)) return;
        var changed = new List<Candidate>();
        foreach (var literal in all.Where(c => !c.Turned && c.Altered.Length == 0 && c.Prior >= likely).ToList())
        {
            foreach (var (form, colours, why) in Alternatives(literal, seen))
            {
                var (read, _) = Decoder.Read(literal.Read.Layout, form, colours);
                if (read is null) continue;
                var (belief, fit, series) = Belief.InReading(read, context);
                if (fit < Fit.Round || Belief.OfPercent(read) < 0.1) continue;
                // Never above the reading that needs no excuse.
                changed.Add(new(read, false, why, "")
                {
                    Prior = literal.Prior, Belief = literal.Belief * Belief.OfChanged * Math.Min(1, belief), Fit = fit, Series = series,
                });
            }
        }
        all.AddRange(changed.OrderByDescending(c => c.Weight).Take(3));
    }

    private static IEnumerable<(Arrangement Form, ImmutableArray<Colour?> Colours, string Why)> Alternatives(Candidate literal, ImmutableArray<Sighting> seen)
    {
        var form = literal.Read.Form;
        if (seen.Length != form.Slots.Length) yield break;
        ImmutableArray<Colour?> colours = [.. seen.Select(s => s.Colour)];
        for (var i = 0; i < colours.Length; i++)
        {
            if (colours[i] is not { } colour || form.Slots[i].Role == Role.Type) continue;
            foreach (var (was, why) in Ageing.Before(colour, form.Slots[i].Role))
                yield return (form, colours.SetItem(i, was), $"A colour may have changed with age: {was.Name()} for {(colour == Colour.None ? "no colour" : colour.Name())} in {form.Slots[i].Place} ({why}).");
        }
        // A band that is not seen at all may have faded.
        var longer = literal.Read.Layout.Forms.FirstOrDefault(f => f.Slots.Length == form.Slots.Length + 1);
        if (form.ImpliedPercent is not null && longer is { Slots: [.., { Role: Role.Tolerance }] })
            foreach (var (was, why) in Ageing.Before(Colour.None, Role.Tolerance))
                yield return (longer, colours.Add(was), $"A colour may have changed with age: {was.Name()} in {longer.Slots[^1].Place}, not seen now ({why}).");
    }

    // "orange white red" of a film part: the wide orange stands for three bands.
    private static IEnumerable<ImmutableArray<Sighting>> Widened(ImmutableArray<Sighting> seen, int length)
    {
        if (seen.Length == length) return [seen];
        return Enumerable.Range(0, seen.Length)
            .Where(i => i == 0 || seen[i] != seen[i - 1])
            .SelectMany(i => Widened(seen.Insert(i, seen[i]), length))
            .DistinctBy(s => string.Join(' ', s.Select(x => $"{x.Colour}")));
    }
}
