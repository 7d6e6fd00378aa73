using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Meters;

namespace Lugbook.Restoration.Sheet;

/// <summary>Volts of every place: nominal, spread, as meters show them, and what makes them unpredictable.</summary>
internal sealed class VoltsColumn
{
    // A node that an unknown moves by more than this is not predicted: a tenth, and at least half a volt.
    private const double MovedShare = 0.1, MovedVolts = 0.5;

    private readonly SolveResult _solved;
    private readonly Network _metered;
    private readonly VariantTable _table;
    private readonly Dictionary<int, (int Own, int Chart)> _loaded = [];
    private readonly Dictionary<int, double> _ownOhms = [], _chartOhms = [];
    private readonly List<(string Place, string Element, int Low, int High)> _unknowns = [], _settings = [];
    private readonly int _firstSample, _samples, _today, _chartLine;
    private readonly BatchResult? _result;

    public VoltsColumn(SolveResult solved, SheetConditions how, ImmutableArray<Place> places)
    {
        _solved = solved;
        var direct = solved.Direct!;
        var nodes = places.Select(p => p.Node).Distinct().Where(n => n != direct.Reference).ToArray();
        _metered = direct.Adding(nodes.Select(n => new Resistor(Meter(n), n, direct.Reference, double.PositiveInfinity)));
        _table = new(_metered,
        [
            .. solved.Spreads.Select(s => new Varied(s.Element, s.Parameter)),
            .. nodes.Select(n => new Varied(Meter(n), Parameter.Ohms)),
        ]);
        var nominal = solved.Point!.Volts;
        _today = _table.Add(Line(how.TodayLineShare));
        _chartLine = _table.Add(Line(how.ChartLineShare));
        foreach (var n in nodes)
        {
            _ownOhms[n] = how.Meter.LoadOhms(nominal[n] * how.TodayLineShare);
            _chartOhms[n] = how.ChartMeter.LoadOhms(nominal[n] * how.ChartLineShare);
            _loaded[n] = (_table.Add([.. Line(how.TodayLineShare), (Meter(n), Parameter.Ohms, _ownOhms[n])]), _table.Add([.. Line(how.ChartLineShare), (Meter(n), Parameter.Ohms, _chartOhms[n])]));
        }
        foreach (var s in solved.Spreads.Where(s => s.Cause is SpreadCause.Unknown or SpreadCause.Setting))
        {
            var position = solved.Netlist.Origins.FirstOrDefault(o => o.Element == s.Element)?.Position ?? s.Element;
            (s.Cause == SpreadCause.Unknown ? _unknowns : _settings).Add((position, s.Element, _table.Add([(s.Element, s.Parameter, s.Low)]), _table.Add([(s.Element, s.Parameter, s.High)])));
        }
        _firstSample = _table.Count;
        foreach (var sample in HealthySamples.Of(solved.Spreads, how.Samples))
        {
            // The line's samples are about what the set was made for; they are moved to today's.
            _table.Add(how.TodayLineShare == 1 ? sample : [.. sample.Select(c => IsLine(c.Item1) ? (c.Item1, c.Item2, c.Item3 * how.TodayLineShare) : c)]);
            _samples++;
        }
        _result = _table.IsEmpty ? null : _table.Solve();
    }

    private static string Meter(int node) => string.Create(CultureInfo.InvariantCulture, $"meter at {node}");
    private bool IsLine(string element) => _solved.Rectifiers.Any(r => r.Source == element);
    private (string, Parameter, double)[] Line(double share) => share == 1 ? [] : [.. _solved.Rectifiers.Select(r => (r.Source, Parameter.Volts, r.LiftVolts * share))];

    private double At(int variant, int node) => _result is null ? _solved.Point!.Volts[node] : _result.VoltsOf(variant)[node];

    /// <summary>Volts without a meter, at today's line.</summary>
    public double Nominal(int node) => At(_today, node);

    /// <summary>Between which 95 of 100 healthy sets lie.</summary>
    public (double Low, double High) Spread(int node)
    {
        if (_result is null) return (Nominal(node), Nominal(node));
        var volts = Enumerable.Range(_firstSample, _samples).Select(v => At(v, node)).Where(double.IsFinite).Order().ToArray();
        if (volts.Length == 0) return (Nominal(node), Nominal(node));
        return (volts[(int)(0.025 * (volts.Length - 1))], volts[(int)Math.Ceiling(0.975 * (volts.Length - 1))]);
    }

    /// <summary>What the meter at the bench shows.</summary>
    public MeterReading? OwnMeter(int node, Meter meter) => Reading(meter, _loaded.TryGetValue(node, out var l) ? At(l.Own, node) : 0, _ownOhms.GetValueOrDefault(node, double.PositiveInfinity));

    /// <summary>What the chart's meter should have shown.</summary>
    public double ChartMeter(int node) => _loaded.TryGetValue(node, out var l) ? At(l.Chart, node) : 0;

    // The range was chosen by the volts without a meter; where the meter pulls them to a lower range, a careful reader stays, because that range pulls further.
    private static MeterReading? Reading(Meter meter, double shown, double ohms)
    {
        var range = meter.OhmsPerVolt is { } perVolt ? ohms / perVolt : meter.Volts.RangeFor(shown) ?? meter.Volts.Top;
        return double.IsFinite(shown) ? new(shown, range, meter.Volts.Uncertainty(shown)) : null;
    }

    /// <summary>What of the unknown moves the node, as a sentence.</summary>
    public string? Unpredictable(int node)
    {
        var nominal = _solved.Point!.Volts[node];
        var movers = _unknowns.Where(u => Moves(nominal, At(u.Low, node), At(u.High, node))).Select(u => u.Place).Distinct().ToArray();
        return movers.Length == 0 ? null : $"depends on {string.Join(", ", movers)}, of which not enough is known";
    }

    /// <summary>The control that moves the node most, in words.</summary>
    public string? Setting(int node)
    {
        var nominal = _solved.Point!.Volts[node];
        var most = _settings.Select(s => (s.Place, Low: At(s.Low, node), High: At(s.High, node))).Where(s => Moves(nominal, s.Low, s.High)).OrderByDescending(s => Math.Abs(s.High - s.Low)).FirstOrDefault();
        return most.Place is null ? null : string.Create(CultureInfo.InvariantCulture, $"{most.Place}: {Math.Min(most.Low, most.High):0.#} to {Math.Max(most.Low, most.High):0.#} V");
    }

    private static bool Moves(double nominal, double low, double high)
    {
        var allowed = Math.Max(MovedShare * Math.Abs(nominal), MovedVolts);
        return !(Math.Abs(low - nominal) <= allowed && Math.Abs(high - nominal) <= allowed);
    }
}
