using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Lugbook.Store.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class BenchPapers : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "PaperEdits",
                columns: table => new
                {
                    Number = table.Column<long>(type: "INTEGER", nullable: false),
                    WhenUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Who = table.Column<string>(type: "TEXT", nullable: false),
                    What = table.Column<string>(type: "TEXT", nullable: false),
                    Changes = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_PaperEdits", x => x.Number);
                });

            migrationBuilder.CreateTable(
                name: "Papers",
                columns: table => new
                {
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Body = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Papers", x => x.Name);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "PaperEdits");

            migrationBuilder.DropTable(
                name: "Papers");
        }
    }
}
