using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit.Variants;

/// <summary>Whether a variant's open parts leave every node tied to a given voltage. Allocates only when made.</summary>
internal sealed class Ties
{
    private readonly Assembly _assembly;
    private readonly int[] _parameterOf, _root, _devices;
    private readonly int _given;

    /// <summary>Prepares.</summary>
    /// <param name="assembly">The assembly, open parts closed.</param>
    /// <param name="writes">Which parameter sets which conductance.</param>
    public Ties(Assembly assembly, Write[] writes)
    {
        _assembly = assembly;
        _parameterOf = new int[assembly.Conductances.Length];
        Array.Fill(_parameterOf, -1);
        foreach (var write in writes) if (write.Target == Target.Siemens) _parameterOf[write.Index] = write.Parameter;
        _given = assembly.NodeNames.Length;
        _root = new int[_given + 1];
        _devices = [.. Pairs(assembly.Diodes).Concat(Pairs(assembly.Triodes)).Concat(Pairs(assembly.Pentodes)).Concat(Pairs(assembly.Converters))];
    }

    /// <summary>True when all nodes are tied.</summary>
    public bool All(ReadOnlySpan<double> values)
    {
        for (var n = 0; n < _root.Length; n++) _root[n] = n < _given && _assembly.UnknownOf[n] < 0 ? _given : n;
        for (var k = 0; k < _parameterOf.Length; k++)
        {
            var (_, a, b, siemens) = _assembly.Conductances[k];
            var parameter = _parameterOf[k];
            if (parameter < 0 ? siemens > 0 : !double.IsInfinity(values[parameter])) _root[Root(a)] = Root(b);
        }
        for (var k = 0; k < _devices.Length; k += 2) _root[Root(_devices[k])] = Root(_devices[k + 1]);
        var given = Root(_given);
        for (var n = 0; n < _given; n++) if (Root(n) != given) return false;
        return true;
    }

    private int Root(int node)
    {
        while (_root[node] != node) node = _root[node] = _root[_root[node]];
        return node;
    }

    private static IEnumerable<int> Pairs<TDevice>(Bank<TDevice> bank) where TDevice : IDevice =>
        bank.Devices.SelectMany(d => d.Nodes.Skip(1).SelectMany(n => new[] { d.Nodes[0], n }));
}
