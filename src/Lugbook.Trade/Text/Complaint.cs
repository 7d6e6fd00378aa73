namespace Lugbook.Trade.Text;

/// <summary>Input that could not be read; the same on the command line, on the page and in --json.</summary>
/// <param name="Place">Where: a file with row and column, a field, "the marking".</param>
/// <param name="Text">What was written there.</param>
/// <param name="At">Index in <paramref name="Text"/> of the first character that does not fit; 0 up to its length.</param>
/// <param name="Problem">What is wrong, as a sentence without capital or full stop needs of its own.</param>
/// <param name="Remedy">What to do, in the imperative.</param>
public sealed record Complaint(string Place, string Text, int At, string Problem, string Remedy)
{
    /// <summary>Place and problem on one line, the text with a caret beneath, then the remedy.</summary>
    public override string ToString() => Text.Length == 0
        ? $"{Place}: {Problem}\n{Remedy}"
        : $"{Place}: {Problem}\n    {Text}\n    {new string(' ', Math.Clamp(At, 0, Text.Length))}^\n{Remedy}";
}
