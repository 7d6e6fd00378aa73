using System.Globalization;
using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit.Time;

/// <summary>Takes one step of time: three implicit stages, each a nodal solution with stores replaced by a conductance and a source.</summary>
/// <remarks>
/// Alexander's three-stage singly diagonally implicit Runge-Kutta method, third order, L-stable and stiffly accurate (SIAM J. Numer. Anal. 14, 1977,
/// p. 1006; coefficients recomputed). It needs no derivative at the start of a step, so that breaks (a switch, a diode) cost nothing and
/// nothing rings. Error: against the second-order formula of the first two stages.
/// </remarks>
internal sealed class Stepper
{
    // Root of x³ − 3x² + 3x/2 − 1/6 between 1/6 and 1/2.
    private const double Gamma = 0.43586652150845899942;
    private const double B1 = -(6 * Gamma * Gamma - 16 * Gamma + 1) / 4;
    private const double B2 = (6 * Gamma * Gamma - 20 * Gamma + 5) / 4;
    private const double Low2 = (1 - 2 * Gamma) / (1 - Gamma);
    private static readonly double[][] Weights = [[Gamma], [(1 - Gamma) / 2, Gamma], [B1, B2, Gamma]];
    private static readonly double[] Nodes = [Gamma, (1 + Gamma) / 2, 1];
    // From every node to 0 V: keeps a node determined that only blocked diodes reach.
    private const double Shunt = 1e-12;
    private const double OpenSiemens = 1e-12, ClosedSiemens = 100;
    private const int FewSteps = 12, NewtonSteps = 60;

    private readonly Layout _layout;
    private readonly Assembly _assembly;
    private readonly Numbers<One> _numbers;
    private readonly Newton<One> _newton;
    private readonly double[] _star, _next;
    private readonly double[][] _rates;
    private readonly double[][,] _rateBy;
    private readonly One[] _column;
    private readonly List<double[,]> _memory = [], _siemens = [];
    private readonly double[] _starBy;
    private double _h = double.NaN;

    public Stepper(Layout layout)
    {
        _layout = layout;
        _assembly = layout.Assembly;
        _numbers = new(_assembly);
        _newton = new(_assembly);
        var m = layout.States;
        State = new double[m];
        Error = new double[m];
        HeatStates = new double[layout.Warms.Count];
        Closed = [.. layout.Gates.Select(g => g.Element.Closed)];
        Lit = new bool[layout.Glows.Count];
        Volts = new One[_assembly.NodeNames.Length];
        _star = new double[m];
        _next = new double[m];
        _starBy = new double[m];
        _rates = [new double[m], new double[m], new double[m]];
        _rateBy = [new double[m, m], new double[m, m], new double[m, m]];
        _column = new One[_assembly.Pattern.Size];
        SetHeat();
        SetGates();
        SetGlows();
    }

    public double[] State { get; }
    /// <summary>Estimated error of the last step, in each state.</summary>
    public double[] Error { get; }
    public double[] HeatStates { get; }
    public bool[] Closed { get; }
    public bool[] Lit { get; }
    /// <summary>Volts of the joined nodes at the end of the last step.</summary>
    public One[] Volts { get; }
    /// <summary>d State / d state at the period's start; null when not wanted.</summary>
    public double[,]? By { get; set; }
    public double PhaseRadians { get; set; }
    /// <summary>Valves that follow a heater; null where all are warm.</summary>
    public Emission? Emission { get; set; }

    public double NodeVolts(int node) => Volts[_layout.JoinedOf[node]].Value;

