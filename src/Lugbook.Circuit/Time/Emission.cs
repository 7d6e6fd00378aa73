using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Lanes;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit.Time;

/// <summary>How far a cathode that warms up lets its valve conduct: perveances are multiplied by a share of 0 to about 1.</summary>
/// <remarks>
/// Richardson's law for an oxide cathode (work function 1.0 eV, 1,050 K at rated heat; from memory) that can give ten times what the valve draws at rated
/// heat (common practice, no source). What is drawn is limited half by charge and half by emission where both are equal: E/(1 + E).
/// </remarks>
internal sealed class Emission
{
    private const double RatedKelvin = 1050, ColdKelvin = 298.15, WorkKelvin = 11_605, Reserve = 10;

    private readonly List<(int Heat, double Nominal, Func<Numbers<One>, One[]> Of, int At)> _scaled = [];

    public Emission(Layout layout, IReadOnlyDictionary<string, string> heaters)
    {
        foreach (var (valve, filament) in heaters)
        {
            var heat = layout.Warms.FindIndex(w => w.Element.Name == filament);
            Add<DiodeDevice>(layout.Assembly.Diodes, valve, heat, n => n.Diodes, 0);
            Add<TriodeDevice>(layout.Assembly.Triodes, valve, heat, n => n.Triodes, 1, 6);
            Add<PentodeDevice>(layout.Assembly.Pentodes, valve, heat, n => n.Pentodes, 2, 13);
            Add<ConverterDevice>(layout.Assembly.Converters, valve, heat, n => n.Converters, 1, 12);
        }
    }

    /// <summary>The share at a heater's rise (0 cold, 1 at rated power).</summary>
    public static double Share(double rise)
    {
        var kelvin = ColdKelvin + Math.Max(rise, 0) * (RatedKelvin - ColdKelvin);
        var emission = Reserve * Math.Pow(kelvin / RatedKelvin, 2) * Math.Exp(-WorkKelvin * (1 / kelvin - 1 / RatedKelvin));
        return emission / (1 + emission) * (1 + Reserve) / Reserve;
    }

    public void Apply(Numbers<One> numbers, double[] heat)
    {
        foreach (var (k, nominal, of, at) in _scaled) of(numbers)[at] = new(nominal * Math.Max(Share(heat[k]), 1e-15));
    }

    private void Add<TDevice>(Bank<TDevice> bank, string valve, int heat, Func<Numbers<One>, One[]> of, params ReadOnlySpan<int> perveances) where TDevice : IDevice
    {
        for (var k = 0; k < bank.Devices.Length; k++)
        {
            if (bank.Devices[k].Element != valve) continue;
            foreach (var p in perveances) _scaled.Add((heat, bank.Devices[k].Parameters[p], of, k * TDevice.Parameters + p));
        }
    }
}
