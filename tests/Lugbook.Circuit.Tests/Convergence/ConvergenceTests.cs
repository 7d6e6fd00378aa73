using CsCheck;

namespace Lugbook.Circuit.Tests.Convergence;

/// <summary>Source: our own promise in docs/circuit.md: no crash, no hang, no number that is none, 1 nA at most, or a reason with node and element.</summary>
public class ConvergenceTests
{
    private static long Iterations(long usual) => Environment.GetEnvironmentVariable("CsCheck_Iter") is { Length: > 0 } given ? long.Parse(given, System.Globalization.CultureInfo.InvariantCulture) : usual;

    [Fact]
    public void Random_networks_are_answered_or_the_reason_is_named()
    {
        var analyses = new Analyses();
        RandomNetworks.Both.Sample(n => analyses.Run(n), iter: Iterations(300), print: Printed);
        var text = string.Join('\n', analyses.Counts.Select(c => FormattableString.Invariant($"{c.Key}: {c.Value.Answered} of {c.Value.Asked}, {c.Value.Worst:0.0e+0} A, longest {c.Value.Longest:0.00} s")));
        TestContext.Current.TestOutputHelper?.WriteLine(text);
        Console.Error.WriteLine(text);
    }

    private static string Printed(Network network) => $"{network.NodeCount} nodes\n{string.Join('\n', network.Elements)}";
}
