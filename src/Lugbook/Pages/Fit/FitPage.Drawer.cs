using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Store.Shelves;
using Lugbook.Web;

namespace Lugbook.Pages.Fit;

/// <summary>Ticking, and what it takes from the drawer.</summary>
public partial class FitPage
{
    private readonly Dictionary<string, DrawerLine> _offers = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, string> _notes = new(StringComparer.OrdinalIgnoreCase);
    private bool _following;
    private string? _drawerTrouble;

    private void FollowDrawer()
    {
        if (!_following)
        {
            Desk.Changed += FollowPapers;
            _following = true;
        }
        _ = LoadAsync();
    }

    private void LeaveDrawer()
    {
        if (_following) Desk.Changed -= FollowPapers;
    }

    private void FollowPapers() => _ = LoadAsync();

    private async Task LoadAsync()
    {
        try
        {
            var supply = await Desk.ReadAsync(Stop);
            await InvokeAsync(() =>
            {
                if (View is null) return;
                _offers.Clear();
                _notes.Clear();
                foreach (var step in View.Fit.Steps)
                {
                    if (FitDrawer.Note(View, supply, step) is { } note) _notes[step.Position] = note;
                    if (FitDrawer.Offer(View, supply, step) is { } line) _offers[step.Position] = line;
                }
                StateHasChanged();
            });
        }
        catch (Exception trouble) when (trouble is ShelfException or OperationCanceledException or ObjectDisposedException)
        {
            if (trouble is ShelfException) _drawerTrouble = trouble.Message;
        }
    }

    private async Task TickAsync(FitStep step, DrawerLine? from)
    {
        var place = FitDrawer.Place(View!, step.Position);
        _drawerTrouble = null;
        try
        {
            // A piece that was fitted here once and taken back is of no account to a new exchange.
            if (!step.Done) await Desk.ForgetAsync(place, Stop);
            if (!await EditAsync(step.Done ? $"{step.Position} not exchanged after all" : $"{step.Position} exchanged", book => BookEdits.MarkDone(book, step.Position, !step.Done, Clock.GetUtcNow(), step.Number))) return;
            if (from is not null) await Desk.FitAsync(place, from, Stop);
            else if (step.Done) await Desk.KeepStepAsync(View!.Book, Stop);
        }
        catch (ShelfException trouble)
        {
            _drawerTrouble = $"The drawer was not counted: {trouble.Message}";
        }
        await LoadAsync();
    }
}
