using Lugbook.Restoration.Judge;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Slips;

/// <summary>The meters of an after-check.</summary>
/// <param name="Ohms">Reads ohms.</param>
/// <param name="Farads">Reads capacitance; null when there is none.</param>
public sealed record BenchMeters(Meter Ohms, Meter? Farads)
{
    // Leads and clips; stray capacitance of wiring, sockets and valves. Common practice, no source.
    private const double LeadOhms = 0.5, StrayFarads = 100e-12;

    /// <summary>What the ohmmeter may show where the true resistance lies between two ends, Ω; infinite above its top, where it shows "over".</summary>
    internal Interval Shown(Interval between)
    {
        var (low, high) = (between.Low, between.High);
        var top = Ohms.OhmsTop;
        return new(low > top ? top : Math.Max(0, low - Ohms.OhmsUncertainty(low)), high > top || high + LeadOhms + Ohms.OhmsUncertainty(high) > top ? double.PositiveInfinity : high + LeadOhms + Ohms.OhmsUncertainty(high));
    }

    /// <summary>What the capacitance meter may show, F.</summary>
    internal Interval ShownFarads(Interval between)
    {
        var (scale, high) = (Farads!.Farads!, between.High + StrayFarads);
        return new(between.Low > scale.Top ? scale.Top : Math.Max(0, between.Low - scale.Uncertainty(between.Low)), high > scale.Top ? double.PositiveInfinity : high + scale.Uncertainty(high));
    }

    internal Meter For(ReadingKind kind) => kind == ReadingKind.Farads ? Farads! : Ohms;
}
