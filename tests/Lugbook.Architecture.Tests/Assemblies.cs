using System.Collections.Immutable;
using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;

namespace Lugbook.Architecture.Tests;

/// <summary>What an assembly uses, read from its metadata.</summary>
internal static class Assemblies
{
    public static Assembly Trade => typeof(Trade.Book).Assembly;
    public static Assembly Circuit => typeof(Circuit.Network).Assembly;
    public static Assembly Restoration => typeof(Restoration.Map.MapResult).Assembly;
    public static Assembly Store => typeof(Store.Shelves.IShelf).Assembly;
    public static Assembly App => Assembly.Load("lugbook");

    /// <summary>Names of the project's own assemblies that this one uses.</summary>
    public static ImmutableSortedSet<string> OwnReferences(Assembly assembly) =>
    [
        .. assembly.GetReferencedAssemblies().Select(r => r.Name!)
            .Where(n => n.StartsWith("Lugbook", StringComparison.OrdinalIgnoreCase)),
    ];

    /// <summary>Full names of all types outside the assembly that its code mentions.</summary>
    public static IEnumerable<string> TypeReferences(Assembly assembly)
    {
        using var file = File.OpenRead(assembly.Location);
        using var image = new PEReader(file);
        var metadata = image.GetMetadataReader();
        return
        [
            .. from handle in metadata.TypeReferences
               let type = metadata.GetTypeReference(handle)
               select $"{metadata.GetString(type.Namespace)}.{metadata.GetString(type.Name)}",
        ];
    }

    /// <summary>The checkout's root: the folder that holds the solution.</summary>
    public static string Root()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "Lugbook.slnx"))) return folder.FullName;
        throw new InvalidOperationException("The tests run outside a checkout: Lugbook.slnx was not found above them.");
    }
}
