namespace Lugbook.Circuit.Valves;

/// <summary>Kinds of valve that share a shape of curve; each has its own expectations for what a type's lines do not tell.</summary>
public enum ValveClass
{
    /// <summary>Triode.</summary>
    Triode,
    /// <summary>Sharp cut-off signal pentode.</summary>
    SharpPentode,
    /// <summary>Remote cut-off (variable-mu) signal pentode.</summary>
    RemotePentode,
    /// <summary>Output pentode with a suppressor grid.</summary>
    OutputPentode,
    /// <summary>Beam valve.</summary>
    Beam,
    /// <summary>Pentagrid converter or heptode.</summary>
    Converter,
}
