namespace Lugbook.Restoration.Trace;

/// <summary>What a meter should show under one variant, on the even scale of its kind.</summary>
/// <param name="Mean">With all healthy parts at their mark.</param>
/// <param name="Row">How far one standard deviation of each spread moves it; behind them the fault's own size.</param>
/// <param name="Apart">Standard deviation of all that is independent from reading to reading: the meter, and what the laws do not know.</param>
internal sealed record Prediction(double Mean, double[] Row, double Apart)
{
    /// <summary>Its own variance.</summary>
    public double Variance => With(this) + Apart * Apart;

    /// <summary>Covariance with another reading under the same variant.</summary>
    public double With(Prediction other)
    {
        double sum = 0;
        for (var k = 0; k < Row.Length; k++) sum += Row[k] * other.Row[k];
        return sum;
    }
}
