using System.Collections.Concurrent;
using Lugbook.Circuit;

namespace Lugbook.Benchmarks;

/// <summary>The networks measured, made once each.</summary>
internal static class Subjects
{
    private static readonly ConcurrentDictionary<string, Network> Made = new(StringComparer.Ordinal);

    public static readonly int[] Sizes = [50, 150, 300, 600];
    public const string Radio = "demo radio", Television = "demo television";

    /// <summary>A generated chassis.</summary>
    public static Network Of(int parts) => Named(Name(parts));

    /// <summary>What a generated chassis is called.</summary>
    public static string Name(int parts) => FormattableString.Invariant($"chassis {parts}");

    /// <summary>A generated chassis or a demo set by its name.</summary>
    public static Network Named(string name) => Made.GetOrAdd(name, static n => n switch
    {
        Radio => DemoSets.Network("radio"),
        Television => DemoSets.Network("tv"),
        _ => Chassis.Of(int.Parse(n["chassis ".Length..], System.Globalization.CultureInfo.InvariantCulture)),
    });
}
