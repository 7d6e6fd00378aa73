using Lugbook.Store.Shelves;

namespace Lugbook.Web;

/// <summary>Looks every two seconds whether a command changed a book on the shelf, so that open pages follow it.</summary>
internal sealed class ShelfWatch(IShelf shelf) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(2);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var clock = new PeriodicTimer(Pause);
        try
        {
            do
            {
                // What the database cannot do now is looked at again; who edits is told why it failed.
                try { await shelf.LookAsync(stoppingToken); }
                catch (ShelfException) { }
            }
            while (await clock.WaitForNextTickAsync(stoppingToken));
        }
        catch (Exception ended) when (ended is OperationCanceledException or ObjectDisposedException) { }
    }
}
