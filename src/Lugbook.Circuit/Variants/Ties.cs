using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Lanes;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit.Variants;

/// <summary>What a variant's open parts leave untied: finds what <see cref="AssemblyBuilder"/> would find in the variant's own network. Allocates only when made.</summary>
internal sealed class Ties
{
    // Holds a node of a part that floats at 0 V; no current flows there.
    private const double PinSiemens = 1;

    private readonly Assembly _assembly;
    private readonly int[] _root, _devices;
    private readonly bool[] _varied;
    private readonly int _given;

    /// <summary>Prepares.</summary>
    /// <param name="assembly">The assembly, open parts closed.</param>
    /// <param name="writes">Which parameter sets which conductance.</param>
    public Ties(Assembly assembly, Write[] writes)
    {
        _assembly = assembly;
        _varied = new bool[assembly.Conductances.Length];
        foreach (var write in writes) if (write.Target == Target.Siemens) _varied[write.Index] = true;
        _given = assembly.NodeNames.Length;
        _root = new int[_given + 1];
        _devices = [.. Pairs(assembly.Diodes).Concat(Pairs(assembly.Triodes)).Concat(Pairs(assembly.Pentodes)).Concat(Pairs(assembly.Converters))];
    }

    /// <summary>Sets the insulation of a lane as the conductances written to it ask for.</summary>
    public void Insulate<T>(Numbers<T> numbers, int lane) where T : unmanaged, ILane<T>
    {
        // What floats: pinned at its first node, as a network of its own would be.
        Begin();
        Conductances(numbers, lane, 0);
        for (var k = 0; k < _devices.Length; k += 2) Join(_devices[k], _devices[k + 1]);
        for (var n = 0; n < _given; n++)
        {
            var u = _assembly.UnknownOf[n];
            if (u < 0) continue;
            var floats = Root(n) != Root(_given);
            numbers.Insulate(u, lane, floats ? PinSiemens : 0);
            if (floats) Join(n, _given);
        }
        // What only devices tie.
        Begin();
        for (var u = 0; u < _assembly.NodeOfUnknown.Length; u++) if (T.Lane(numbers.Insulation[u], lane) > 0) Join(_assembly.NodeOfUnknown[u], _given);
        Conductances(numbers, lane, Assembly.LeastTie);
        for (var n = 0; n < _given; n++)
            if (_assembly.UnknownOf[n] is >= 0 and var u && Root(n) != Root(_given)) numbers.Insulate(u, lane, Assembly.InsulationSiemens);
    }

    private void Begin()
    {
        for (var n = 0; n < _root.Length; n++) _root[n] = n < _given && _assembly.UnknownOf[n] < 0 ? _given : n;
    }

    private void Conductances<T>(Numbers<T> numbers, int lane, double least) where T : unmanaged, ILane<T>
    {
        for (var k = 0; k < _varied.Length; k++)
        {
            var (_, a, b, nominal) = _assembly.Conductances[k];
            var siemens = _varied[k] ? T.Lane(numbers.Siemens[k], lane) : nominal;
            if (siemens > 0 && siemens >= least) Join(a, b);
        }
    }

    private void Join(int a, int b) => _root[Root(a)] = Root(b);

    private int Root(int node)
    {
        while (_root[node] != node) node = _root[node] = _root[_root[node]];
        return node;
    }

    private static IEnumerable<int> Pairs<TDevice>(Bank<TDevice> bank) where TDevice : IDevice =>
        bank.Devices.SelectMany(d => d.Nodes.Skip(1).SelectMany(n => new[] { d.Nodes[0], n }));
}
