using Lugbook.Restoration.Slips;

namespace Lugbook.Restoration.Trace;

/// <summary>One fault at one of its sizes, solved.</summary>
/// <param name="Number">Its place in the model.</param>
/// <param name="Fault">The fault's place in the model.</param>
/// <param name="Size">The size.</param>
/// <param name="Hot">What it does to the running network.</param>
/// <param name="Cold">What it does to the cold one.</param>
internal sealed record Variant(int Number, int Fault, FaultSize Size, SlipChange Hot, SlipChange Cold)
{
    /// <summary>Volts of every node, running; null where it did not settle.</summary>
    public double[]? Volts { get; set; }

    /// <summary>Its neighbours in size, and how far they lie apart on the logarithmic scale; null where there is one size only.</summary>
    public (int Lower, int Upper, double Distance)? Beside { get; set; }

    /// <summary>Standard deviation of the size within its share of the scale.</summary>
    public double SizeSigma { get; set; }
}