    /// <summary>Steps on from t by h and replaces the state.</summary>
    /// <returns>False, and nothing is changed but <see cref="Volts"/>, where a stage would not settle.</returns>
    public bool Step(double t, double h)
    {
        Prepare(h);
        var m = State.Length;
        for (var s = 0; s < 3; s++)
        {
            for (var k = 0; k < m; k++)
            {
                var sum = State[k];
                for (var j = 0; j < s; j++) sum += h * Weights[s][j] * _rates[j][k];
                _star[k] = sum;
            }
            if (!Stage(t + Nodes[s] * h, _rates[s])) return false;
            if (By is not null)
            {
                _newton.Refactor();
                StageBy(s, h);
            }
        }
        for (var k = 0; k < m; k++)
        {
            Error[k] = h * ((B1 - (1 - Low2)) * _rates[0][k] + (B2 - Low2) * _rates[1][k] + Gamma * _rates[2][k]);
            State[k] = _next[k];
        }
        if (By is { } by)
        {
            for (var r = 0; r < m; r++)
                for (var c = 0; c < m; c++)
                    by[r, c] += h * (B1 * _rateBy[0][r, c] + B2 * _rateBy[1][r, c] + Gamma * _rateBy[2][r, c]);
        }
        return true;
    }

    /// <summary>Volts that belong to the present state, which stays as it is.</summary>
    public bool Rest(double t, double h)
    {
        Prepare(h);
        State.CopyTo(_star, 0);
        return Stage(t, _rates[2]);
    }

    /// <summary>Current through an element of two terminals at the end of the last step, A, from its first terminal to its second.</summary>
    public double Amperes(Element element, double t)
    {
        double Across(int a, int b) => NodeVolts(a) - NodeVolts(b);
        switch (element)
        {
            case Resistor e: return Across(e.A, e.B) / e.Ohms;
            case Fuse e: return Across(e.A, e.B) / e.Ohms;
            case Battery e: return (Across(e.Plus, e.Minus) - e.Volts) / e.Ohms;
            case Mains e: return (Across(e.A, e.B) - LineVolts(e, t)) / e.Ohms;
            case CurrentDrain e: return e.Amperes;
            case Capacitor e:
            {
                var store = _layout.Stores.Single(s => s.Element.Name == e.Name);
                return _rates[2][store.State] * e.Farads + Across(e.A, e.B) / e.LeakOhms;
            }
            case Inductor { Henries: 0 } e: return Across(e.A, e.B) / e.Ohms;
            case Inductor e: return State[_layout.Windings.Single(w => w.Element.Name == e.Name).State];
            case Transformer e: return State[_layout.Windings.Single(w => w.Element.Name == e.Name).State];
            case Filament or Thermistor:
            {
                var k = _layout.Warms.FindIndex(w => w.Element.Name == element.Name);
                return Across(_layout.Warms[k].A, _layout.Warms[k].B) / Heat.Ohms(element, HeatStates[k]);
            }
            case Diode e: return DiodeAmperes(e.Name, e.Anode, e.Cathode);
            case GasRegulator e: return DiodeAmperes(e.Name, e.Anode, e.Cathode);
            default: throw new ArgumentException($"The current of '{element.Name}' cannot be followed: only elements of two terminals have one current.", nameof(element));
        }
    }

    /// <summary>Current into a capacitor behind its series resistance at the end of the last step, A.</summary>
    public double StoreAmperes(Layout.Store store) => _rates[2][store.State] * store.Element.Farads;

    /// <summary>Watts in what warms, at the end of the last step.</summary>
    public double Watts(int warm)
    {
        var w = _layout.Warms[warm];
        var volts = NodeVolts(w.A) - NodeVolts(w.B);
        return volts * volts / Heat.Ohms(w.Element, HeatStates[warm]);
    }

    public void SetHeat()
    {
        for (var k = 0; k < HeatStates.Length; k++) Set(_layout.Warms[k].Place, 1 / Heat.Ohms(_layout.Warms[k].Element, HeatStates[k]));
        Emission?.Apply(_numbers, HeatStates);
    }

    public void SetGates()
    {
        for (var k = 0; k < Closed.Length; k++) Set(_layout.Gates[k].Place, Closed[k] ? ClosedSiemens : OpenSiemens);
    }

    /// <summary>A gas regulator strikes above its striking voltage and goes out where its voltage falls below the running voltage.</summary>
    public void SetGlows()
    {
        for (var k = 0; k < Lit.Length; k++)
        {
            var (e, at) = _layout.Glows[k];
            var volts = NodeVolts(e.Anode) - NodeVolts(e.Cathode);
            Lit[k] = Lit[k] ? volts > e.RunVolts - 2 : volts > e.StrikeVolts;
            _numbers.Diodes[at * DiodeDevice.Parameters] = new(Lit[k] ? 1 / e.SlopeOhms : 1e-15);
        }
    }

