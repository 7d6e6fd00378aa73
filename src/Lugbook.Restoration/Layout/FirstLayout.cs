using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Chassis;

namespace Lugbook.Restoration.Layout;

/// <summary>A mount that waits for a proposed place.</summary>
/// <param name="Name">Its name: valves are numbered from the aerial to the speaker (common practice, no source).</param>
/// <param name="Kind">What it is.</param>
/// <param name="Lugs">Its lugs about their middle, mm, not turned.</param>
/// <param name="Room">Width and depth that it takes up, room for parts included, mm.</param>
internal sealed record Waiting(string Name, MountKind Kind, Pt[] Lugs, (double Width, double Depth) Room);

/// <summary>A part's leads or a wire between two lugs of waiting mounts; with B −1 to a lug that is measured already.</summary>
internal readonly record struct Link(int A, int LugA, int B, int LugB, Pt Fixed);

/// <summary>Proposes where mounts might stand when nobody has measured them: as chassis are laid out, and with short leads.</summary>
/// <remarks>
/// Rows from the front edge to the rear: controls; strips; sockets; strips; … ; transformers, cans and what else is heavy (common practice, no source).
/// Within this the order is annealed: mounts change places, the sum of all straight leads and wires counts, with a little for valves that
/// do not follow each other from left to right. Then each mount slides within its row, and turns by quarter or half turns, while that shortens leads.
/// Deterministic: a fixed seed, a bounded number of trials.
/// </remarks>
internal sealed class FirstLayout
{
    private const double OrderWeight = 0.4;        // mm of lead for each mm that a valve stands left of the one before it
    private const double WidthWeight = 6;          // mm of lead for each mm that a row is too long
    private readonly Waiting[] _items;
    private readonly List<Link>[] _links;
    private readonly int[][] _rows;                // which rows a mount may stand in
    private readonly List<int>[] _row;
    private readonly Pt[] _at;
    private readonly int[] _turn;                  // quarter turns clockwise
    private readonly Pt _start;
    private readonly int[] _valves;
    private readonly double _width;

    /// <summary>The middle of each mount with its turn in degrees, and what all take up.</summary>
    /// <param name="items">The mounts.</param>
    /// <param name="links">What joins them.</param>
    /// <param name="start">Front left corner.</param>
    /// <param name="depth">Depth to fill, mm; 0 for a chassis about half as wide again as deep.</param>
    public static ((Pt Middle, double Turn)[] Places, Box Zone) Of(Waiting[] items, IReadOnlyList<Link> links, Pt start, double depth)
    {
        var layout = new FirstLayout(items, links, start, depth);
        layout.Anneal();
        layout.Settle();
        var box = Box.Around(items.SelectMany((item, i) => Box.Of(layout._at[i], layout.Wide(i), item.Room.Depth).Corners));
        return ([.. layout._at.Select((p, i) => (p, layout._turn[i] * 90.0))], box);
    }

