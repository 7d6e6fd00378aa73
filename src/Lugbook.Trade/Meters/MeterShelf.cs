using System.Collections.Immutable;

namespace Lugbook.Trade.Meters;

/// <summary>General meters of the kinds that people own; figures as such instruments usually state them (common practice, no source).</summary>
public static class MeterShelf
{
    private static readonly ImmutableArray<double> PointerVolts = [2.5, 10, 50, 250, 500, 1000];
    private static readonly ImmutableArray<double> DigitalVolts = [0.2, 2, 20, 200, 1000];

    /// <summary>All that ship.</summary>
    public static ImmutableArray<Meter> All { get; } =
    [
        new()
        {
            Name = "digital-10M", Description = "digital hand meter, 10 MΩ on volts, with capacitance", InputOhms = 10e6,
            Volts = new(DigitalVolts, 0.005, digits: 2, counts: 2000), AcVolts = new([2, 20, 200, 750], 0.01, digits: 4, counts: 2000),
            Ohms = new([200, 2e3, 20e3, 200e3, 2e6, 20e6], 0.008, digits: 3, counts: 2000), OhmsTestVolts = 0.5,
            Farads = new([20e-9, 200e-9, 2e-6, 20e-6, 200e-6], 0.03, digits: 5, counts: 2000), FaradsHertz = 120,
        },
        new()
        {
            Name = "pointer-20k", Description = "pointer instrument, 20,000 Ω a volt", OhmsPerVolt = 20e3,
            Volts = new(PointerVolts, 0, 0.03), AcVolts = new([10, 50, 250, 500, 1000], 0, 0.05), PointerOhms = new([12, 120, 1200, 120e3], 0.03), OhmsTestVolts = 1.5,
        },
        new()
        {
            Name = "pointer-1k", Description = "pointer instrument of old charts, 1,000 Ω a volt", OhmsPerVolt = 1e3,
            Volts = new(PointerVolts, 0, 0.03), AcVolts = new([10, 50, 250, 500, 1000], 0, 0.05), PointerOhms = new([30, 3e3, 30e3], 0.03), OhmsTestVolts = 1.5,
        },
        new()
        {
            Name = "valve-voltmeter-11M", Description = "valve voltmeter, 11 MΩ with its probe", InputOhms = 11e6,
            Volts = new([1.5, 5, 15, 50, 150, 500, 1500], 0, 0.03), AcVolts = new([1.5, 5, 15, 50, 150, 500, 1500], 0, 0.05),
            PointerOhms = new([10, 100, 1e3, 10e3, 100e3, 1e6, 10e6], 0.03), OhmsTestVolts = 1.5,
        },
        new()
        {
            Name = "lcr-bridge", Description = "bridge or component meter, 1 kHz, with insulation test at 250 V", InputOhms = 10e6,
            Volts = new(DigitalVolts, 0.005, digits: 2, counts: 2000), AcVolts = new([2, 20, 200, 750], 0.01, digits: 4, counts: 2000),
            Ohms = new([2, 20, 200, 2e3, 20e3, 200e3, 2e6, 20e6], 0.003, digits: 2, counts: 20000), OhmsTestVolts = 0.2,
            Farads = new([200e-12, 2e-9, 20e-9, 200e-9, 2e-6, 20e-6, 200e-6, 2e-3], 0.005, digits: 3, counts: 20000), FaradsHertz = 1000,
            Insulation = new([1e6, 10e6, 100e6, 1e9, 10e9], 0.05), InsulationVolts = 250,
        },
    ];

    /// <summary>A meter by its name, upper or lower case; null when none has it.</summary>
    public static Meter? Named(string name) => All.FirstOrDefault(m => string.Equals(m.Name, name.Trim(), StringComparison.OrdinalIgnoreCase));

    /// <summary>The meter of a chart that states so many ohms a volt, or an input resistance.</summary>
    public static Meter OfChart(double? ohmsPerVolt, double? inputOhms)
    {
        if (ohmsPerVolt is { } perVolt) return All[1] with { Name = "chart", Description = FormattableString.Invariant($"the chart's pointer instrument, {perVolt:0} Ω a volt"), OhmsPerVolt = perVolt };
        var input = inputOhms ?? 10e6;
        return All[3] with { Name = "chart", Description = FormattableString.Invariant($"the chart's meter, {input / 1e6:0.#} MΩ"), InputOhms = input };
    }
}
