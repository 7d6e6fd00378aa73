namespace Lugbook.Circuit.Tests.Convergence;

/// <summary>Kirchhoff's current law on an answer, from the elements one by one: nothing of the solver's own sums is used.</summary>
internal static class Balance
{
    private const double Joint = 1e-3;   // docs/circuit.md: less is a joint

    /// <summary>Largest sum of currents out of any node whose voltage is not given, A.</summary>
    public static double Worst(Network network, ReadOnlySpan<double> volts)
    {
        int[] joined = [.. Enumerable.Range(0, network.NodeCount)];
        int Root(int n) => joined[n] == n ? n : joined[n] = Root(joined[n]);
        foreach (var (a, b) in network.Elements.SelectMany(Joins)) joined[Root(a)] = Root(b);
        HashSet<int> given = [Root(network.Reference), .. network.Elements.OfType<Elements.Declared>().Select(d => Root(d.Node))];
        var sums = new double[network.NodeCount];
        foreach (var element in network.Elements)
            foreach (var (node, amperes) in Currents.Into(element, volts)) sums[Root(node)] += amperes;
        return Enumerable.Range(0, sums.Length).Where(n => !given.Contains(Root(n))).Select(n => Math.Abs(sums[n])).DefaultIfEmpty().Max();
    }

    private static IEnumerable<(int, int)> Joins(Elements.Element element) => element switch
    {
        Elements.Resistor { Ohms: < Joint } e => [(e.A, e.B)],
        Elements.Switch { Closed: true } e => [(e.A, e.B)],
        Elements.Control e => [.. Track(e.A, e.Slider, e.Ohms * e.Position), .. Track(e.Slider, e.B, e.Ohms * (1 - e.Position))],
        _ => [],
    };

    private static (int, int)[] Track(int a, int b, double ohms) => ohms < Joint ? [(a, b)] : [];
}
