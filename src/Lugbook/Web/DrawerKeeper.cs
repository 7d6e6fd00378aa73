using Lugbook.Store.Shelves;

namespace Lugbook.Web;

/// <summary>Keeps the drawer's count in step with the books: also when an exchange is taken back on another page, by undo, or on another device.</summary>
internal sealed class DrawerKeeper(IShelf shelf, SupplyDesk desk) : IHostedService, IDisposable
{
    private readonly CancellationTokenSource _ending = new();

    public Task StartAsync(CancellationToken cancellationToken)
    {
        shelf.Changed += Follow;
        return Task.CompletedTask;
    }

    public Task StopAsync(CancellationToken cancellationToken)
    {
        shelf.Changed -= Follow;
        _ending.Cancel();
        return Task.CompletedTask;
    }

    public void Dispose() => _ending.Dispose();

    private void Follow(string name) => _ = Task.Run(() => KeepAsync(name), CancellationToken.None);

    private async Task KeepAsync(string name)
    {
        try
        {
            var supply = await desk.ReadAsync(_ending.Token);
            if (!supply.Drawer.Lines.Any(l => l.Fitted.Any(f => f.TrimStart('-').StartsWith(name + "/", StringComparison.OrdinalIgnoreCase)))) return;
            await desk.KeepStepAsync((await shelf.OpenAsync(name, _ending.Token)).Book, _ending.Token);
        }
        // A book that is gone keeps its parts; what the store refuses now is mended at the next edit.
        catch (Exception trouble) when (trouble is ShelfException or OperationCanceledException or ObjectDisposedException) { }
    }
}
