using System.Reflection;

namespace Lugbook.Architecture.Tests;

/// <summary>Arrows run downwards only: Lugbook → Store, Restoration → Trade. Source: docs/decisions/0001-layers.md.</summary>
public class LayersTests
{
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["Lugbook.Trade"] = [],
        ["Lugbook.Circuit"] = [],
        ["Lugbook.Restoration"] = ["Lugbook.Circuit", "Lugbook.Trade"],
        ["Lugbook.Store"] = ["Lugbook.Trade"],
        ["lugbook"] = ["Lugbook.Circuit", "Lugbook.Restoration", "Lugbook.Store", "Lugbook.Trade"],
    };

    public static TheoryData<string> Layers => [Assemblies.Trade.GetName().Name!, Assemblies.Circuit.GetName().Name!, Assemblies.Restoration.GetName().Name!, Assemblies.Store.GetName().Name!, "lugbook"];

    [Theory]
    [MemberData(nameof(Layers))]
    public void A_layer_uses_only_layers_beneath_it(string layer) =>
        Assert.Empty(Offences(layer, Assemblies.OwnReferences(Assembly.Load(layer))));

    [Fact]
    public void The_rule_catches_an_arrow_that_runs_upwards() =>
        Assert.Equal("Lugbook.Trade must not use Lugbook.Store.", Assert.Single(Offences("Lugbook.Trade", ["Lugbook.Store"])));

    [Fact]
    public void The_program_does_use_the_layers_so_the_reader_of_references_sees_them() =>
        Assert.Contains("Lugbook.Trade", Assemblies.OwnReferences(Assemblies.App));

    [Fact]
    public void The_trade_and_the_stages_do_no_input_or_output()
    {
        Assert.Empty(InputOutput(Assemblies.Trade));
        Assert.Empty(InputOutput(Assemblies.Circuit));
        Assert.Empty(InputOutput(Assemblies.Restoration));
        Assert.NotEmpty(InputOutput(Assemblies.Store));   // the rule sees what it looks for
    }

    [Fact]
    public void Only_one_folder_knows_the_optimiser()
    {
        var knows = Directory.EnumerateFiles(Path.Combine(Assemblies.Root(), "src"), "*.cs", SearchOption.AllDirectories)
            .Where(f => File.ReadAllText(f).Contains("Google.OrTools", StringComparison.Ordinal)).Select(f => Path.GetFileName(Path.GetDirectoryName(f))).Distinct();
        Assert.Equal(["Solving"], knows);
        foreach (var other in new[] { Assemblies.Trade, Assemblies.Circuit, Assemblies.Store, Assemblies.App })
            Assert.DoesNotContain(other.GetReferencedAssemblies(), r => r.Name!.StartsWith("Google.", StringComparison.Ordinal));
        Assert.Contains(Assemblies.Restoration.GetReferencedAssemblies(), r => r.Name == "Google.OrTools");   // the rule sees what it looks for
    }

    private static IEnumerable<string> Offences(string layer, IEnumerable<string> used) =>
        used.Where(u => !Allowed[layer].Contains(u)).Select(u => $"{layer} must not use {u}.");

    private static string[] InputOutput(Assembly assembly)
    {
        string[] forbidden = ["System.IO.File", "System.IO.Directory", "System.IO.FileStream", "System.IO.FileInfo", "System.IO.DirectoryInfo", "System.Console", "System.Diagnostics.Process"];
        return
        [
            .. Assemblies.TypeReferences(assembly).Where(t => forbidden.Contains(t)
                || t.StartsWith("System.Net.", StringComparison.Ordinal)
                || t.StartsWith("Microsoft.EntityFrameworkCore.", StringComparison.Ordinal)),
        ];
    }
}
