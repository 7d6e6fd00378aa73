using System.Numerics;
using CsCheck;
using Lugbook.Restoration.Slips;

namespace Lugbook.Restoration.Tests.Slips;

/// <summary>The fewest readings are as few as trying every set of readings finds, and they expose all that can be exposed.</summary>
public class CoverTests
{
    [Fact]
    public void The_cover_is_as_small_as_exhaustive_search_finds() =>
        Gen.Select(Gen.Int[1, 11], Gen.Int[1, 90], Gen.Double[0.05, 0.6], Gen.Int).Sample((readings, slips, share, seed) =>
        {
            var random = new Random(seed);
            var exposes = new bool[readings, slips];
            for (var r = 0; r < readings; r++) for (var s = 0; s < slips; s++) exposes[r, s] = random.NextDouble() < share;
            var cover = Cover.Of(readings, slips, (r, s) => exposes[r, s], set => -set.Sum());
            var coverable = Enumerable.Range(0, slips).Where(s => Enumerable.Range(0, readings).Any(r => exposes[r, s])).ToArray();
            var (fewest, value) = (int.MaxValue, double.NegativeInfinity);
            for (var set = 0u; set < 1u << readings; set++)
            {
                if (!coverable.All(s => Enumerable.Range(0, readings).Any(r => (set >> r & 1) != 0 && exposes[r, s]))) continue;
                var (size, worth) = (BitOperations.PopCount(set), -(double)Enumerable.Range(0, readings).Where(r => (set >> r & 1) != 0).Sum());
                if (size < fewest || size == fewest && worth > value) (fewest, value) = (size, worth);
            }
            return cover.IsProven && cover.Coverable.SequenceEqual(coverable) && cover.Readings.Length == fewest && -cover.Readings.Sum() == value
                && coverable.All(s => cover.Readings.Any(r => exposes[r, s]));
        }, iter: 400);

    [Fact]
    public void Where_nothing_exposes_anything_no_reading_is_asked_for() => Assert.Empty(Cover.Of(5, 4, (_, _) => false, _ => 0).Readings);
}
