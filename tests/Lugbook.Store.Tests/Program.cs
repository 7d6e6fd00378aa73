using Lugbook.Store.Tests.Shelves;
using Lugbook.Store.Tests.Sqlite;
using Xunit.MicrosoftTestingPlatform;

namespace Lugbook.Store.Tests;

/// <summary>Runs the tests; or is the child that one of them kills; or writes a release's fixture.</summary>
internal static class Program
{
    public static Task<int> Main(string[] args) =>
        Environment.GetEnvironmentVariable(KilledChild.FileVariable) is { } child ? KilledChild.RunAsync(child)
        : Environment.GetEnvironmentVariable(ReleaseFixture.FileVariable) is { } fixture ? ReleaseFixture.WriteAsync(fixture)
        : TestPlatformTestFramework.RunAsync(args, SelfRegisteredExtensions.AddSelfRegisteredExtensions);
}
