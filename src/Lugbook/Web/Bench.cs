namespace Lugbook.Web;

/// <summary>Who works at this bench. Until devices are paired there is one: this machine.</summary>
internal static class Bench
{
    public const string Who = "bench";
}