    private FirstLayout(Waiting[] items, IReadOnlyList<Link> links, Pt start, double depth)
    {
        (_items, _start) = (items, start);
        _links = [.. items.Select(_ => new List<Link>())];
        foreach (var l in links)
        {
            if (l.A == l.B) continue;
            _links[l.A].Add(l);
            if (l.B >= 0) _links[l.B].Add(new(l.B, l.LugB, l.A, l.LugA, default));
        }
        double Sum(int rank) => items.Where(i => Rank(i.Kind) == rank).Sum(i => i.Room.Width);
        double Deep(int rank) => items.Where(i => Rank(i.Kind) == rank).Select(i => i.Room.Depth).DefaultIfEmpty(0).Average();
        // As many rows as make it half as wide again as deep, or as deep as what it stands beside.
        var (pairs, back) = (1, 1);
        var least = double.MaxValue;
        for (var p = 1; p <= 5; p++)
            for (var b = 1; b <= 2; b++)
            {
                var wide = 1.05 * Math.Max(items.Max(i => i.Room.Width), Math.Max(Math.Max(Sum(0), Sum(3) / b), Math.Max(Sum(2) / p, Sum(1) / (p + 1))));
                var deep = Deep(0) + (p + 1) * Deep(1) + p * Deep(2) + b * Deep(3);
                var off = Math.Abs(Math.Log(depth > 0 ? deep / depth : wide / (1.5 * deep)));
                if (off < least) (least, pairs, back, _width) = (off, p, b, wide);
            }
        // Rows from the front: 0 controls, then strips and sockets in turn, strips once more, last what is heavy.
        var heavy = 2 * pairs + 2;
        _rows = [.. items.Select(i => Rank(i.Kind) switch
        {
            0 => new[] { 0 },
            1 => [.. Enumerable.Range(0, pairs + 1).Select(k => 2 * k + 1)],
            2 => [.. Enumerable.Range(0, pairs).Select(k => 2 * k + 2)],
            _ => [.. Enumerable.Range(heavy, back)],
        })];
        _row = [.. Enumerable.Range(0, heavy + 2).Select(_ => new List<int>())];
        _at = new Pt[items.Length];
        _turn = new int[items.Length];
        _valves = [.. Enumerable.Range(0, items.Length).Where(i => items[i].Kind.IsSocket()).OrderBy(i => Number(items[i].Name)).ThenBy(i => i)];
        // To begin with: valves in their order, each other mount in the emptiest of its rows.
        foreach (var i in _valves.Concat(Enumerable.Range(0, items.Length).Except(_valves)))
            _row[_rows[i].MinBy(r => _row[r].Sum(Wide))].Add(i);
        Stand();
    }

    private static int Rank(MountKind kind) => kind.IsSocket() && kind != MountKind.DuodecalSocket ? 2 : kind switch
    {
        MountKind.Control or MountKind.Switch or MountKind.Jack or MountKind.LampHolder => 0,
        MountKind.Transformer or MountKind.Can or MountKind.Flyback or MountKind.Yoke or MountKind.Speaker or MountKind.LineCord or MountKind.FuseHolder or MountKind.SeleniumStack
            or MountKind.PowerResistor or MountKind.DuodecalSocket or MountKind.LoopPanel or MountKind.SealedUnit or MountKind.TuningGang => 3,
        _ => 1,
    };

    private static int Number(string name) => int.TryParse(new string([.. name.Where(char.IsAsciiDigit)]), System.Globalization.CultureInfo.InvariantCulture, out var n) ? n : int.MaxValue;

    private double Wide(int i) => _items[i].Room.Width;

    /// <summary>Rows one behind the other, each in the middle of the width.</summary>
    private void Stand()
    {
        var y = _start.Y;
        foreach (var row in _row)
        {
            if (row.Count == 0) continue;
            var depth = row.Max(i => _items[i].Room.Depth);
            var x = _start.X + Math.Max(0, (_width - row.Sum(Wide)) / 2);
            foreach (var i in row)
            {
                _at[i] = new(x + Wide(i) / 2, y + depth / 2);
                x += Wide(i);
            }
            y += depth;
        }
    }

    private Pt LugAt(int item, int lug) => LugAt(item, lug, _turn[item]);
    private Pt LugAt(int item, int lug, int turn)
    {
        var p = _items[item].Lugs[lug];
        return _at[item] + (turn switch { 1 => new(p.Y, -p.X), 2 => new Pt(-p.X, -p.Y), 3 => new(-p.Y, p.X), _ => p });
    }

    private Pt End(in Link l) => l.B < 0 ? l.Fixed : LugAt(l.B, l.LugB);

    private double Cost()
    {
        double sum = 0;
        for (var i = 0; i < _items.Length; i++)
            foreach (var l in _links[i])
                if (l.B < 0) sum += 0.3 * LugAt(i, l.LugA).To(l.Fixed);
                else if (l.B > i) sum += LugAt(i, l.LugA).To(LugAt(l.B, l.LugB));
        for (var k = 1; k < _valves.Length; k++) sum += OrderWeight * Math.Max(0, _at[_valves[k - 1]].X - _at[_valves[k]].X);
        foreach (var row in _row) sum += WidthWeight * Math.Max(0, row.Sum(Wide) - _width);
        return sum;
    }

