using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Rollwright.Library.Storage.Postgres
{
    /// <inheritdoc />
    public partial class DraftIds : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "Draft",
                table: "Revisions",
                type: "uuid",
                nullable: true);

            migrationBuilder.CreateIndex(
                name: "IX_Revisions_Draft",
                table: "Revisions",
                column: "Draft",
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_Revisions_Draft",
                table: "Revisions");

            migrationBuilder.DropColumn(
                name: "Draft",
                table: "Revisions");
        }
    }
}
