using System.Globalization;
using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Commands;

/// <summary>Tells on a terminal how far a solve has come; silent where the error output goes to a file.</summary>
internal sealed class SolveTeller(TextWriter error) : IProgress<SolveProgress>
{
    private static readonly TimeSpan Pace = TimeSpan.FromSeconds(2);
    private readonly Lock _lock = new();
    private TimeSpan _next = Pace;

    public void Report(SolveProgress value)
    {
        if (Console.IsErrorRedirected) return;
        lock (_lock)
        {
            if (value.Elapsed < _next || value is not { Best: > 0 and var best, Bound: { } bound }) return;
            _next = value.Elapsed + Pace;
            error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{value.Elapsed.TotalSeconds:0} s: {best / 10_000m:0.00} with the price of lines, at most {Math.Max(0, 100.0 * (best - bound) / best):0.0} % too dear. Ctrl+C takes the best so far."));
        }
    }
}
