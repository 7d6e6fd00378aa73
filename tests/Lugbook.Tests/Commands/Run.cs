using Lugbook.Commands;

namespace Lugbook.Tests.Commands;

/// <summary>Runs a command as a user does, with the checkout's data folder as "data".</summary>
internal static class Run
{
    public static async Task<(int Code, string Output, string Error)> Lugbook(params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var inPlace = args.Select(a => a.StartsWith("data/", StringComparison.Ordinal) ? Path.Combine(AppContext.BaseDirectory, a) : a).ToArray();
        var code = await CommandLine.RunAsync(inPlace, output, error, TestContext.Current.CancellationToken);
        return (code, output.ToString(), error.ToString());
    }

    /// <summary>The checkout's root.</summary>
    public static string Root()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "Lugbook.slnx"))) return folder.FullName;
        throw new InvalidOperationException("The tests run outside a checkout.");
    }
}
