namespace Lugbook.Trade.Photographs;

/// <summary>The moments of photographs in words, both ways.</summary>
public static class PhotoWords
{
    /// <summary>"as found", "before", "after".</summary>
    public static string Of(PhotoMoment moment) => moment switch { PhotoMoment.Before => "before", PhotoMoment.After => "after", _ => "as found" };

    /// <summary>The moment of a word, with or without a hyphen; null when it is none.</summary>
    public static PhotoMoment? Moment(string? words) => words?.Trim().Replace('-', ' ').Replace('_', ' ').ToLowerInvariant() switch
    {
        "as found" or "found" or "" => PhotoMoment.AsFound,
        "before" => PhotoMoment.Before,
        "after" or "done" => PhotoMoment.After,
        _ => null,
    };
}
