using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Lugbook.Store.Archive;

/// <summary>What stands in manifest.json.</summary>
internal sealed record ArchiveManifest
{
    /// <summary>Counts up when an older release could misread what a newer one writes.</summary>
    public required int Format { get; init; }
    /// <summary>UTC.</summary>
    public required DateTimeOffset Created { get; init; }
    /// <summary>Which program wrote it: "Lugbook 0.1.0".</summary>
    public required string Program { get; init; }
    /// <summary>Every other entry.</summary>
    public required ImmutableArray<ManifestEntry> Entries { get; init; }

    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web) { WriteIndented = true, NewLine = "\n", RespectNullableAnnotations = true };

    public byte[] ToBytes() => JsonSerializer.SerializeToUtf8Bytes(this, Options);

    /// <summary>The manifest, or null and why; the format is read even when the rest has changed beyond recognition.</summary>
    public static ArchiveManifest? Read(byte[] bytes, out int? format, out string? problem)
    {
        (format, problem) = (null, null);
        try
        {
            using (var document = JsonDocument.Parse(bytes))
                format = document.RootElement.ValueKind == JsonValueKind.Object && document.RootElement.TryGetProperty("format", out var f) && f.TryGetInt32(out var n) ? n : null;
            var manifest = JsonSerializer.Deserialize<ArchiveManifest>(bytes, Options);
            if (manifest is { Entries.IsDefault: false } && manifest.Entries.All(e => e is not null)) return manifest;
            problem = "it lists no entries";
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            problem = e.Message.ReplaceLineEndings(" ");
        }
        return null;
    }
}

/// <summary>One entry in the manifest.</summary>
internal sealed record ManifestEntry
{
    /// <summary>Path within the archive.</summary>
    public required string Name { get; init; }
    /// <summary>Unpacked size.</summary>
    public required long Bytes { get; init; }
    /// <summary>SHA-256 of the unpacked bytes, lower-case hexadecimal.</summary>
    [JsonPropertyName("sha256")]
    public required string Sha256 { get; init; }
}
