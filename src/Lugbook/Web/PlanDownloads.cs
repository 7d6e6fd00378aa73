using Lugbook.Output;
using Lugbook.Store.Exchange;

namespace Lugbook.Web;

/// <summary>The last plan of a book as a file.</summary>
internal static class PlanDownloads
{
    public static void Map(WebApplication app)
    {
        app.MapGet("/book/{name}/plan.csv", (string name, SupplyDesk desk) => desk.Plans.TryGetValue(name, out var plan)
            ? Results.File(TableFiles.ToCsv(PlanTables.Lines(plan)), "text/csv", $"{name}-order.csv") : None());
        app.MapGet("/book/{name}/plan.xlsx", (string name, SupplyDesk desk) => desk.Plans.TryGetValue(name, out var plan)
            ? Results.File(TableFiles.ToXlsx([.. PlanTables.Of(plan)]), BookDownloads.Spreadsheet, $"{name}-order.xlsx") : None());
    }

    private static IResult None() => Results.Problem("There is no plan yet. Work it out on the order page.", statusCode: StatusCodes.Status404NotFound);
}
