namespace Lugbook.Circuit.Tests.Convergence;

/// <summary>Kirchhoff's current law on an answer, from the elements one by one: nothing of the solver's own sums is used.</summary>
internal static class Balance
{
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
        Elements.Resistor { Ohms: 0 } e => [(e.A, e.B)],
        Elements.Switch { Closed: true } e => [(e.A, e.B)],
        Elements.Control e when e.Position == 0 => [(e.A, e.Slider)],
        Elements.Control e when e.Position == 1 => [(e.Slider, e.B)],
        _ => [],
    };
}
