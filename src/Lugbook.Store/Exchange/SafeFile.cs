using System.Collections.Immutable;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Exchange;

/// <summary>Files are written beside their place first and moved there when complete: a full disk leaves the old ones whole.</summary>
internal static class SafeFile
{
    public static async Task<ImmutableArray<Complaint>> TryAsync(string path, Func<Task> write)
    {
        try
        {
            await write();
            return [];
        }
        catch (Exception e) when (BookFiles.IsDisk(e))
        {
            return [BookFiles.Disk(path, e)];
        }
    }

    public static Task ReplaceAsync(string path, byte[] bytes, CancellationToken stop)
    {
        var full = Path.GetFullPath(path);
        return ReplaceAllAsync(Path.GetDirectoryName(full)!, [KeyValuePair.Create(Path.GetFileName(full), bytes)], stop);
    }

    public static async Task ReplaceAllAsync(string folder, IEnumerable<KeyValuePair<string, byte[]>> files, CancellationToken stop)
    {
        var waiting = new List<(string From, string To)>();
        try
        {
            foreach (var (name, bytes) in files)
            {
                var to = Path.Combine(folder, name);
                var from = Path.Combine(folder, $".{name}.{Guid.NewGuid():N}.tmp");
                waiting.Add((from, to));
                await File.WriteAllBytesAsync(from, bytes, stop);
            }
            foreach (var (from, to) in waiting) File.Move(from, to, overwrite: true);
        }
        finally
        {
            foreach (var (from, _) in waiting) File.Delete(from);
        }
    }
}
