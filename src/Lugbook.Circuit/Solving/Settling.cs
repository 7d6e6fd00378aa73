using System.Globalization;
using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Solving;

/// <summary>The order of attempts when a network will not settle at once.</summary>
internal static class Settling
{
    private const int Steps = 120;
    private const double PromisedAmperes = 1e-9;

    /// <summary>Solves in place, or throws with the node and element that would not settle.</summary>
    /// <returns>Largest current of the elements alone that is not accounted for, A; at most 1 nA.</returns>
    public static double Solve(Assembly assembly, Newton<One> newton, Numbers<One> numbers, One[] volts)
    {
        numbers.Frail = new(1);
        if (newton.Solve(numbers, volts, 0, Steps) || ByShunt(newton, numbers, volts) || BySources(assembly, newton, numbers, volts))
        {
            var left = Unbalanced(assembly, newton, numbers, volts);
            if (left <= PromisedAmperes) return left;
        }
        return ByInsulation(assembly, newton, numbers, volts) is { } rest ? rest : throw Reason(assembly, newton, numbers, volts);
    }

    private static double Unbalanced(Assembly assembly, Newton<One> newton, Numbers<One> numbers, One[] volts)
    {
        newton.Evaluate(numbers, volts);
        double largest = 0;
        foreach (var n in assembly.NodeOfUnknown) largest = Math.Max(largest, Math.Abs(newton.Residual[n].Value));
        return largest;
    }

    private static bool ByShunt(Newton<One> newton, Numbers<One> numbers, One[] volts)
    {
        Array.Clear(volts);
        for (var shunt = 1e-2; shunt > 1e-13; shunt /= 4)
            if (!newton.Solve(numbers, volts, shunt, Steps)) return false;
        return newton.Solve(numbers, volts, 0, Steps);
    }

    // What is tied by next to nothing is held by an insulation at every node, as untied ones are anyway.
    private static double? ByInsulation(Assembly assembly, Newton<One> newton, Numbers<One> numbers, One[] volts)
    {
        Array.Clear(volts);
        for (var shunt = 1e-2; shunt > Assembly.InsulationSiemens; shunt /= 4) newton.Solve(numbers, volts, shunt, Steps);
        newton.Solve(numbers, volts, Assembly.InsulationSiemens, Steps);
        var left = Unbalanced(assembly, newton, numbers, volts);
        return left <= PromisedAmperes ? left : null;
    }

    private static bool BySources(Assembly assembly, Newton<One> newton, Numbers<One> numbers, One[] volts)
    {
        Array.Clear(volts);
        var scaled = new Numbers<One>(assembly, numbers);
        var (share, stride) = (0.0, 0.05);
        var kept = new One[volts.Length];
        while (share < 1)
        {
            var next = Math.Min(1, share + stride);
            for (var k = 0; k < numbers.Amperes.Length; k++) scaled.Amperes[k] = new(numbers.Amperes[k].Value * next);
            for (var n = 0; n < numbers.GivenVolts.Length; n++) scaled.GivenVolts[n] = new(numbers.GivenVolts[n].Value * next);
            volts.CopyTo(kept, 0);
            if (newton.Solve(scaled, volts, 0, Steps))
            {
                share = next;
                stride *= 1.5;
                continue;
            }
            kept.CopyTo(volts, 0);
            stride /= 4;
            if (stride < 1e-5) return false;
        }
        return true;
    }

    /// <summary>Names the node with the largest current that is not accounted for, and what is there.</summary>
    public static UnsolvableException Reason(Assembly assembly, Newton<One> newton, Numbers<One> numbers, One[] volts)
    {
        newton.Evaluate(numbers, volts);
        var worst = assembly.NodeOfUnknown.FirstOrDefault();
        double most = -1;
        foreach (var n in assembly.NodeOfUnknown)
        {
            var residual = Math.Abs(newton.Residual[n].Value);
            if (double.IsNaN(residual)) residual = double.PositiveInfinity;
            if (residual > most) (worst, most) = (n, residual);
        }
        var element = On(assembly.Triodes, worst) ?? On(assembly.Pentodes, worst) ?? On(assembly.Converters, worst) ?? On(assembly.Diodes, worst)
            ?? assembly.Drains.Where(d => d.A == worst || d.B == worst).Select(d => d.Element).FirstOrDefault()
            ?? assembly.Conductances.Where(c => c.A == worst || c.B == worst).Select(c => c.Element).FirstOrDefault();
        return new UnsolvableException(
            string.Create(CultureInfo.InvariantCulture,
                $"The circuit does not settle at node {assembly.NodeNames[worst]}{(element is null ? "" : $", where '{element}' is")}: {most:0.###e+0} A are not accounted for there. Check the value of what is on that node."),
            assembly.NodeNames[worst], element, most);
    }

    private static string? On<T>(Bank<T> bank, int node) where T : IDevice =>
        bank.Devices.Where(d => d.Nodes.Contains(node)).Select(d => d.Element).FirstOrDefault();
}
