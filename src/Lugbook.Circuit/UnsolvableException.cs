namespace Lugbook.Circuit;

/// <summary>The circuit has no solution that the engine can find; the message names the node and the element that would not settle.</summary>
public sealed class UnsolvableException(string message, string node, string? element, double residualAmperes) : Exception(message)
{
    /// <summary>The node with the largest current that is not accounted for.</summary>
    public string Node { get; } = node;
    /// <summary>The non-linear element with the largest current at that node, when there is one.</summary>
    public string? Element { get; } = element;
    /// <summary>The current that is not accounted for there, A.</summary>
    public double ResidualAmperes { get; } = residualAmperes;
}
