namespace Lugbook.Circuit.Valves;

/// <summary>A place in a table of valve data that could not be read: where, what stood there, what is wrong, what to do.</summary>
/// <param name="Line">Line of the text, counted from 1.</param>
/// <param name="Column">Name of the column; empty when the whole line is meant.</param>
/// <param name="Text">What stands there.</param>
/// <param name="Problem">What is wrong.</param>
/// <param name="Remedy">What to do, an imperative.</param>
public sealed record LineFault(int Line, string Column, string Text, string Problem, string Remedy)
{
    /// <inheritdoc/>
    public override string ToString() =>
        Column.Length == 0 ? $"line {Line}: {Problem}\n    {Text}\n{Remedy}" : $"line {Line}, {Column}: {Problem}\n    {Text}\n{Remedy}";
}
