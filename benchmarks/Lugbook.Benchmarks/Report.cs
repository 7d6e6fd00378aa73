using System.Globalization;
using System.Text;

namespace Lugbook.Benchmarks;

/// <summary>Writes what was measured as a page; each aim is said to be met or missed by what was measured, not by hand.</summary>
internal static class Report
{
    private const double RatioAim = 100, SecondsAim = 1;

    public static string Of(Measured measured)
    {
        var page = new StringBuilder();
        var turns = Subjects.Sizes.ToDictionary(size => size, Measured.InTurn);
        Line($"# Benchmarks");
        Line($"");
        Line($"Written by `benchmarks/run`; do not edit. {(Environment.ProcessorCount == 2 ? "Two" : Environment.ProcessorCount.ToString(CultureInfo.InvariantCulture))} cores, .NET {Environment.Version.Major}, BenchmarkDotNet short runs; each figure is the fastest of five rounds, because other work on the machine only adds. On a machine that is shared expect ±30 %.");
        Line($"");
        Line($"**Chassis** are generated, the same every time: sections of detector, IF pentodes on a common control line, triode stages and an output stage, each section on a decoupled rail. Parts include");
        Line($"capacitors and coils. **Batch** is `Lugbook.Circuit.Batch`, {(System.Runtime.Intrinsics.Vector512.IsHardwareAccelerated ? 8 : 4)} variants side by side here. **Dense** is the same equations, insulation, start, damping and end of the Newton iteration on all nodes, one variant after the other on one core, each step");
        Line($"by the LU factors of MathNet.Numerics (its managed code). Both sides were held against each other before each measurement: largest difference {Number(Agreement.Worst)} V (1e-6 V is allowed).");
        Line($"");
        Aims(measured);
        Line($"");
        Line($"## Operating points of tolerance samples");
        Line($"");
        Line($"Every resistor within ±10 %, every valve's perveance within ±30 %. Variants a second. One core: the least of 100 short slices, batch and dense by turns, so that other work on the machine meets both alike; all cores: BenchmarkDotNet.");
        Line($"");
        Line($"| chassis | parts | nodes | valve units | varied | batch, one core | batch, all cores | all over one | dense, one core | ratio | µs a variant and part |");
        Line($"|---|---|---|---|---|---|---|---|---|---|---|");
        foreach (var size in Subjects.Sizes)
        {
            var network = Subjects.Of(size);
            var ((one, dense), all) = (turns[size], measured.Seconds("AllCores", size));
            var units = network.Elements.Count(e => e is Circuit.Elements.Triode or Circuit.Elements.Pentode or Circuit.Elements.Diode);
            Line($"| {size} | {network.Elements.Length} | {network.NodeCount} | {units} | {Tolerances.Of(network).Length} | {1 / one:#,0} | {1 / all:#,0} | {one / all:0.0} | {1 / dense:#,0} | **{dense / one:0}** | {one * 1e6 / network.Elements.Length:0.000} |");
        }
        Line($"");
        Line($"10,000 samples of the chassis of 150 parts, all cores, memory for the answers included: **{measured.Seconds("TenThousand"):0.000} s**.");
        Line($"");
        Line($"## Growth");
        Line($"");
        var (small, large) = (Subjects.Of(Subjects.Sizes[0]).Elements.Length, Subjects.Of(Subjects.Sizes[^1]).Elements.Length);
        var (batchGrowth, denseGrowth) = (turns[Subjects.Sizes[^1]].Batch / turns[Subjects.Sizes[0]].Batch, turns[Subjects.Sizes[^1]].Dense / turns[Subjects.Sizes[0]].Dense);
        var growth = (double)large / small;
        Line($"From {small} to {large} parts ({growth:0.0} times) a variant takes {batchGrowth:0.0} times as long in the batch, an exponent of {Math.Log(batchGrowth) / Math.Log(growth):0.00} (1 is linear), and {denseGrowth:0} times with dense matrices, {Math.Log(denseGrowth) / Math.Log(growth):0.00}.");
        Line($"");
        Line($"## Allocation");
        Line($"");
        Line($"One core, results used again. \"A variant\" is what 9,000 variants allocate more than 1,000, over the 8,000 between them; \"a call\" is the solver's room, made once a call and core.");
        Line($"");
        Line($"| chassis | bytes a variant | bytes a call | dense, bytes a variant |");
        Line($"|---|---|---|---|");
        foreach (var size in Subjects.Sizes)
        {
            var (variant, call) = Measured.Allocation(size);
            Line($"| {size} | {variant:0.0} | {call:#,0} | {measured.Bytes("Dense", size):#,0} |");
        }
        Line($"");
        Line($"## The complete dictionary of single faults");
        Line($"");
        Line($"Each resistor open, half and double; each capacitor shorted (1 Ω) and leaking (100 kΩ); each valve or rectifier unit dead. Milliseconds for the whole dictionary. Dense makes one attempt a");
        Line($"fault, leaves those without an answer that it does not settle, and was not run (–) where it takes minutes; the batch solves what its lanes do not settle alone, by all attempts of the operating point.");
        Line($"");
        Line($"| set | elements | nodes | faults | batch, one core | batch, all cores | dense, one core | ratio | solved alone | no answer: batch | no answer: dense |");
        Line($"|---|---|---|---|---|---|---|---|---|---|---|");
        var (open, alone, without) = (0, 0, new List<string>());
        foreach (var set in Subjects.Sizes.Select(Subjects.Name).Append(Subjects.Radio).Append(Subjects.Television))
        {
            var counts = Measured.Dictionary(set);
            (open, alone) = (open + counts.AloneOpen, alone + counts.Alone);
            without.AddRange(counts.Without.Select(w => $"{set}, {w}"));
            var (one, all) = (measured.Seconds("OneCore", set), measured.Seconds("AllCores", set));
            double? dense = counts.DenseSettled is null ? null : measured.Seconds("DenseDictionary", set);
            Line($"| {set} | {counts.Parts} | {counts.Nodes} | {counts.Faults} | {one * 1e3:0.00} | {all * 1e3:0.00} | {Or(dense * 1e3)} | {Or(dense / one)} | {counts.Alone} | {counts.Without.Length} | {Or(counts.Faults - counts.DenseSettled)} |");
        }
        Line($"");
        Line($"{alone} of all these faults were solved alone, {open} of them open resistors; all others, opens among them, beside others in the lanes (docs/circuit.md), where each answer is within 2 µV of the same");
        Line($"network solved alone. Per fault a dictionary takes longer than samples do: a fault is further from the nominal point, and an open grid or cathode comes to rest slowly.");
        if (without.Count > 0) Line($"");
        foreach (var w in without) Line($"- no answer: {w}");
        return page.ToString();

        void Line(FormattableString text) => page.Append(text.ToString(CultureInfo.InvariantCulture)).Append('\n');

        void Aims(Measured m)
        {
            var ratio = turns[150].Dense / turns[150].Batch;
            var seconds = m.Seconds("TenThousand");
            var bytes = Subjects.Sizes.Max(s => Measured.Allocation(s).Variant);
            Line($"| aim | measured | |");
            Line($"|---|---|---|");
            Line($"| 150 parts: {RatioAim} times as many variants a second on one core as dense matrices | {ratio:0} times | {Verdict(ratio >= RatioAim)} |");
            Line($"| 10,000 tolerance samples of it in less than {SecondsAim} s on two cores | {seconds:0.000} s | {Verdict(seconds < SecondsAim)} |");
            Line($"| no allocation for a variant | {bytes:0.0} bytes | {Verdict(bytes < 1)} |");
            var exponent = Math.Log(turns[600].Batch / turns[50].Batch) / Math.Log((double)Subjects.Of(600).Elements.Length / Subjects.Of(50).Elements.Length);
            Line($"| near-linear growth, 50 to 600 parts: exponent at most 1.2 | {exponent:0.00} | {Verdict(exponent <= 1.2)} |");
        }
    }

    private static string Or(double? value) => value is { } v ? v.ToString(v < 100 && v != Math.Floor(v) ? "0.0" : "0", CultureInfo.InvariantCulture) : "–";

    private static string Verdict(bool met) => met ? "met" : "**missed**";

    private static string Number(double volts) => volts.ToString("0.0e+0", CultureInfo.InvariantCulture);
}
