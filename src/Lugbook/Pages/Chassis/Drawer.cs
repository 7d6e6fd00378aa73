using System.Globalization;
using Lugbook.Trade;
using Lugbook.Trade.Chassis.Templates;

namespace Lugbook.Pages.Chassis;

/// <summary>The drawer of mounts to choose from.</summary>
/// <param name="Word">What it is called there.</param>
/// <param name="Letters">What its names usually begin with; empty for a strip, which bears a letter alone.</param>
/// <param name="Counted">How many lugs, sections or leads may be asked for: least, most, usual; null for a fixed number.</param>
/// <param name="CountIs">What is counted.</param>
/// <param name="Make">The template for a count and a foot (0 for none).</param>
internal sealed record DrawerItem(string Word, string Letters, (int Least, int Most, int Usual)? Counted, string CountIs, Func<int, int, MountTemplate> Make);

internal static class Drawer
{
    public static DrawerItem[] Items { get; } =
    [
        new("tag strip", "", (1, 10, 5), "lugs", (n, foot) => foot >= 1 && foot <= n ? MountTemplates.TagStrip(n, foot) : MountTemplates.TagStrip(n)),
        .. MountTemplates.Sockets.Select(s => new DrawerItem(s.KindAsWritten, "V", null, "", (_, _) => s)),
        new("can", "K", (1, 4, 3), "sections", (n, _) => MountTemplates.Can(n)),
        new("IF can", "T", null, "", (_, _) => MountTemplates.IfCan),
        new("control", "R", null, "", (_, _) => MountTemplates.Control),
        new("switch", "S", (2, 12, 2), "lugs", (n, _) => MountTemplates.Switch(n)),
        new("transformer", "T", (2, 24, 8), "leads", (n, _) => MountTemplates.Transformer(n)),
        new("choke", "L", (2, 4, 2), "leads", (n, _) => MountTemplates.Transformer(n, "choke")),
        new("fuse holder", "F", null, "", (_, _) => MountTemplates.FuseHolder),
        new("lamp holder", "PL", null, "", (_, _) => MountTemplates.LampHolder),
        new("jack", "J", (2, 3, 2), "lugs", (n, _) => MountTemplates.Jack(n)),
        new("line cord", "P", null, "", (_, _) => MountTemplates.LineCord),
        new("speaker", "SP", null, "", (_, _) => MountTemplates.Speaker),
        new("earth lug", "E", null, "", (_, _) => MountTemplates.EarthLug),
        new("chassis", "CH", null, "", (_, _) => MountTemplates.ChassisMetal),
    ];

    /// <summary>The next free name for it: a strip's letter, or letters and a number.</summary>
    public static string NextName(Book book, DrawerItem item)
    {
        bool Free(string name) => book.Mounts.Named(name) is null && book.Lugs.Named(name) is null;
        if (item.Letters.Length == 0)
            for (var c = 'A'; c <= 'Z'; c++)
                if (Free(c.ToString())) return c.ToString();
        if (item.Letters == "CH" && Free("CH")) return "CH";
        for (var n = 1; ; n++)
            if ((item.Letters.Length == 0 ? "A" : item.Letters) + n.ToString(CultureInfo.InvariantCulture) is var name && Free(name)) return name;
    }
}
