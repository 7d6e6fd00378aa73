using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Judge;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Slips;

/// <summary>A reading that could be taken: red and black lead on two lugs.</summary>
/// <param name="Kind">Ohms or capacitance.</param>
/// <param name="From">Lug of the red lead.</param>
/// <param name="To">Lug of the black one.</param>
internal readonly record struct Probe(ReadingKind Kind, string From, string To);

/// <summary>What every reading among some lugs shows, healthy and under every slip.</summary>
internal sealed class Probing
{
    private readonly Board _board;
    private readonly Slip[] _slips;
    private readonly string[] _lugs;

    /// <param name="board">The chassis at that moment.</param>
    /// <param name="slips">Slips with a change.</param>
    /// <param name="lugs">Lugs to probe, of different nodes or told apart by a slip.</param>
    /// <param name="meters">The meters.</param>
    public Probing(Board board, Slip[] slips, string[] lugs, BenchMeters meters)
    {
        (_board, _slips, _lugs) = (board, slips, lugs);
        var candidates = new List<Probe>();
        var shown = new List<ImmutableArray<Interval>[]>();
        var (ohms, _) = Ends(0, [Draw.Direct(false, meters.Ohms.OhmsTestVolts), Draw.Direct(true, meters.Ohms.OhmsTestVolts)]);
        var (farads, good) = meters.Farads is { Farads: not null } c ? Ends(c.FaradsHertz, [.. Enumerable.Range(0, Draw.AtFrequency).Select(n => new Draw(n, false, 0))]) : (null, null);
        for (var a = 0; a < lugs.Length; a++)
            for (var b = a + 1; b < lugs.Length; b++)
            {
                candidates.Add(new(ReadingKind.Ohms, lugs[a], lugs[b]));
                shown.Add([.. ohms.Select(s => s[a, b].Shown(meters.Shown, meters.Ohms.OhmsTop))]);
                if (farads is null || !good![a, b]) continue;
                candidates.Add(new(ReadingKind.Farads, lugs[a], lugs[b]));
                shown.Add([.. farads.Select(s => s[a, b].Widened().Shown(meters.ShownFarads, meters.Farads!.TopOf(ReadingKind.Farads)))]);
            }
        Candidates = [.. candidates];
        Shown = [.. shown];
    }

    /// <summary>All readings.</summary>
    public ImmutableArray<Probe> Candidates { get; }
    /// <summary>For each reading what is shown: first healthy, then under each slip.</summary>
    public ImmutableArray<ImmutableArray<Interval>[]> Shown { get; }

    /// <summary>Does a reading expose a slip? Only where nothing that a healthy chassis may show could come of the slip.</summary>
    public bool Exposes(int reading, int slip) => Apart(Shown[reading][0], Shown[reading][slip + 1]);

    /// <summary>Have two sets of figures nothing in common?</summary>
    public static bool Apart(ImmutableArray<Interval> a, ImmutableArray<Interval> b)
    {
        foreach (var x in a) foreach (var y in b) if (x.Low <= y.High && y.Low <= x.High) return false;
        return true;
    }

    /// <summary>Healthy first, then each slip: true values between every two lugs; and where a healthy capacitance can be read well.</summary>
    private (Display[][,] Shown, bool[,] Good) Ends(double hertz, Draw[] draws)
    {
        var cold = _board.Cold.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
        var touched = _slips.SelectMany(s => s.Change!.Instead).Select(e => e.Name).ToHashSet(StringComparer.Ordinal);
        Element[] mine = [.. touched.Order(StringComparer.Ordinal).Select(n => cold.GetValueOrDefault(n)).OfType<Element>()];
        Element[] rest = [.. _board.Cold.Elements.Where(e => !touched.Contains(e.Name))];
        var nodes = _board.Cold.NodeCount;
        var home = _lugs.Select(l => _board.Netlist.Map.NodeOf(l)!.Index).ToArray();
        var ports = mine.Concat(_slips.SelectMany(s => s.Change!.Instead.Concat(s.Change.Further))).SelectMany(Nodes).Concat(home).Where(n => n < nodes).Distinct().ToArray();
        var local = new Element[_slips.Length + 1][];
        var places = new int[_slips.Length + 1][];
        (local[0], places[0]) = (mine, home);
        for (var s = 0; s < _slips.Length; s++)
        {
            var change = _slips[s].Change!;
            var instead = change.Instead.ToDictionary(e => e.Name, StringComparer.Ordinal);
            // A line switch stays off wherever it is soldered.
            local[s + 1] = [.. mine.Select(e => instead.GetValueOrDefault(e.Name) is { } other ? other is Switch w && e is Switch off ? w with { Closed = off.Closed } : other : e), .. change.Further];
            places[s + 1] = [.. _lugs.Select((l, i) => change.Lugs.TryGetValue(l, out var to) ? to : home[i])];
        }
        var all = local.Select(_ => new Display[_lugs.Length, _lugs.Length]).ToArray();
        var good = new bool[_lugs.Length, _lugs.Length];
        var first = true;
        foreach (var draw in draws)
        {
            var seen = Ports.Of(nodes, draw.Of(rest, _board.Of), ports, hertz);
            for (var s = 0; s < local.Length; s++)
            {
                var old = s > 0 && _slips[s - 1].Kind is SlipKind.OldLeft;
                var z = seen.Between([.. draw.Of(local[s], old ? _board.OldOf : _board.Of)], places[s]);
                for (var a = 0; a < _lugs.Length; a++)
                    for (var b = a + 1; b < _lugs.Length; b++)
                    {
                        var one = hertz == 0 ? Display.Direct(z[a, b]) : Display.Farads(z[a, b], hertz);
                        all[s][a, b] = first ? one : all[s][a, b].With(one);
                        if (s == 0) good[a, b] = (first || good[a, b]) && Display.IsGood(z[a, b]);
                    }
            }
            first = false;
        }
        return (all, good);
    }

    private static IEnumerable<int> Nodes(Element element) => element switch
    {
        Control e => [e.A, e.B, e.Slider],
        Transformer e => e.Windings.SelectMany(w => new[] { w.A, w.B }),
        Resistor e => [e.A, e.B],
        Capacitor e => [e.A, e.B],
        Inductor e => [e.A, e.B],
        Switch e => [e.A, e.B],
        Fuse e => [e.A, e.B],
        Filament e => [e.A, e.B],
        Thermistor e => [e.A, e.B],
        Diode e => [e.Anode, e.Cathode],
        // What is open when cold has no say.
        _ => [],
    };
}
