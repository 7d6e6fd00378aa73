using System.CommandLine;
using System.Globalization;
using Lugbook.Output;
using Lugbook.Store.Photographs;
using Lugbook.Trade.Photographs;
using Lugbook.Web;

namespace Lugbook.Commands;

/// <summary>"photo": photographs of a book: add, list, square up.</summary>
internal static class PhotoCommand
{
    public static Command Create()
    {
        var book = new Argument<string>("BOOK") { Description = "A folder of CSV files or a .lugbook file; it is changed by 'add' and 'square'." };
        var command = new BenchWord("photo", "Photographs of a book: add one, list them, square one up by lugs that it shows.",
            "lugbook photo my-radio.lugbook add underside.jpg --as as-found",
            "lugbook photo my-radio add c12.jpg --position C12 --as before",
            "lugbook photo my-radio list",
            "lugbook photo my-radio square P1 A-1=120,340 A-5=1810,362 B-3=1795,1402 V3-5=130,1388 V1-2=900,800")
        { book };
        command.Subcommands.Add(Add(book));
        command.Subcommands.Add(List(book));
        command.Subcommands.Add(Square(book));
        return command;
    }

    private static BenchWord Add(Argument<string> book)
    {
        var file = new Argument<FileInfo>("FILE") { Description = "A JPEG, PNG or WebP picture." };
        var position = new Option<string?>("--position") { Description = "The position or mount that it shows: C12, V3. Without it, the whole set." };
        var moment = new Option<string>("--as") { Description = "When it was taken.", DefaultValueFactory = _ => "as-found" };
        var caption = new Option<string?>("--caption") { Description = "What is to be seen." };
        var original = new Option<bool>("--original") { Description = "Keep the file byte for byte, with the place, time and camera that it names. Otherwise they are taken out; no pixel changes." };
        var json = Shared.Json();
        moment.AcceptOnlyFromAmong("as-found", "before", "after");
        var command = new BenchWord("add", "Adds a photograph.", "lugbook photo my-radio add c12.jpg --position C12 --as before", "lugbook photo my-radio.lugbook add underside.jpg --caption \"whole underside\"")
        { file, position, moment, caption, original, json };
        command.SetAction(async (parsed, stop) =>
        {
            var error = parsed.InvocationConfiguration.Error;
            if (await PhotoBook.OpenAsync(parsed.GetValue(book)!, error, stop) is not { } opened) return ExitCode.WrongInput;
            var from = parsed.GetValue(file)!;
            if (!from.Exists || from.Length > PhotoIntake.MostBytes)
            {
                await error.WriteLineAsync(from.Exists ? $"lugbook: {from.Name} has {from.Length / (1024 * 1024)} MiB; {PhotoIntake.MostBytes / (1024 * 1024)} MiB is the limit. Nothing was added." : $"lugbook: there is no file {from.Name}. Nothing was added.");
                return ExitCode.WrongInput;
            }
            var place = parsed.GetValue(position);
            if (place is not null && !PhotoRoutes.IsPlace(opened.Book, place))
            {
                await error.WriteLineAsync($"lugbook: this book has no position or mount '{place}'. 'lugbook map BOOK' lists what it has. Nothing was added.");
                return ExitCode.WrongInput;
            }
            var (content, complaint) = PhotoIntake.Check(await File.ReadAllBytesAsync(from.FullName, stop), from.Name);
            if (content is null)
            {
                await error.WriteLineAsync($"{complaint}\nNothing was added.");
                return ExitCode.WrongInput;
            }
            if (!parsed.GetValue(original)) content = PhotoBook.Stripped(content);
            var row = content.Row(BookPhotographs.NextName(opened.Book), PhotoWords.Moment(parsed.GetValue(moment))!.Value, place, parsed.GetValue(caption));
            if (!await opened.WriteAsync(opened.Book with { Photographs = opened.Book.Photographs.Add(row) }, [content], error, stop)) return ExitCode.WrongInput;
            await parsed.InvocationConfiguration.Output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(PhotoShape.Of(opened.Book, row))
                : $"{row.Name}: {row.Size} pixels, {PhotoWords.Of(row.Moment)}{(place is null ? "" : $", {place}")}.{(parsed.GetValue(original) ? " Kept byte for byte." : " Place, time, camera and owner were taken out; no pixel was changed.")}");
            return ExitCode.Done;
        });
        return command;
    }

    private static BenchWord List(Argument<string> book)
    {
        var json = Shared.Json();
        var command = new BenchWord("list", "Lists the photographs of a book.", "lugbook photo my-radio list", "lugbook photo my-radio.lugbook list --json") { json };
        command.SetAction(async (parsed, stop) =>
        {
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.InvocationConfiguration.Error, stop) is not { } opened) return ExitCode.WrongInput;
            var shapes = opened.Book.Photographs.Select(p => PhotoShape.Of(opened.Book, p)).ToArray();
            if (parsed.GetValue(json)) await parsed.InvocationConfiguration.Output.WriteLineAsync(Json.Write(shapes));
            else if (shapes.Length == 0) await parsed.InvocationConfiguration.Output.WriteLineAsync("No photographs. 'lugbook photo BOOK add FILE' adds one.");
            else
            {
                var table = new TextTable("photo", "taken", "of", "pixels", "pins", "squared up", "caption");
                foreach (var s in shapes) table.Add(s.Name, s.Moment, s.Place ?? "the set", $"{s.Width} × {s.Height}", s.Pins.Length.ToString(CultureInfo.InvariantCulture), s.WorstMillimetres is { } mm ? string.Create(CultureInfo.InvariantCulture, $"within {mm:0.0} mm") : "no", s.Caption);
                await parsed.InvocationConfiguration.Output.WriteLineAsync(table.ToString().TrimEnd());
            }
            return ExitCode.Done;
        });
        return command;
    }

    private static BenchWord Square(Argument<string> book)
    {
        var photo = new Argument<string>("PHOTO") { Description = "The photograph's name: P1." };
        var picks = new Argument<string[]>("LUG=X,Y") { Description = "A lug and the pixel where it is seen, from the upper left corner of the upright picture: A-1=120,340. Three at least; five show a wrong one. Those already set stay.", Arity = ArgumentArity.ZeroOrMore };
        var json = Shared.Json();
        var command = new BenchWord("square", "Squares a photograph up by lugs whose place in mm is entered, and says how far each is off.",
            "lugbook photo my-radio square P1 A-1=120,340 A-5=1810,362 B-3=1795,1402 V3-5=130,1388 V1-2=900,800") { photo, picks, json };
        command.SetAction(async (parsed, stop) =>
        {
            var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            if (await PhotoBook.OpenAsync(parsed.GetValue(book)!, error, stop) is not { } opened) return ExitCode.WrongInput;
            var name = parsed.GetValue(photo)!;
            if (opened.Book.Photographs.Named(name) is not { } row)
            {
                await error.WriteLineAsync($"lugbook: this book has no photograph '{name}'.{(opened.Book.Photographs.Count > 0 ? $" It has {string.Join(", ", opened.Book.Photographs.Select(p => p.Name))}." : "")}");
                return ExitCode.WrongInput;
            }
            var changed = opened.Book;
            foreach (var text in parsed.GetValue(picks) ?? [])
            {
                var (pin, why) = Pin(opened.Book, row, text);
                if (pin is null)
                {
                    await error.WriteLineAsync($"lugbook: '{text}': {why} Nothing was changed.");
                    return ExitCode.WrongInput;
                }
                changed = BookPhotographs.WithPin(changed, pin);
            }
            var square = PhotoSquare.Of(changed, row);
            if (!square.IsSquare)
            {
                await error.WriteLineAsync($"lugbook: {row.Name} is not squared up. {square.Result.Refusal} Nothing was changed.");
                return ExitCode.No;
            }
            if (!ReferenceEquals(changed, opened.Book) && !await opened.WriteAsync(changed, [], error, stop)) return ExitCode.WrongInput;
            if (parsed.GetValue(json))
            {
                await output.WriteLineAsync(Json.Write(PhotoShape.Of(changed, row)));
                return ExitCode.Done;
            }
            var table = new TextTable("lug", "off, mm", "off, pixels");
            foreach (var e in square.Result.Errors) table.Add(e.Lug, e.Millimetres.ToString("0.00", CultureInfo.InvariantCulture), e.Pixels.ToString("0.0", CultureInfo.InvariantCulture));
            await output.WriteLineAsync($"{row.Name} is squared up by {square.Result.Errors.Length} lugs.\n\n{table}".TrimEnd());
            foreach (var remark in square.Result.Remarks) await output.WriteLineAsync($"\n{remark}");
            return ExitCode.Done;
        });
        return command;
    }

    private static (PhotoPin? Pin, string? Why) Pin(Trade.Book book, Photograph row, string text)
    {
        var at = text.LastIndexOf('=');
        var numbers = at < 0 ? [] : text[(at + 1)..].Split(',');
        if (at < 1 || numbers.Length != 2 || !double.TryParse(numbers[0], NumberStyles.Float, CultureInfo.InvariantCulture, out var x) || !double.TryParse(numbers[1], NumberStyles.Float, CultureInfo.InvariantCulture, out var y))
            return (null, "write a lug and two numbers, as in A-1=120,340.");
        if (book.Lugs.Named(text[..at]) is not { } lug) return (null, $"this book has no lug '{text[..at]}'.");
        if (!(x >= 0 && x <= row.Width && y >= 0 && y <= row.Height)) return (null, $"that is outside the picture, which has {row.Size} pixels.");
        if (PhotoSquare.Place(book, lug.Name) is null) return (null, $"the place of {lug.Name} in mm is not entered, so that nothing can be squared up by it.");
        return (new() { Name = lug.Name, Photograph = row.Name, X = x, Y = y }, null);
    }
}
