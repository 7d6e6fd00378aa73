using System.Globalization;
using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Solving;

/// <summary>The order of attempts when a network will not settle at once.</summary>
internal static class Settling
{
    private const int Steps = 120;

    /// <summary>Solves in place, or throws with the node and element that would not settle.</summary>
    public static void Solve(Assembly assembly, Newton<One> newton, Numbers<One> numbers, One[] volts)
    {
        if (newton.Solve(numbers, volts, 0, Steps)) return;
        if (ByShunt(newton, numbers, volts)) return;
        if (BySources(assembly, newton, numbers, volts)) return;
        if (ByInsulation(assembly, newton, numbers, volts)) return;
        throw Reason(assembly, newton, numbers, volts);
    }

    private static bool ByShunt(Newton<One> newton, Numbers<One> numbers, One[] volts)
    {
        Array.Clear(volts);
        for (var shunt = 1e-2; shunt > 1e-13; shunt /= 4)
            if (!newton.Solve(numbers, volts, shunt, Steps)) return false;
        return newton.Solve(numbers, volts, 0, Steps);
    }

    // A grid or cathode without a path for direct current has no rest but what insulation gives it: 1 TΩ to 0 V, which at 900 V is still below 1 nA.
    private static bool ByInsulation(Assembly assembly, Newton<One> newton, Numbers<One> numbers, One[] volts)
    {
        const double siemens = 1e-12;
        Array.Clear(volts);
        for (var shunt = 1e-2; shunt > siemens; shunt /= 4) newton.Solve(numbers, volts, shunt, Steps);
        newton.Solve(numbers, volts, siemens, Steps);
        newton.Evaluate(numbers, volts, new(0), matrix: false);
        foreach (var n in assembly.NodeOfUnknown) if (!(Math.Abs(newton.Residual[n].Value) < 1e-9)) return false;
        return true;
    }

    private static bool BySources(Assembly assembly, Newton<One> newton, Numbers<One> numbers, One[] volts)
    {
        Array.Clear(volts);
        var scaled = new Numbers<One>(assembly);
        numbers.Siemens.CopyTo(scaled.Siemens, 0);
        numbers.Diodes.CopyTo(scaled.Diodes, 0);
        numbers.Triodes.CopyTo(scaled.Triodes, 0);
        numbers.Pentodes.CopyTo(scaled.Pentodes, 0);
        numbers.Converters.CopyTo(scaled.Converters, 0);
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

    private static UnsolvableException Reason(Assembly assembly, Newton<One> newton, Numbers<One> numbers, One[] volts)
    {
        newton.Evaluate(numbers, volts, new(0), matrix: false);
        var worst = -1;
        double most = -1;
        foreach (var n in assembly.NodeOfUnknown)
        {
            var residual = Math.Abs(newton.Residual[n].Value);
            if (double.IsNaN(residual)) residual = double.PositiveInfinity;
            if (residual > most) (worst, most) = (n, residual);
        }
        var element = On(assembly.Triodes, worst) ?? On(assembly.Pentodes, worst) ?? On(assembly.Converters, worst) ?? On(assembly.Diodes, worst);
        return new UnsolvableException(
            string.Create(CultureInfo.InvariantCulture,
                $"The circuit does not settle at node {assembly.NodeNames[worst]}{(element is null ? "" : $", where {element} is")}: {most:0.###e+0} A are not accounted for there. Check the value of what is on that node."),
            assembly.NodeNames[worst], element, most);
    }

    private static string? On<T>(Bank<T> bank, int node) where T : IDevice =>
        bank.Devices.Where(d => d.Nodes.Contains(node)).Select(d => d.Element).FirstOrDefault();
}
