namespace Lugbook.Restoration.Trace;

/// <summary>How well readings agree with a prediction, none of them or at most one being a slip of the pen.</summary>
/// <remarks>
/// Normal with the readings' covariance (Cholesky). A mistyped reading is even over a wide range; leaving one reading out needs no second factorisation: with K = C⁻¹ and α = K·r its conditional error is
/// α_i/K_ii with variance 1/K_ii (Rasmussen and Williams, Gaussian Processes for Machine Learning, §5.4.2).
/// </remarks>
internal static class Likelihood
{
    /// <summary>How often a reading is mistyped or taken at the wrong place; common practice, no source.</summary>
    public const double MistypedShare = 0.01;

    /// <summary>Logarithm of the likelihood, and of each reading the probability that it is the mistyped one.</summary>
    /// <param name="residual">Reading less prediction.</param>
    /// <param name="covariance">Of the predictions, the meter included; overwritten.</param>
    /// <param name="wide">Logarithm of the density of nonsense for each reading.</param>
    /// <param name="odd">Out: probability that each is mistyped; may be empty.</param>
    public static double Of(ReadOnlySpan<double> residual, double[,] covariance, ReadOnlySpan<double> wide, Span<double> odd)
    {
        var n = residual.Length;
        if (n == 0) return 0;
        Span<double> z = n <= 64 ? stackalloc double[n] : new double[n];
        double log = -0.5 * n * Math.Log(2 * Math.PI);
        for (var j = 0; j < n; j++)
        {
            for (var i = j; i < n; i++)
            {
                var sum = covariance[i, j];
                for (var k = 0; k < j; k++) sum -= covariance[i, k] * covariance[j, k];
                covariance[i, j] = i == j ? Math.Sqrt(Math.Max(sum, 1e-18)) : sum / covariance[j, j];
            }
            var r = residual[j];
            for (var k = 0; k < j; k++) r -= covariance[j, k] * z[k];
            z[j] = r / covariance[j, j];
            log += -0.5 * z[j] * z[j] - Math.Log(covariance[j, j]);
        }
        // Columns of L⁻¹ give K's diagonal and α.
        Span<double> column = n <= 64 ? stackalloc double[n] : new double[n];
        Span<double> each = n <= 64 ? stackalloc double[n] : new double[n];
        var all = log + n * Math.Log(1 - MistypedShare);
        var most = all;
        for (var i = 0; i < n; i++)
        {
            double own = 0, alpha = 0;
            for (var j = i; j < n; j++)
            {
                var sum = j == i ? 1.0 : 0;
                for (var k = i; k < j; k++) sum -= covariance[j, k] * column[k];
                column[j] = sum / covariance[j, j];
                own += column[j] * column[j];
                alpha += column[j] * z[j];
            }
            var variance = 1 / own;
            var error = alpha * variance;
            var conditional = -0.5 * (error * error / variance + Math.Log(2 * Math.PI * variance));
            each[i] = log - conditional + (n - 1) * Math.Log(1 - MistypedShare) + Math.Log(MistypedShare) + wide[i];
            most = Math.Max(most, each[i]);
        }
        var total = Math.Exp(all - most);
        for (var i = 0; i < n; i++) total += Math.Exp(each[i] - most);
        var result = most + Math.Log(total);
        for (var i = 0; i < odd.Length; i++) odd[i] = Math.Exp(each[i] - result);
        return result;
    }

    /// <summary>Logarithm of the probability that a meter shows "over".</summary>
    public static double Over(double mean, double deviation, double top) => Math.Log(Math.Max(1e-6, 0.5 * Erfc((top - mean) / (deviation * Math.Sqrt(2)))));

    // Abramowitz and Stegun, 7.1.26: to 1.5e-7.
    private static double Erfc(double x)
    {
        var t = 1 / (1 + 0.3275911 * Math.Abs(x));
        var y = ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t * Math.Exp(-x * x);
        return x >= 0 ? y : 2 - y;
    }
}
