using Lugbook.Store.Tests.Sqlite;
using Xunit.MicrosoftTestingPlatform;

namespace Lugbook.Store.Tests;

/// <summary>Runs the tests; or is the child that one of them kills.</summary>
internal static class Program
{
    public static Task<int> Main(string[] args) =>
        Environment.GetEnvironmentVariable(KilledChild.FileVariable) is { } file
            ? KilledChild.RunAsync(file)
            : TestPlatformTestFramework.RunAsync(args, SelfRegisteredExtensions.AddSelfRegisteredExtensions);
}
