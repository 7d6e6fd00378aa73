using Lugbook.Store.Shelves;
using Lugbook.Trade;
using Microsoft.AspNetCore.Components;

namespace Lugbook.Web;

/// <summary>What every page of a book does: open it, follow edits made elsewhere, store edits at once.</summary>
public abstract class BookPage : ComponentBase, IDisposable
{
    private readonly CancellationTokenSource _stop = new();

    /// <summary>The book's short name, from the address.</summary>
    [Parameter] public string Name { get; set; } = "";

    [Inject] internal IShelf Shelf { get; set; } = null!;
    [Inject] internal OpenBooks Books { get; set; } = null!;

    /// <summary>The book with its answers; null while it is being opened or when it is not there.</summary>
    internal BookView? View { get; private set; }

    /// <summary>Why the book cannot be shown, or what an edit ran into; null when all is well.</summary>
    internal string? Trouble { get; private set; }

    /// <summary>Ends when the page is left.</summary>
    protected CancellationToken Stop => _stop.Token;

    /// <inheritdoc/>
    protected override void OnInitialized() => Shelf.Changed += Follow;

    /// <inheritdoc/>
    protected override async Task OnParametersSetAsync()
    {
        if (View is not null && string.Equals(View.Book.Name, Name, StringComparison.OrdinalIgnoreCase)) return;
        await ReloadAsync();
    }

    /// <summary>Does this page show choices? The circuit is then solved beside it, and it is drawn again when that is done.</summary>
    protected virtual bool NeedsCircuit => false;

    /// <summary>Why the circuit could not be worked out; null when it could, or is being worked on.</summary>
    internal string? CircuitTrouble { get; private set; }

    /// <summary>Called when the content is new: after opening and after each edit, from here or elsewhere.</summary>
    protected virtual void OnBook() { }

    /// <summary>Called when the page is left.</summary>
    protected virtual void OnLeave() { }

    /// <summary>Stores an edit; it shows here and on every other device at once.</summary>
    /// <returns>True when stored; false when it could not be, with <see cref="Trouble"/> saying why.</returns>
    internal async Task<bool> EditAsync(string what, Func<Book, Book> edit)
    {
        return await TryAsync(() => Shelf.EditAsync(Name, Bench.Who, what, edit, Stop));
    }

    internal Task<bool> UndoAsync() => TryAsync(() => Shelf.UndoAsync(Name, Bench.Who, Stop));

    internal Task<bool> RedoAsync() => TryAsync(() => Shelf.RedoAsync(Name, Bench.Who, Stop));

    private async Task<bool> TryAsync(Func<Task<StoredBook>> work)
    {
        try
        {
            Trouble = null;
            Show(await work());
            return true;
        }
        catch (ShelfException trouble)
        {
            Trouble = trouble.Message;
            return false;
        }
    }

    private async Task ReloadAsync()
    {
        try
        {
            Show(await Shelf.OpenAsync(Name, Stop));
            Trouble = null;
        }
        catch (ShelfException trouble)
        {
            View = null;
            Trouble = trouble.Message;
        }
    }

    private void Show(StoredBook stored)
    {
        View = Books.Keep(stored);
        OnBook();
        if (NeedsCircuit && !View.IsWorkedOut) _ = WorkOutAsync(View);
    }

    private async Task WorkOutAsync(BookView view)
    {
        try
        {
            await Task.Run(view.WorkOut, Stop);
            CircuitTrouble = null;
        }
        catch (OperationCanceledException)
        {
            return;
        }
        // Whatever it is, the page says so and stands on its first pass instead of waiting for ever.
        catch (Exception trouble) when (trouble is not OutOfMemoryException)
        {
            CircuitTrouble = trouble.GetBaseException().Message;
        }
        if (View != view || Stop.IsCancellationRequested) return;
        await InvokeAsync(() =>
        {
            OnBook();
            StateHasChanged();
        });
    }

    private void Follow(string name)
    {
        if (!string.Equals(name, Name, StringComparison.OrdinalIgnoreCase) || _stop.IsCancellationRequested) return;
        _ = InvokeAsync(async () =>
        {
            if (_stop.IsCancellationRequested) return;
            await ReloadAsync();
            StateHasChanged();
        });
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Shelf.Changed -= Follow;
        OnLeave();
        _stop.Cancel();
        _stop.Dispose();
        GC.SuppressFinalize(this);
    }
}
