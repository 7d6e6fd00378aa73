using System.Reflection;

namespace Lugbook.Architecture.Tests;

/// <summary>Source: CONTRIBUTING.md, "How we write".</summary>
public class HouseRulesTests
{
    [Fact]
    public void Each_stage_has_one_way_in() => Assert.Empty(StageOffences(Assemblies.Restoration.GetExportedTypes()));

    [Fact]
    public void The_rule_of_one_way_in_catches_a_second_door() =>
        Assert.Single(StageOffences([typeof(Lugbook.Restoration.Planted.PlantedStage), typeof(Lugbook.Restoration.Planted.SideDoor)]));

    [Fact]
    public void No_type_is_called_manager_helper_or_utils()
    {
        Assert.Empty(Misnamed(AllTypes()));
        Assert.Single(Misnamed([typeof(Lugbook.Restoration.Planted.PlantedHelper)]));
    }

    [Fact]
    public void No_public_field_can_be_written()
    {
        var offences = from type in AllTypes()
                       where !type.IsEnum && type.FullName?.Contains('<', StringComparison.Ordinal) == false
                       from field in type.GetFields(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly)
                       where !field.IsInitOnly && !field.IsLiteral
                       select $"{type.FullName}.{field.Name}";
        Assert.Empty(offences);
    }

    [Fact]
    public void Source_files_are_rarely_above_300_lines()
    {
        var lengths = SourceFiles("*.cs").Where(f => !f.Contains("Migrations", StringComparison.Ordinal)).Select(f => (File: f, Lines: File.ReadLines(f).Count())).ToList();
        Assert.NotEmpty(lengths);
        var longer = lengths.Where(l => l.Lines > 300).ToList();
        Assert.True(longer.Count <= lengths.Count / 20, $"{longer.Count} of {lengths.Count} files are above 300 lines: {string.Join(", ", longer.Select(l => $"{Path.GetFileName(l.File)} {l.Lines}"))}");
    }

    [Fact]
    public void No_file_names_a_folder_of_a_machine()
    {
        // Assembled, so that this file does not name one itself.
        string[] folders = [$"{'/'}work/", $"{'/'}root/", $"{'/'}home/"];
        var offences = from file in SourceFiles("*.*")
                       where Path.GetExtension(file) is ".cs" or ".razor" or ".json" or ".md" or ".csproj" or ".props" or ".csv" or ".js" or ".css"
                       from folder in folders
                       where File.ReadAllText(file).Contains(folder, StringComparison.Ordinal)
                       select $"{Path.GetFileName(file)} names {folder}";
        Assert.Empty(offences);
    }

    private static IEnumerable<Type> AllTypes() => new[] { Assemblies.Trade, Assemblies.Circuit, Assemblies.Restoration, Assemblies.Store, Assemblies.App }.SelectMany(a => a.GetTypes());

    private static IEnumerable<string> Misnamed(IEnumerable<Type> types) =>
        from type in types
        from word in new[] { "Manager", "Helper", "Utils", "Utility" }
        where type.Name.EndsWith(word, StringComparison.Ordinal)
        select type.FullName;

    private static IEnumerable<string> StageOffences(IEnumerable<Type> types) =>
        from type in types
        where type is { IsAbstract: true, IsSealed: true }   // static classes
        group type.Name by type.Namespace into stage
        let entry = stage.Key.Split('.')[^1] + "Stage"
        where !stage.All(name => name == entry || stage.Key == "Lugbook.Restoration")
        select $"{stage.Key} shows {string.Join(", ", stage)}; its one way in is {entry}.";

    private static IEnumerable<string> SourceFiles(string pattern) =>
        new[] { "src", "tests", "data", "docs" }.Select(f => Path.Combine(Assemblies.Root(), f)).Where(Directory.Exists)
            .SelectMany(f => Directory.EnumerateFiles(f, pattern, SearchOption.AllDirectories));
}
