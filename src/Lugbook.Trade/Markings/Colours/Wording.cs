using System.Collections.Immutable;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>Reasons and doubts of a reading, as sentences.</summary>
internal static class Wording
{
    /// <summary>Why it ranks where it does.</summary>
    public static string Reason(Candidate candidate, string? asWrittenFails)
    {
        var read = candidate.Read;
        var sentences = new List<string>();
        if (candidate.Turned)
            sentences.Add($"{Capital(read.Layout.Turned)}{(asWrittenFails is null ? "" : $", because as written {asWrittenFails}")}.");
        if (candidate.Filled.Length > 0) sentences.Add($"With {candidate.Filled}.");
        if (candidate.Altered.Length > 0) sentences.Add(candidate.Altered);
        sentences.Add(Made(candidate));
        if (!read.Layout.IsCapacitor && read.Form.ImpliedPercent is { } implied) sentences.Add($"No colour for the tolerance: ±{Shown.Number(implied)} % understood.");
        if (read.Layout.Sign.Length > 0) sentences.Add(read.Layout.Sign);
        sentences.AddRange(read.Says);
        if (candidate.AlsoBy.Count > 0) sentences.Add($"The same by: {string.Join("; ", candidate.AlsoBy)}.");
        return string.Join(' ', sentences);
    }

    /// <summary>Doubts to show beside it.</summary>
    public static ImmutableArray<string> Doubts(Candidate candidate)
    {
        var read = candidate.Read;
        var doubts = new List<string>(read.Layout.Doubts);
        doubts.AddRange(read.Doubts);
        if (!Belief.IsUsual(read.Layout, read.Value)) doubts.Add($"{Shown.Value(read.Value, read.Layout.Unit)} is unusual for {read.Layout.Title}");
        if (Belief.OfPercent(read) < 0.1) doubts.Add($"±{Shown.Number(read.Percent!.Value)} % was hardly made in this code: look at the tolerance colour again");
        if (candidate.Fit == Fit.None && candidate.Altered.Length == 0) doubts.Add("in no series: a colour is probably misread, or the part was made to order");
        if (read.Layout.NoneIsBody && candidate.Fit < Fit.Round && read.Colours.Skip(1).Take(2).Any(c => c == read.Colours[0]))
            doubts.Add("an end or a dot may be lost in the paint: look for traces of another colour");
        if (candidate.AlsoBy.Count > 0 && read.Layout.IsCapacitor && (read.Volts is not null || read.Percent is not null) && candidate.Prior < 1)
            doubts.Add("volts and tolerance hold for this code only: make sure of the body's shape");
        return [.. doubts.Distinct()];
    }

    private static string Made(Candidate candidate)
    {
        var read = candidate.Read;
        var value = Shown.Value(read.Value, read.Layout.Unit);
        if (read.Layout.IsCapacitor)
        {
            return candidate.Fit switch
            {
                Fit.Own => $"{value} is a made value ({candidate.Series}).",
                Fit.Round => $"{value} is an old round value.",
                Fit.Finer => $"{value} is in {candidate.Series} only.",
                _ => $"{value} is in no series.",
            };
        }
        var percent = read.PercentOfValue;
        var own = percent is { } p ? $"{SeriesFit.SeriesOf(p)}, the series of ±{Shown.Number(p)} %" : "E24";
        return candidate.Fit switch
        {
            Fit.Own when candidate.Series == SeriesFit.SeriesOf(percent) => $"{value} is in {own}.",
            Fit.Own => $"{value} is in {candidate.Series}, in which ±{Shown.Number(percent!.Value)} % parts are sold too.",
            Fit.Round => $"{value} is an old round value, not in {own}.",
            Fit.Finer => $"{value} is not in {own}, but in {candidate.Series}.",
            _ => $"{value} is in no series.",
        };
    }

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
