using System.Collections.Concurrent;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Solve;
using Lugbook.Store.Exchange;
using Lugbook.Trade;

namespace Lugbook.Restoration.Tests.Unseen;

/// <summary>
/// Chassis of kinds that the demo books do not cover: a superhet with field coil and back bias (superhet), an amplifier with tone network, cathodyne, overall feedback and fixed bias (hifi), a test oscillator on
/// a regulated supply (tester), a stage amplifier with tremolo and long-tailed splitter (stage). All invented. Their tables of roles and volts were written before the program had seen them.
/// The rules were mended on the first three (85 of 132 positions before, all after); on the fourth, still unseen, they then found 40 of 48 (32 before). On the fifth, an AC/DC phonograph amplifier (phono), written after all that, they found 34 of 37 at first sight.
/// </summary>
internal static class UnseenBooks
{
    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "Unseen");
    private static readonly ConcurrentDictionary<string, Lazy<SolveResult>> Solutions = new(StringComparer.Ordinal);

    private static readonly ConcurrentDictionary<string, Lazy<MapResult>> Maps = new(StringComparer.Ordinal);

    public static string[] Names { get; } = ["superhet", "hifi", "tester", "stage", "phono"];
    public static string PathOf(string file) => Path.Combine(Folder, file);

    public static Book Named(string name) => BookFiles.ReadAsync(Path.Combine(Folder, name), CancellationToken.None).GetAwaiter().GetResult() is { Book: { } book } ? book : throw new InvalidOperationException(name);
    public static SolveResult SolvedOf(string name) => Solutions.GetOrAdd(name, n => new(() => Solved.Of(Named(n)))).Value;
    public static MapResult MapOf(string name) => Maps.GetOrAdd(name, n => new(() => MapStage.Run(Named(n), DemoBooks.Handbook))).Value;
}
