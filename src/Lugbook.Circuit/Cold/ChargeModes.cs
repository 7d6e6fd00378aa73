namespace Lugbook.Circuit.Cold;

/// <summary>How the voltage at a node approaches its final value under a constant current: all poles of the network's capacitors, exactly.</summary>
/// <remarks>
/// Seen from a node, Z(s) = R − Σ s·ρᵢ²/(1 + sτᵢ): τ are the eigenvalues of √C·(Rcc + ESR)·√C, Rcc the resistance matrix at the capacitors' terminals,
/// ρ = Uᵀ·√C·r, r the volts that 1 A at the node puts on each capacitor. All terms of the step response fall, so there is no overshoot and one time at
/// which 1 % is left. (Symmetric RC networks: Guillemin, Synthesis of Passive Networks, ch. 4.)
/// </remarks>
internal sealed class ChargeModes
{
    private readonly double[][] _volts;   // per capacitor: volts of each row for 1 A through the capacitor's place
    private readonly Charge[] _capacitors;
    private readonly double[] _seconds;
    private readonly double[,] _modes;

    public ChargeModes(Reduced reduced, Charge[] capacitors)
    {
        var n = capacitors.Length;
        _capacitors = capacitors;
        _volts = new double[n][];
        var matrix = new double[n, n];
        for (var k = 0; k < n; k++)
        {
            var b = new double[reduced.Rows];
            if (capacitors[k].A >= 0) b[capacitors[k].A] += 1;
            if (capacitors[k].B >= 0) b[capacitors[k].B] -= 1;
            reduced.Mesh.Solve(b);
            _volts[k] = b;
            for (var j = 0; j < n; j++)
                matrix[k, j] = (Across(b, capacitors[j]) + (j == k ? capacitors[k].SeriesOhms : 0)) * Math.Sqrt(capacitors[k].Farads * capacitors[j].Farads);
        }
        (_seconds, _modes) = Symmetric.Eigen(matrix);
    }

    private static double Across(double[] volts, Charge c) => (c.A < 0 ? 0 : volts[c.A]) - (c.B < 0 ? 0 : volts[c.B]);

    /// <summary>Seconds until a row's voltage is within 1 % of its final value; 0 when no capacitor matters.</summary>
    public double SecondsToOnePercent(int row, double ohms)
    {
        var n = _capacitors.Length;
        var parts = new List<(double Share, double Seconds)>(n);
        for (var i = 0; i < n; i++)
        {
            double along = 0;
            for (var k = 0; k < n; k++) along += _modes[k, i] * Math.Sqrt(_capacitors[k].Farads) * _volts[k][row];
            if (_seconds[i] > 0) parts.Add((along * along / _seconds[i] / ohms, _seconds[i]));
        }
        double Left(double t) => parts.Sum(p => p.Share * Math.Exp(-t / p.Seconds));
        if (Left(0) <= 0.01) return 0;
        double low = 0, high = 5 * parts.Max(p => p.Seconds);
        while (Left(high) > 0.01) high *= 2;
        for (var step = 0; step < 200 && high - low > 1e-13 * high; step++)
        {
            var middle = (low + high) / 2;
            if (Left(middle) > 0.01) low = middle;
            else high = middle;
        }
        return high;
    }
}
