using System.Numerics;
using CsCheck;
using Lugbook.Restoration.Prove.Solving;

namespace Lugbook.Restoration.Tests.Prove;

/// <summary>The fewest sets, against trying every choice of sets.</summary>
public class LeastCoverTests
{
    [Fact]
    public void It_is_as_small_as_exhaustive_search_finds_and_its_bound_says_so() =>
        Gen.Select(Gen.Int[1, 9], Gen.Int[1, 30], Gen.Double[0.1, 0.6], Gen.Int).Sample((count, size, share, seed) =>
        {
            var random = new Random(seed);
            BigInteger[] sets = [.. Enumerable.Range(0, count).Select(_ => Enumerable.Range(0, size).Aggregate(BigInteger.Zero, (s, i) => random.NextDouble() < share ? s | BigInteger.One << i : s))];
            var open = sets.Aggregate(BigInteger.Zero, (a, b) => a | b);
            var fewest = Enumerable.Range(0, 1 << count).Where(pick => (Enumerable.Range(0, count).Where(i => (pick >> i & 1) != 0).Aggregate(BigInteger.Zero, (a, i) => a | sets[i]) & open) == open).Min(pick => BitOperations.PopCount((uint)pick));
            var cover = LeastCover.Of(sets, open, i => i % 2 == 0, CancellationToken.None);
            Assert.Equal(fewest, cover.Chosen.Length);
            Assert.Equal(fewest, cover.Least);
            Assert.Equal(open, cover.Chosen.Aggregate(BigInteger.Zero, (a, i) => a | sets[i]) & open);
        }, iter: 60);
}
