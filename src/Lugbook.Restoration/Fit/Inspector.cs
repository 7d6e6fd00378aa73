using System.Collections.Immutable;
using Lugbook.Restoration.Choose;

namespace Lugbook.Restoration.Fit;

/// <summary>The closing list: every lug that was touched, and how many cut ends must be found before power.</summary>
/// <remarks>Each new lead leaves the end that is cut off at its lug; each old lead on a cleared lug leaves the stub that comes out of it. A spliced old lead goes away with its part.</remarks>
internal static class Inspector
{
    public static ImmutableArray<LugInspection> Of(ImmutableArray<LugSheet> lugs, ImmutableArray<FitStep> steps, ClearanceReport clearance)
    {
        var done = steps.Where(s => s.Done).Select(s => s.Number).ToHashSet();
        return [.. lugs.Select(lug =>
        {
            var polar = steps.Where(s => lug.Steps.Contains(s.Number) && s.Polarity is not null).Select(s => s.Position).ToArray();
            var tight = clearance.Lugs.Where(p => p.Lug == lug.Lug || p.Other == lug.Lug).ToArray();
            var look = ImmutableArray.CreateBuilder<string>();
            look.Add($"{Show.List([.. lug.Off.Select(o => $"{o.Position} lead {o.Letter}")])} {(lug.Off.Length == 1 ? "is" : "are")} on it and wetted all round{(lug.Verdict == LugVerdict.ClearToBareMetal ? "" : "; the old tails hold")}.");
            var stays = lug.Stay.Select(s => $"{s.Position} lead {s.Letter}").Concat(lug.Wires.Where(w => !w.Bond).Select(w => w.Wire)).ToArray();
            if (stays.Length > 0) look.Add($"What stayed still sits firmly: {Show.List(stays)}.");
            if (polar.Length > 0) look.Add($"Polarity of {Show.List(polar)} once more.");
            if (lug.Near is [{ Millimetres: <= 6 } first, ..]) look.Add($"No bridge to {first.Lug}, {Show.Number(first.Millimetres)} mm away.");
            if (tight.Length > 0) look.Add($"Clean of flux and tails towards {Show.List([.. tight.Select(p => p.Lug == lug.Lug ? p.Other : p.Lug)])}.");
            if (lug.HeatSensitive.Length > 0) look.Add("What suffers from heat beside it is whole.");
            return new LugInspection(lug.Lug, look.ToImmutable(), lug.Off.Length * (lug.Verdict == LugVerdict.ClearToBareMetal ? 2 : 1), lug.Steps, lug.Steps.All(done.Contains));
        })];
    }
}
