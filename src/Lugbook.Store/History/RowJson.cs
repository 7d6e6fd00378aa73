using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Lugbook.Trade;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;

namespace Lugbook.Store.History;

/// <summary>How rows are written as JSON: the one place that decides it.</summary>
/// <remarks>
/// Members in camel case; nulls, empty extras and a row's identity are left out; enumerations by name; numbers so that every
/// double comes back to the bit, infinities as "Infinity". Members that this version does not know are skipped when reading
/// and kept by <see cref="KeepUnknown"/> when writing over them. See docs/decisions/0002-rows-as-json.md.
/// </remarks>
internal static class RowJson
{
    public static JsonSerializerOptions Options { get; } = Make();

    public static string Write<T>(T value) => JsonSerializer.Serialize(value, Options);

    /// <exception cref="JsonException">The text is not what this version writes for the type.</exception>
    public static T Read<T>(string json) =>
        JsonSerializer.Deserialize<T>(json, Options) ?? throw new JsonException($"A {typeof(T).Name} is stored as null.");

    /// <summary>A row without its identity as JSON.</summary>
    /// <exception cref="JsonException">The text is not what this version writes for the type.</exception>
    public static T ReadRow<T>(int id, string json) where T : Row => (T)((Row)Read<T>(json) with { Id = id });

    /// <summary>The fresh body, with those members of the stored one that this version does not know.</summary>
    public static string KeepUnknown(Type type, string stored, string fresh)
    {
        if (type == typeof(string) || JsonNode.Parse(stored) is not JsonObject old) return fresh;
        var known = Options.GetTypeInfo(type).Properties.Select(p => p.Name).ToHashSet(StringComparer.Ordinal);
        var unknown = old.Where(member => !known.Contains(member.Key)).ToList();
        if (unknown.Count == 0) return fresh;
        var merged = JsonNode.Parse(fresh)!.AsObject();
        foreach (var (name, value) in unknown) merged[name] = value?.DeepClone();
        return merged.ToJsonString(Options);
    }

    private static JsonSerializerOptions Make()
    {
        var options = new JsonSerializerOptions
        {
            PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
            DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
            NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
            // The bodies are read by people with a database browser; they are never put into a page as they are.
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
            Converters = { new JsonStringEnumConverter(), new ToleranceJson() },
            TypeInfoResolver = new DefaultJsonTypeInfoResolver { Modifiers = { LeaveOut } },
        };
        options.MakeReadOnly();
        return options;
    }

    private static void LeaveOut(JsonTypeInfo type)
    {
        if (!type.Type.IsAssignableTo(typeof(Row))) return;
        for (var i = type.Properties.Count - 1; i >= 0; i--)
        {
            var property = type.Properties[i];
            if (property.Name == "id") type.Properties.RemoveAt(i);
            else if (property.PropertyType == typeof(Extras)) property.ShouldSerialize = (_, value) => value is Extras { Count: > 0 };
        }
    }

    private sealed class ToleranceJson : JsonConverter<Tolerance>
    {
        private sealed record Ends(double Minus, double Plus);

        public override Tolerance Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
        {
            var ends = JsonSerializer.Deserialize<Ends>(ref reader, options) ?? throw new JsonException("A tolerance is stored as null.");
            try
            {
                return Tolerance.Between(ends.Minus, ends.Plus);
            }
            catch (ArgumentOutOfRangeException outside)
            {
                throw new JsonException(outside.Message, outside);
            }
        }

        public override void Write(Utf8JsonWriter writer, Tolerance value, JsonSerializerOptions options)
        {
            writer.WriteStartObject();
            writer.WriteNumber("minus", value.Minus);
            writer.WriteNumber("plus", value.Plus);
            writer.WriteEndObject();
        }
    }
}