    /// <summary>Why a stage did not settle: the node with the largest current that is not accounted for, and what is there.</summary>
    public UnsolvableException Stuck(double t)
    {
        var reason = Settling.Reason(_assembly, _newton, _numbers, Volts);
        return new(string.Create(CultureInfo.InvariantCulture, $"At {t:g6} s: {reason.Message}"), reason.Node, reason.Element, reason.ResidualAmperes);
    }

    private double DiodeAmperes(string name, int anode, int cathode)
    {
        Span<One> i = stackalloc One[2], g = stackalloc One[4];
        var p = _numbers.Diodes.AsSpan(_layout.DiodeOf[name] * DiodeDevice.Parameters, DiodeDevice.Parameters);
        DiodeDevice.Evaluate(p, [new One(NodeVolts(anode)), new One(NodeVolts(cathode))], i, g);
        return i[0].Value;
    }

    private double LineVolts(Mains e, double t) => Math.Sqrt(2) * e.VoltsRms * Math.Sin(2 * Math.PI * e.Hertz * t + PhaseRadians);

    private void Set(int place, double siemens)
    {
        if (_layout.PlaceOf[place] is >= 0 and var at) _numbers.Conduct(at, siemens);
    }

    private static double StoreSiemens(Capacitor e, double gh) => 1 / (e.SeriesOhms + gh / e.Farads);

    /// <summary>Conductances that depend on the step's length.</summary>
    private void Prepare(double h)
    {
        if (h == _h) return;
        _h = h;
        var gh = Gamma * h;
        foreach (var s in _layout.Stores) Set(s.Place, StoreSiemens(s.Element, gh));
        _memory.Clear();
        _siemens.Clear();
        foreach (var w in _layout.Windings)
        {
            // j = (M + ghR)⁻¹(M·j* + gh·v)
            var n = w.Windings.Length;
            var left = (double[,])w.Inductance.Clone();
            var unit = new double[n, n];
            for (var p = 0; p < n; p++)
            {
                left[p, p] += gh * w.Windings[p].Ohms;
                unit[p, p] = gh;
            }
            var siemens = Dense.Solve(left, unit) ?? throw new ArgumentException($"The windings of '{w.Element.Name}' are coupled too closely: coupling must be below 1.");
            _memory.Add(Dense.Solve(left, w.Inductance)!);
            _siemens.Add(siemens);
            for (var p = 0; p < n; p++) Set(w.Own[p], siemens[p, p]);
            foreach (var (p, q, place) in w.Mutual)
            {
                Set(place, -siemens[p, q]);
                Set(place + 1, -siemens[p, q]);
                Set(place + 2, siemens[p, q]);
                Set(place + 3, siemens[p, q]);
            }
        }
    }

    private bool Stage(double t, double[] rates)
    {
        var gh = Gamma * _h;
        foreach (var l in _layout.Lines) _numbers.Amperes[l.Drain] = new(LineVolts(l.Element, t) / l.Element.Ohms);
        foreach (var s in _layout.Stores) _numbers.Amperes[s.Drain] = new(-StoreSiemens(s.Element, gh) * _star[s.State]);
        for (var i = 0; i < _layout.Windings.Count; i++)
        {
            var w = _layout.Windings[i];
            for (var p = 0; p < w.Windings.Length; p++)
            {
                double sum = 0;
                for (var q = 0; q < w.Windings.Length; q++) sum += _memory[i][p, q] * _star[w.State + q];
                _numbers.Amperes[w.Drains[p]] = new(sum);
            }
        }
        if (!_newton.Solve(_numbers, Volts, Shunt, FewSteps) && !SettledToRounding() && !_newton.Solve(_numbers, Volts, Shunt, NewtonSteps) && !SettledToRounding()) return false;

        foreach (var s in _layout.Stores)
        {
            var amperes = StoreSiemens(s.Element, gh) * (NodeVolts(s.Element.A) - NodeVolts(s.Element.B) - _star[s.State]);
            rates[s.State] = amperes / s.Element.Farads;
            _next[s.State] = _star[s.State] + gh * rates[s.State];
        }
        for (var i = 0; i < _layout.Windings.Count; i++)
        {
            var w = _layout.Windings[i];
            for (var p = 0; p < w.Windings.Length; p++)
            {
                var amperes = _numbers.Amperes[w.Drains[p]].Value;
                for (var q = 0; q < w.Windings.Length; q++) amperes += _siemens[i][p, q] * (NodeVolts(w.Windings[q].A) - NodeVolts(w.Windings[q].B));
                _next[w.State + p] = amperes;
                rates[w.State + p] = (amperes - _star[w.State + p]) / gh;
            }
        }
        return true;
    }

