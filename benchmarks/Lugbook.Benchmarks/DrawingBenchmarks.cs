using System.Diagnostics;
using System.Globalization;
using System.Text;
using Lugbook.Drawing;
using Lugbook.Restoration.Layout;
using Lugbook.Store.Exchange;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;

namespace Lugbook.Benchmarks;

/// <summary>How long a chassis takes from book to SVG: layout, labels and text; best of twenty, on the clock and in the processor.</summary>
internal static class DrawingBenchmarks
{
    private const int Rounds = 20;

    public static string Report()
    {
        var page = new StringBuilder();
        page.Append(CultureInfo.InvariantCulture, $"""
            # Benchmarks of the drawing

            Measured by `benchmarks/run drawing` on a machine of {Environment.ProcessorCount} cores, .NET {Environment.Version.Major}. {Environment.GetEnvironmentVariable("LUGBOOK_BENCH_NOTE")}

            From the book to the finished SVG, without a map; best and median of {Rounds} after three to warm up. Processor: time spent by all threads of the process, best; it counts only this program, whatever else runs.

            **Aim: the television (some 250 parts) below 300 ms.**

            | book | parts | clock, best | clock, median | processor, best | SVG |
            |---|---|---|---|---|---|

            """);
        foreach (var name in new[] { "radio", "amp", "tv" })
        {
            var read = BookFiles.ReadAsync(Path.Combine(AppContext.BaseDirectory, "data", "demo", name), CancellationToken.None).GetAwaiter().GetResult();
            var book = read.Book ?? throw new InvalidOperationException(string.Join('\n', read.Complaints));
            Row(page, name, book);
            Row(page, $"{name}, nothing measured", book with { Lugs = Table<Lug>.Of(book.Lugs.Select(l => l with { X = null, Y = null })) });
        }
        return page.ToString();
    }

    private static void Row(StringBuilder page, string name, Book book)
    {
        var process = Process.GetCurrentProcess();
        List<double> clock = [], spent = [];
        var size = 0;
        for (var round = 0; round < Rounds + 3; round++)
        {
            process.Refresh();
            var (start, before) = (Stopwatch.GetTimestamp(), process.TotalProcessorTime);
            size = SvgWriter.Write(ChassisDrawing.Draw(book, LayoutStage.Run(book), null, DrawingOptions.Default)).Length;
            var took = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
            process.Refresh();
            if (round < 3) continue;
            clock.Add(took);
            spent.Add((process.TotalProcessorTime - before).TotalMilliseconds);
        }
        clock.Sort();
        page.Append(CultureInfo.InvariantCulture, $"| {name} | {book.Parts.Count} | {clock[0]:0} ms | {clock[Rounds / 2]:0} ms | {spent.Min():0} ms | {size / 1000} kB |\n");
    }
}
