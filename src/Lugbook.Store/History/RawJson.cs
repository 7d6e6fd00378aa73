using System.Text.Json;
using System.Text.Json.Serialization;

namespace Lugbook.Store.History;

/// <summary>A string that holds JSON, written as that JSON and not as text within text.</summary>
internal sealed class RawJson : JsonConverter<string>
{
    public override string Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        using var document = JsonDocument.ParseValue(ref reader);
        return document.RootElement.GetRawText();
    }

    public override void Write(Utf8JsonWriter writer, string value, JsonSerializerOptions options) => writer.WriteRawValue(value);
}
