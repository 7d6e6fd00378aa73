namespace Lugbook.Circuit.Tests;

/// <summary>What is allocated is counted for the whole process, so nothing else may run beside it.</summary>
[CollectionDefinition("alone", DisableParallelization = true)]
public sealed class AloneCollection;

/// <summary>Source: our own promise in docs/circuit.md: no allocation per variant.</summary>
[Collection("alone")]
public class BatchAllocationTests
{
    [Fact]
    public void A_variant_allocates_nothing()
    {
        var batch = BatchTests.Receiver();
        long Bytes(int variants)
        {
            var (values, room) = (BatchTests.Samples(variants, 4), new BatchResult(variants, batch.NodeCount));
            for (var k = 5; k < values.Length; k += 7 * BatchTests.Parts.Length) values[k] = double.PositiveInfinity;   // a coupling capacitor that does not leak
            batch.SolveInto(values, room);
            var before = GC.GetTotalAllocatedBytes(precise: true);
            batch.SolveInto(values, room);
            return GC.GetTotalAllocatedBytes(precise: true) - before;
        }
        var (few, many) = (Bytes(400), Bytes(8400));
        // A byte a variant and node would be 120,000.
        Assert.True(many - few < 8000 * 8, $"{few} bytes for 400 variants, {many} for 8400");
    }
}
