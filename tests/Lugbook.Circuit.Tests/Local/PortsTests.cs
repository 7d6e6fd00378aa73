using System.Numerics;
using CsCheck;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Tests.Local;

/// <summary>A network seen from some of its nodes reads as the whole: against <see cref="Ohms"/> and <see cref="Impedance"/>, which solve the whole network by other code.</summary>
public class PortsTests
{
    private const int Nodes = 12;

    private static Network Random(int seed)
    {
        var random = new Random(seed);
        var elements = new List<Element>();
        for (var k = 0; k < 22; k++)
        {
            var (a, b) = (random.Next(Nodes), random.Next(Nodes));
            if (a == b) continue;
            var value = Math.Pow(10, 6 * random.NextDouble());
            elements.Add(random.Next(7) switch
            {
                0 or 1 => new Capacitor($"C{k}", a, b, 1e-6 / value, random.NextDouble() * 10, random.Next(2) == 0 ? 1e6 : double.PositiveInfinity),
                2 => new Inductor($"L{k}", a, b, random.NextDouble(), value / 1e3),
                3 => new Control($"P{k}", a, b, random.Next(Nodes), value, random.NextDouble()),
                4 => new Switch($"S{k}", a, b, random.Next(2) == 0),
                _ => new Resistor($"R{k}", a, b, value),
            });
        }
        return new([.. Enumerable.Range(0, Nodes).Select(n => $"N{n}")], 0, elements);
    }

    [Fact]
    public void Ports_with_elements_put_back_read_as_the_whole_network() =>
        Gen.Select(Gen.Int, Gen.Int[0, 2].Select(k => k switch { 0 => 0.0, 1 => 120.0, _ => 1000.0 })).Sample((seed, hertz) =>
        {
            var network = Random(seed);
            // Every third element is taken out, put to new nodes or left where it is, and put back among the ports.
            var mine = network.Elements.Where((e, k) => k % 3 == 0).ToArray();
            var ports = mine.SelectMany(e => Terminals.Of(e)).Concat([0, 1, 2]).Distinct().ToArray();
            var seen = Ports.Of(Nodes, network.Elements.Except(mine), ports, hertz);
            var loose = new Resistor("loose", 1, Nodes, 4700);
            int[] probes = [.. ports, Nodes];
            var between = seen.Between([.. mine, loose], probes);
            var whole = new Network([.. network.NodeNames, "new"], 0, network.Elements.Append(loose));
            for (var a = 0; a < probes.Length; a++)
                for (var b = 0; b < a; b++)
                {
                    var z = between[a, b];
                    var expected = hertz == 0 ? new(Ohms.Between(whole, probes[a], probes[b]).Ohms, 0) : Impedance.Between(whole, probes[a], probes[b], hertz).Ohms;
                    if (double.IsInfinity(expected.Real)) Assert.Equal(double.PositiveInfinity, z.Real);
                    else Assert.True(Complex.Abs(z - expected) <= 1e-6 * Complex.Abs(expected) + 2e-6, $"{z} by ports, {expected} by the whole");
                }
        }, iter: 150);

    [Fact]
    public void Star_to_mesh_by_hand()
    {
        // A star of 10, 20 and 30 Ω: between the tips 30, 40 and 50 Ω whatever the middle does; 5 Ω across the first two make 30·5/35 of it.
        var star = new Network(["a", "b", "c", "middle"], 0, [new Resistor("1", 0, 3, 10), new Resistor("2", 1, 3, 20), new Resistor("3", 2, 3, 30)]);
        var ports = Ports.Of(4, star.Elements, [0, 1, 2], 0);
        Assert.Equal([30.0, 40.0, 50.0], new[] { (0, 1), (0, 2), (1, 2) }.Select(p => Math.Round(ports.Between([], [0, 1, 2])[p.Item1, p.Item2].Real, 9)));
        Assert.Equal(30.0 * 5 / 35, ports.Between([new Resistor("across", 0, 1, 5)], [0, 1])[0, 1].Real, 1e-9);
        Assert.Equal(0, ports.Between([new Resistor("bridge", 0, 1, 0)], [0, 1])[0, 1].Real);
    }

    [Fact]
    public void A_port_that_is_no_node_is_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => Ports.Of(3, [], [3], 0));
}
