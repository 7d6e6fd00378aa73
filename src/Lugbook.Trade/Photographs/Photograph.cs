using System.Text.Json.Serialization;

namespace Lugbook.Trade.Photographs;

/// <summary>At which point of the work a photograph was taken.</summary>
public enum PhotoMoment
{
    /// <summary>As the set came, before anything was touched.</summary>
    AsFound,
    /// <summary>Before this place was worked on.</summary>
    Before,
    /// <summary>After the work.</summary>
    After,
}

/// <summary>What a photograph is of. Its content is kept by the store under <see cref="Content"/>; the order of the rows is the order in which photographs are shown.</summary>
public sealed record Photograph : Row
{
    /// <summary>SHA-256 of the original's bytes, 64 lower-case hexadecimal digits.</summary>
    public required string Content { get; init; }
    /// <summary>"image/jpeg", "image/png" or "image/webp", told by the content.</summary>
    public required string MediaType { get; init; }
    /// <summary>Pixels across, upright: after the camera's orientation was honoured.</summary>
    public required int Width { get; init; }
    /// <summary>Pixels down, upright.</summary>
    public required int Height { get; init; }
    /// <summary>At which point of the work it was taken.</summary>
    public PhotoMoment Moment { get; init; }
    /// <summary>Name of the position or mount that it shows; null: the whole set.</summary>
    public string? Place { get; init; }
    /// <summary>What is to be seen.</summary>
    public string? Caption { get; init; }

    /// <summary>The size as people say it: "4000 × 3000".</summary>
    [JsonIgnore]
    public string Size => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Width} × {Height}");
}

/// <summary>A spot in a photograph that is a lug. <see cref="Row.Name"/> is the lug's name.</summary>
/// <remarks>Pins of lugs whose place on the chassis is known square the photograph up, unless one is told not to.</remarks>
public sealed record PhotoPin : Row
{
    /// <summary>Name of the photograph.</summary>
    public required string Photograph { get; init; }
    /// <summary>Pixels from the left edge of the upright original.</summary>
    public required double X { get; init; }
    /// <summary>Pixels from its upper edge.</summary>
    public required double Y { get; init; }
    /// <summary>A pin that only points: it is not used to square the photograph up.</summary>
    public bool OnlyPoints { get; init; }
}
