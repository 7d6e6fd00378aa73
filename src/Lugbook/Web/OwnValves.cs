using Lugbook.Circuit.Valves;

namespace Lugbook.Web;

/// <summary>Valve data of the user's own: files of handbook lines (*-points.csv) and of pins and limits (*-pinouts.csv).</summary>
/// <param name="Points">Files of lines.</param>
/// <param name="Pinouts">Files of pins.</param>
internal sealed record OwnValves(IReadOnlyList<string> Points, IReadOnlyList<string> Pinouts)
{
    /// <summary>None.</summary>
    public static OwnValves None { get; } = new([], []);

    /// <summary>LUGBOOK_VALVES (a folder, or one file of lines), else the folder "valves" beside the shelf; and one more file of lines.</summary>
    /// <exception cref="InvalidDataException">What is named is not there.</exception>
    public static OwnValves Find(string? file)
    {
        var own = Environment.GetEnvironmentVariable("LUGBOOK_VALVES") is { Length: > 0 } named ? At(named, "LUGBOOK_VALVES") : InFolder(UsualFolder());
        if (file is null) return own;
        var more = At(file, "--valves");
        return new([.. own.Points, .. more.Points], [.. own.Pinouts, .. more.Pinouts]);
    }

    /// <summary>The folder that is looked into without being named.</summary>
    public static string UsualFolder() => Path.Combine(Path.GetDirectoryName(Path.GetFullPath(BenchOptions.UsualShelfFile()))!, "valves");

    private static OwnValves At(string path, string where) =>
        File.Exists(path) ? new([path], [])
        : Directory.Exists(path) ? InFolder(path)
        : throw new InvalidDataException($"{where} names '{path}', and there is no such file or folder. Name a CSV file of handbook lines, or a folder of *-points.csv and *-pinouts.csv.");

    private static OwnValves InFolder(string folder) => !Directory.Exists(folder) ? None : new(
        [.. Directory.EnumerateFiles(folder, "*-points.csv").Order(StringComparer.Ordinal)], [.. Directory.EnumerateFiles(folder, "*-pinouts.csv").Order(StringComparer.Ordinal)]);

    /// <summary>The texts of the files of lines.</summary>
    /// <exception cref="InvalidDataException">A file cannot be read, or a line in it; every fault is in the message.</exception>
    public async Task<IReadOnlyList<string>> ReadPointsAsync(CancellationToken stop)
    {
        var (texts, wrong) = (new List<string>(), new List<string>());
        foreach (var file in Points)
        {
            try { texts.Add(await File.ReadAllTextAsync(file, stop)); }
            catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException) { throw new InvalidDataException($"'{file}' could not be read: {trouble.Message}", trouble); }
            wrong.AddRange(HandbookLines.Parse(texts[^1]).Faults.Select(f => $"{file}, {f}"));
        }
        return wrong.Count == 0 ? texts : throw new InvalidDataException(string.Join("\n\n", wrong));
    }
}
