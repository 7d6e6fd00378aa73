using Lugbook.Drawing;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Chassis.Templates;
using Lugbook.Web;
using Microsoft.JSInterop;

namespace Lugbook.Pages.Chassis;

/// <summary>The mode in which mounts and bodies are laid: every drop is one stored edit.</summary>
public partial class ChassisPage
{
    private static readonly string[] Layers = [LayerNames.Wires, LayerNames.Parts, LayerNames.Labels, "values", "colour bands"];

    private readonly SortedSet<string> _without = new(StringComparer.Ordinal);
    private IJSObjectReference? _placer;
    private bool _placing;
    private double _grid = 1;
    private (string Kind, string Name)? _thing;
    private (MountTemplate Template, string Name)? _fresh;
    private string? _said;
    private IReadOnlyList<string> _refused = [];
    private (BookView?, bool, Turn, double, (MountTemplate, string)?, (string, string)?, bool)? _laidFor;

    private void Show(string layer, bool shown)
    {
        if (shown) _without.Remove(layer);
        else _without.Add(layer);
    }

    private void TogglePlacing()
    {
        _placing = !_placing;
        (_fresh, _refused) = (null, []);
        _said = "Drag a mount or a body, or choose one and use the arrow keys.";
        if (_placing && _place is { } place) _thing = Thing(place);
    }

    /// <summary>What can be laid when this was chosen: a lug's mount, a part's body, or the mount that the part is in.</summary>
    private (string Kind, string Name)? Thing((string Kind, string Name) place)
    {
        var layout = View!.Layout;
        if (place.Kind == "lug") return layout.Places.Find(place.Name) is { } lug ? ("mount", lug.Mount) : null;
        if (place.Kind == "part" && layout.Bodies.FirstOrDefault(b => b.Part.Name == place.Name) is { } body)
            return Placing.IsFree(body) ? ("part", body.Part.Name) : body.Leads is [{ Lug: { } on }, ..] ? ("mount", on.Mount) : null;
        return layout.Mounts.Any(m => string.Equals(m.Mount.Name, place.Name, StringComparison.OrdinalIgnoreCase)) ? ("mount", place.Name) : null;
    }

    private async Task LayAsync()
    {
        if (_placer is null && !_placing) return;
        _placer ??= await Js.InvokeAsync<IJSObjectReference>("import", "./placing.js");
        var now = (View, _mirror, _turned, _grid, _fresh, _thing, _placing);
        if (_laidFor is { } laid && laid.Equals(now)) return;
        _laidFor = now;
        await _placer.InvokeVoidAsync("lay", _host, _self, _placing ? LayScene.Of(View!.Layout, _mirror, _turned, _grid, _fresh?.Template, 0, _thing) : null);
    }

    /// <summary>A thing was tapped in this mode.</summary>
    [JSInvokable]
    public void ChooseThing(string kind, string name)
    {
        (_thing, _refused, _said) = ((kind, name), [], $"{name} chosen.");
        StateHasChanged();
    }

    /// <summary>A thing was let go, or moved by keys: chassis mm of its middle, degrees clockwise.</summary>
    [JSInvokable]
    public async Task Dropped(string kind, string name, double x, double y, double turn)
    {
        _thing = (kind, name);
        await MoveAsync((x, y, turn));
        StateHasChanged();
    }

    /// <summary>The new mount was put down here.</summary>
    [JSInvokable]
    public async Task PutNew(double x, double y)
    {
        if (_fresh is { } fresh) await PutAsync((fresh.Template, fresh.Name, x, y, 0));
        StateHasChanged();
    }

    private Task ChooseThingAsync((string Kind, string Name)? thing)
    {
        (_thing, _refused) = (thing, []);
        return Task.CompletedTask;
    }

    private async Task MoveAsync((double X, double Y, double Turn) to)
    {
        if (_thing is not { } thing || !double.IsFinite(to.X + to.Y + to.Turn)) return;
        var stand = new Stand(new Pt(to.X, to.Y), (to.Turn % 360 + 360) % 360);
        _refused = [];
        var what = thing.Kind == "mount" ? $"{thing.Name} put at {stand}" : $"{thing.Name}'s body laid at {stand}";
        if (await EditAsync(what, book => thing.Kind == "mount" ? Placing.Mount(book, LayoutOf(book), thing.Name, stand) : Placing.Body(book, thing.Name, stand))) _said = what + ".";
    }

    /// <summary>Takes the chosen mount out, or says what holds it.</summary>
    [JSInvokable]
    public async Task TakeOut()
    {
        if (_thing is not { Kind: "mount" } thing) return;
        _refused = Placing.Holds(View!.Book, thing.Name);
        if (_refused.Count == 0 && await EditAsync($"{thing.Name} taken out", book => Placing.Remove(book, thing.Name))) (_thing, _said) = (null, $"{thing.Name} taken out; Undo puts it back.");
        StateHasChanged();
    }

    private async Task BackAsync()
    {
        if (_thing is { Kind: "part" } thing && await EditAsync($"{thing.Name}'s body laid by the program again", book => Placing.BodyBack(book, thing.Name)))
            _said = $"{thing.Name} lies where the program puts it.";
    }

    private async Task KeepAsync()
    {
        if (await EditAsync("Proposed places kept", book => Placing.KeepAll(book, LayoutOf(book)))) _said = "All places are kept; move what stands elsewhere.";
    }

    private void Ask((MountTemplate Template, string Name)? fresh) => (_fresh, _said) = (fresh, fresh is { } f ? $"Tap where the middle of {f.Name} goes." : "");

    private async Task PutAsync((MountTemplate Template, string Name, double X, double Y, double Turn) fresh)
    {
        _fresh = null;
        var stand = new Stand(new Pt(fresh.X, fresh.Y), fresh.Turn);
        if (Placing.Refuses(View!.Book, fresh.Name) is { } why) { _said = why; return; }
        var what = $"{fresh.Name}, {fresh.Template.KindAsWritten}, put at {stand}";
        if (await EditAsync(what, book => Placing.Refuses(book, fresh.Name) is null ? Placing.Add(book, fresh.Template, fresh.Name, stand) : book)) (_thing, _said) = (("mount", fresh.Name), what + ".");
    }

    private ChassisLayout LayoutOf(Trade.Book book) => ReferenceEquals(book, View?.Book) ? View.Layout : LayoutStage.Run(book);
}
