using System.CommandLine;
using System.Net.Sockets;
using Lugbook.Store.Reference;
using Lugbook.Store.Shelves;
using Lugbook.Web;

namespace Lugbook.Commands;

/// <summary>The bare command: opens the bench in the browser.</summary>
internal static class BenchCommand
{
    public static void AddTo(RootCommand root)
    {
        var port = new Option<int>("--port") { Description = "TCP port on this machine.", DefaultValueFactory = _ => BenchOptions.UsualPort };
        port.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 1 or > 65535) result.AddError("--port is a number from 1 to 65535.");
        });
        var shelf = new Option<string?>("--shelf") { Description = "The file in which books are kept; made when missing. Default: shelf.db in your data folder, or LUGBOOK_SHELF." };
        root.Options.Add(port);
        root.Options.Add(shelf);
        root.SetAction((parsed, stop) => RunAsync(
            new BenchOptions(parsed.GetValue(port), parsed.GetValue(shelf) ?? BenchOptions.UsualShelfFile(), BenchOptions.UsualDataFolder()),
            parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error, stop));
    }

    private static async Task<int> RunAsync(BenchOptions options, TextWriter output, TextWriter error, CancellationToken stop)
    {
        try
        {
            await using var app = await BenchApp.BuildAsync(options, TimeProvider.System, stop);
            var shelf = app.Services.GetRequiredService<IShelf>();
            await app.StartAsync(stop);
            await output.WriteLineAsync($"Lugbook's bench is open at http://localhost:{options.Port}");
            foreach (var card in await shelf.ListAsync(stop))
                await output.WriteLineAsync($"  {card.Title}: {card.Parts} parts");
            await output.WriteLineAsync($"Books are kept in {options.ShelfFile}");
            await output.WriteLineAsync("Stop with Ctrl+C. Predictions are aids; local codes and licensed practice come first.");
            await app.WaitForShutdownAsync(stop);
            return ExitCode.Done;
        }
        catch (Exception trouble) when (trouble is InvalidDataException or HandbookException)
        {
            await error.WriteLineAsync($"{trouble.Message}\n\nlugbook: the valve or catalogue data could not be used; the bench was not opened.");
            return ExitCode.WrongInput;
        }
        catch (ShelfException trouble)
        {
            await error.WriteLineAsync($"lugbook: {trouble.Message}");
            return ExitCode.WrongInput;
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException && trouble is not FileNotFoundException && trouble.InnerException is null)
        {
            await error.WriteLineAsync($"lugbook: {trouble.Message} Name another file with --shelf.");
            return ExitCode.WrongInput;
        }
        catch (IOException trouble) when (trouble.InnerException is Microsoft.AspNetCore.Connections.AddressInUseException or SocketException)
        {
            await error.WriteLineAsync($"lugbook: port {options.Port} is in use; perhaps a bench is open there already. Look at http://localhost:{options.Port}, or choose another with --port.");
            return ExitCode.WrongInput;
        }
    }
}
