using System.Security.Cryptography;
using Lugbook.Trade.Photographs;

namespace Lugbook.Store.Photographs;

/// <summary>A photograph's content that has been looked at and accepted. Made by <see cref="PhotoIntake"/> only.</summary>
/// <param name="Sum">SHA-256 of the bytes, lower-case hexadecimal: what it is known by.</param>
/// <param name="MediaType">"image/jpeg", "image/png" or "image/webp".</param>
/// <param name="Width">Pixels across, upright.</param>
/// <param name="Height">Pixels down, upright.</param>
/// <param name="Bytes">The file, byte for byte.</param>
public sealed record PhotoContent(string Sum, string MediaType, int Width, int Height, ReadOnlyMemory<byte> Bytes)
{
    /// <summary>The sum of some bytes as content is known by it.</summary>
    public static string SumOf(ReadOnlySpan<byte> bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    /// <summary>Its file name in an archive or a folder: its sum and the ending of its kind; no name that anyone gave.</summary>
    public static string FileName(string sum, string mediaType) => $"photographs/{sum}.{mediaType switch { "image/png" => "png", "image/webp" => "webp", _ => "jpg" }}";

    /// <summary>A row for this content.</summary>
    public Photograph Row(string name, PhotoMoment moment, string? place, string? caption) =>
        new() { Name = name, Content = Sum, MediaType = MediaType, Width = Width, Height = Height, Moment = moment, Place = place, Caption = caption };
}
