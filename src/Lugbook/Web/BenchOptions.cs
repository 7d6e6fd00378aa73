namespace Lugbook.Web;

/// <summary>How a bench is started.</summary>
/// <param name="Port">TCP port on this machine; 0 lets the system choose (tests).</param>
/// <param name="ShelfFile">The database file; its folder is made when missing.</param>
/// <param name="DataFolder">Handbook lines, catalogue and demo books.</param>
internal sealed record BenchOptions(int Port, string ShelfFile, string DataFolder)
{
    /// <summary>The port that the README names.</summary>
    public const int UsualPort = 5117;

    /// <summary>Where a user's shelf is kept unless told otherwise: LUGBOOK_SHELF, else the user's data folder.</summary>
    public static string UsualShelfFile() =>
        Environment.GetEnvironmentVariable("LUGBOOK_SHELF") is { Length: > 0 } file
            ? file
            : Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify),
                "lugbook", "shelf.db");

    /// <summary>The data folder beside the program.</summary>
    public static string UsualDataFolder() => Path.Combine(AppContext.BaseDirectory, "data");
}
