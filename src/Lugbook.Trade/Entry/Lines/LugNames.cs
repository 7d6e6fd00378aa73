using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Trade.Chassis;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Finds which lug a word means.</summary>
internal sealed partial class LugNames(Book book)
{
    [GeneratedRegex(@"^([A-Za-z]{1,3}\d{0,3}[A-Za-z]?)-(0?[1-9]\d?|cap)$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Hyphened();

    [GeneratedRegex(@"^([A-Za-z]{1,3}\d{0,3}[A-Za-z]?)(?:[.:#/]|p|pin|-pin-?|lug|tag|\.-)([1-9]\d?|cap)$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Otherwise();

    [GeneratedRegex(@"^([A-Za-z]+)([1-9]\d?)$", RegexOptions.CultureInvariant)]
    private static partial Regex Glued();

    /// <summary>The mount of this name, or null.</summary>
    public Mount? Mount(string name) => book.Mounts.Named(name);

    /// <summary>The lug of exactly this name, or null.</summary>
    public Lug? Exact(string name) => book.Lugs.Named(name);

    /// <summary>The lug that a word means by itself, whether it is in the book or not; null when the word is no lug.</summary>
    public (string Lug, string Mount, int? No)? Of(string text)
    {
        if (Exact(text) is { } exact) return (exact.Name, exact.Mount, exact.No);
        if (Hyphened().Match(text) is { Success: true } plain) return On(plain.Groups[1].Value, plain.Groups[2].Value);
        if (Otherwise().Match(text) is { Success: true } other && Mount(other.Groups[1].Value) is not null) return On(other.Groups[1].Value, other.Groups[2].Value);
        // "A2" is lug 2 of strip A, when there is such a lug and nothing of that name.
        if (Glued().Match(text) is { Success: true } glued && Mount(glued.Groups[1].Value) is not null && Mount(text) is null && book.Parts.Named(text) is null
            && Numbered(glued.Groups[1].Value, int.Parse(glued.Groups[2].Value, CultureInfo.InvariantCulture)) is { } lug) return (lug.Name, lug.Mount, lug.No);
        return null;
    }

    /// <summary>The lug of this number on this mount, in the book or to be added.</summary>
    public (string Lug, string Mount, int? No) On(string mount, string no)
    {
        var name = Mount(mount)?.Name ?? mount.ToUpperInvariant();
        if (!int.TryParse(no, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
            return Exact($"{name}-{no}") is { } cap ? (cap.Name, cap.Mount, cap.No) : ($"{name}-{no.ToLowerInvariant()}", name, null);
        if (Numbered(name, number) is { } lug) return (lug.Name, lug.Mount, lug.No);
        return ($"{name}-{number.ToString(CultureInfo.InvariantCulture)}", name, number);
    }

    /// <summary>The lugs of a mount, in order.</summary>
    public IEnumerable<Lug> Of(Mount mount) => book.Lugs.Where(l => string.Equals(l.Mount, mount.Name, StringComparison.OrdinalIgnoreCase));

    /// <summary>The lug of this number on this mount, or null when the book has none.</summary>
    public Lug? Numbered(string mount, int number) =>
        Exact($"{mount}-{number.ToString(CultureInfo.InvariantCulture)}")
        ?? book.Lugs.FirstOrDefault(l => l.No == number && string.Equals(l.Mount, mount, StringComparison.OrdinalIgnoreCase) && !l.Name.EndsWith("-cap", StringComparison.OrdinalIgnoreCase));

    /// <summary>Can this number be a lug of this mount? With a mount of unknown lugs: up to 12.</summary>
    public bool CanBeOn(string? mount, BareNumber bare)
    {
        if (!bare.IsCount) return false;
        if (mount is null || Mount(mount) is not { } known || !Of(known).Any()) return bare.Number <= 12;
        return Numbered(known.Name, (int)bare.Number) is not null;
    }

    /// <summary>The chassis metal's lug, when the book has exactly one chassis.</summary>
    public Lug? Chassis()
    {
        var chassis = book.Mounts.Where(m => m.Kind == MountKind.Chassis).ToArray();
        return chassis.Length == 1 ? Of(chassis[0]).FirstOrDefault() : null;
    }
}
