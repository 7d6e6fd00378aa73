using Lugbook.Restoration.Judge;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Trace;

/// <summary>Places and proposals in words.</summary>
public static class TraceWords
{
    /// <summary>"volts at V3-3", "ohms from A-4 to A-1".</summary>
    public static string At(ProbePlace place) => place.Kind == ReadingKind.Volts ? $"volts from {place.From} to {place.To}" : $"{ReadingWords.Of(place.Kind)} from {place.From} to {place.To}";

    internal static string Ask(Candidate c, double healthy) => c.Place.Kind switch
    {
        ReadingKind.Volts => $"Set running: volts {Across(c)}. A healthy set shows {Say.Of(ReadingKind.Volts, Math.Round(healthy, 2))}.",
        ReadingKind.Ohms => $"Plug out, drained: ohms {Across(c)}. A healthy set shows {Shown(c, healthy)}.",
        _ => $"Plug out, drained: capacitance {Across(c)}, at {c.Meter.FaradsHertz:0} Hz. A healthy set shows {Shown(c, healthy)}.",
    };

    private static string Shown(Candidate c, double healthy) => healthy > c.Meter.TopOf(c.Place.Kind) ? "over" : Say.Of(c.Place.Kind, healthy);
    private static string Across(Candidate c) => c.Part is { } part ? $"across {part}, {c.Place.From} to {c.Place.To}" : $"from {c.Place.From} to common ({c.Place.To})";
}