    private void Anneal()
    {
        var n = _items.Length;
        if (n < 3) return;
        var random = new Random(1);
        var cost = Cost();
        var links = _links.Sum(l => l.Count) / 2 + n;
        var trials = Math.Clamp(4_000_000 / links, 2_000, 30_000);
        var (best, bestCost) = (Copy(), cost);
        for (var t = 0; t < trials; t++)
        {
            var heat = 60 * Math.Pow(0.5 / 60, (double)t / trials);   // mm
            var i = random.Next(n);
            var from = Array.FindIndex(_row, r => r.Contains(i));
            var place = _row[from].IndexOf(i);
            Action undo;
            if (random.Next(2) == 0)
            {
                var j = random.Next(n);
                var to = Array.FindIndex(_row, r => r.Contains(j));
                if (j == i || !_rows[i].Contains(to) || !_rows[j].Contains(from)) continue;
                var other = _row[to].IndexOf(j);
                (_row[from][place], _row[to][other]) = (j, i);
                undo = () => (_row[from][place], _row[to][other]) = (i, j);
            }
            else
            {
                var to = _rows[i][random.Next(_rows[i].Length)];
                _row[from].RemoveAt(place);
                var other = random.Next(_row[to].Count + 1);
                _row[to].Insert(other, i);
                undo = () => { _row[to].RemoveAt(other); _row[from].Insert(place, i); };
            }
            Stand();
            var next = Cost();
            if (next <= cost || random.NextDouble() < Math.Exp((cost - next) / heat))
            {
                cost = next;
                if (cost < bestCost - 1e-9) (best, bestCost) = (Copy(), cost);
            }
            else undo();
        }
        for (var r = 0; r < _row.Length; r++) _row[r] = best[r];
        Stand();

        List<int>[] Copy() => [.. _row.Select(r => r.ToList())];
    }

    /// <summary>Slides and turns mounts within their rows while that shortens leads; nobody passes a neighbour.</summary>
    private void Settle()
    {
        for (var sweep = 0; sweep < 6; sweep++)
        {
            foreach (var row in _row)
                for (var k = 0; k < row.Count; k++)
                {
                    var i = row[k];
                    Turn(i);
                    double least = k == 0 ? _start.X + Wide(i) / 2 : _at[row[k - 1]].X + (Wide(row[k - 1]) + Wide(i)) / 2;
                    double most = k == row.Count - 1 ? Math.Max(_start.X + _width - Wide(i) / 2, _at[i].X) : _at[row[k + 1]].X - (Wide(row[k + 1]) + Wide(i)) / 2;
                    if (_links[i].Count == 0 || most <= least) continue;
                    // The median of where its links pull it: the least sum of distances along the row.
                    var pulls = _links[i].Select(l => End(l).X - (LugAt(i, l.LugA).X - _at[i].X)).Order().ToArray();
                    _at[i] = _at[i] with { X = Math.Clamp(pulls[pulls.Length / 2], least, most) };
                }
        }
    }

    /// <summary>Sockets turn by quarters, what lies along the row by halves; strips keep their foot's side.</summary>
    private void Turn(int i)
    {
        if (_items[i].Lugs.Length < 2 || _links[i].Count == 0) return;
        var step = _items[i].Kind.IsSocket() ? 1 : 2;
        double Length(int turn)
        {
            double sum = 0;
            foreach (var l in _links[i]) sum += LugAt(i, l.LugA, turn).To(End(l));
            return sum;
        }
        var (best, least) = (_turn[i], Length(_turn[i]) - 1e-6);
        for (var turn = 0; turn < 4; turn += step)
            if (Length(turn) < least) (best, least) = (turn, Length(turn));
        _turn[i] = best;
    }
}
