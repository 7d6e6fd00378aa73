using System.Globalization;
using Lugbook.Restoration.Order;

namespace Lugbook.Output;

/// <summary>An order in words, for pages and commands alike.</summary>
internal static class OrderWords
{
    /// <summary>"0.20 to 0.60", or nothing.</summary>
    public static string Band(decimal? low, decimal? high) => low is null || high is null ? "" : string.Create(CultureInfo.InvariantCulture, $"{low:0.00} to {high:0.00}");

    /// <summary>"1.2 m".</summary>
    public static string Amount(Consumable item) => string.Create(CultureInfo.InvariantCulture, $"{item.Amount:0.##} {item.Unit}");
}
