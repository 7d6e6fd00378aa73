using System.Collections;
using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Lugbook.Trade.Text;

/// <summary>What a row says in columns that Lugbook does not know, kept so that a round trip loses nothing.</summary>
/// <remarks>Keys are column headers as written; order is the order of the file. Equality is by content, whatever the order.</remarks>
[JsonConverter(typeof(ExtrasJson))]
public sealed class Extras : IReadOnlyDictionary<string, string>, IEquatable<Extras>
{
    private readonly IReadOnlyList<KeyValuePair<string, string>> _pairs;

    private Extras(IReadOnlyList<KeyValuePair<string, string>> pairs) => _pairs = pairs;

    /// <summary>No unknown columns.</summary>
    public static Extras None { get; } = new([]);

    /// <summary>Keeps the pairs; of two with one key the last one stands.</summary>
    public static Extras From(IEnumerable<KeyValuePair<string, string>> pairs)
    {
        var kept = new List<KeyValuePair<string, string>>();
        foreach (var pair in pairs)
        {
            kept.RemoveAll(k => k.Key == pair.Key);
            kept.Add(pair);
        }
        return kept.Count == 0 ? None : new(kept);
    }

    /// <inheritdoc/>
    public int Count => _pairs.Count;
    /// <inheritdoc/>
    public IEnumerable<string> Keys => _pairs.Select(p => p.Key);
    /// <inheritdoc/>
    public IEnumerable<string> Values => _pairs.Select(p => p.Value);
    /// <inheritdoc/>
    public string this[string key] => TryGetValue(key, out var value) ? value : throw new KeyNotFoundException($"No column '{key}'.");
    /// <inheritdoc/>
    public bool ContainsKey(string key) => TryGetValue(key, out _);
    /// <inheritdoc/>
    public bool TryGetValue(string key, [MaybeNullWhen(false)] out string value)
    {
        foreach (var pair in _pairs)
            if (pair.Key == key) { value = pair.Value; return true; }
        value = null;
        return false;
    }
    /// <inheritdoc/>
    public IEnumerator<KeyValuePair<string, string>> GetEnumerator() => _pairs.GetEnumerator();
    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
    /// <inheritdoc/>
    public bool Equals(Extras? other) =>
        other is not null && Count == other.Count && _pairs.All(p => other.TryGetValue(p.Key, out var v) && v == p.Value);
    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Extras);
    /// <inheritdoc/>
    public override int GetHashCode() => _pairs.Aggregate(0, (h, p) => h ^ HashCode.Combine(p.Key, p.Value));

    private sealed class ExtrasJson : JsonConverter<Extras>
    {
        public override Extras Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            From(JsonSerializer.Deserialize<Dictionary<string, string>>(ref reader, options) ?? []);

        public override void Write(Utf8JsonWriter writer, Extras value, JsonSerializerOptions options)
        {
            writer.WriteStartObject();
            foreach (var (key, text) in value) writer.WriteString(key, text);
            writer.WriteEndObject();
        }
    }
}
