using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Lugbook.Store.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class EditTokens : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "Token",
                table: "Edits",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateIndex(
                name: "IX_Edits_BookId_Token",
                table: "Edits",
                columns: new[] { "BookId", "Token" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_Edits_BookId_Token",
                table: "Edits");

            migrationBuilder.DropColumn(
                name: "Token",
                table: "Edits");
        }
    }
}