    /// <summary>Enough: 0.1 nA, though a node behind something blocked may still creep; or, where conductances and voltages are so large that rounding alone leaves more, that.</summary>
    private bool SettledToRounding()
    {
        // What Newton left includes the insulation and shunts that the equations have.
        double left = 0, scale = 0;
        foreach (var n in _assembly.NodeOfUnknown) left = Math.Max(left, Math.Abs(_newton.Residual[n].Value));
        var places = _assembly.Conductances;
        for (var k = 0; k < places.Length; k++)
            scale = Math.Max(scale, Math.Abs(_numbers.Siemens[k].Value) * (Math.Abs(Volts[places[k].A].Value) + Math.Abs(Volts[places[k].B].Value)));
        return left <= Math.Max(Newton<One>.ResidualAmperes, 1e-13 * scale);
    }

    /// <summary>Derivatives of one stage by the state at the period's start: the stage's own factors, one solution a column.</summary>
    private void StageBy(int s, double h)
    {
        var (m, gh, by) = (State.Length, Gamma * h, By!);
        for (var c = 0; c < m; c++)
        {
            for (var k = 0; k < m; k++)
            {
                _starBy[k] = by[k, c];
                for (var j = 0; j < s; j++) _starBy[k] += h * Weights[s][j] * _rateBy[j][k, c];
            }
            Array.Clear(_column);
            foreach (var x in _layout.Stores) Push(x.Element.A, x.Element.B, -StoreSiemens(x.Element, gh) * _starBy[x.State]);
            for (var i = 0; i < _layout.Windings.Count; i++)
            {
                var w = _layout.Windings[i];
                for (var p = 0; p < w.Windings.Length; p++) Push(w.Windings[p].A, w.Windings[p].B, Memory(i, p));
            }
            _newton.Factor.Solve(_column);
            foreach (var x in _layout.Stores)
                _rateBy[s][x.State, c] = StoreSiemens(x.Element, gh) * (VoltsBy(x.Element.A) - VoltsBy(x.Element.B) - _starBy[x.State]) / x.Element.Farads;
            for (var i = 0; i < _layout.Windings.Count; i++)
            {
                var w = _layout.Windings[i];
                for (var p = 0; p < w.Windings.Length; p++)
                {
                    var amperes = Memory(i, p);
                    for (var q = 0; q < w.Windings.Length; q++) amperes += _siemens[i][p, q] * (VoltsBy(w.Windings[q].A) - VoltsBy(w.Windings[q].B));
                    _rateBy[s][w.State + p, c] = (amperes - _starBy[w.State + p]) / gh;
                }
            }
        }
    }

    private double Memory(int coils, int p)
    {
        var w = _layout.Windings[coils];
        double sum = 0;
        for (var q = 0; q < w.Windings.Length; q++) sum += _memory[coils][p, q] * _starBy[w.State + q];
        return sum;
    }

    private void Push(int a, int b, double amperes)
    {
        var (from, to) = (_assembly.UnknownOf[_layout.JoinedOf[a]], _assembly.UnknownOf[_layout.JoinedOf[b]]);
        if (from >= 0) _column[from] -= new One(amperes);
        if (to >= 0) _column[to] += new One(amperes);
    }

    private double VoltsBy(int node) => _assembly.UnknownOf[_layout.JoinedOf[node]] is >= 0 and var u ? _column[u].Value : 0;
}
