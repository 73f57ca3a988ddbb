using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Rollwright.Library.Storage.Sqlite
{
    /// <inheritdoc />
    public partial class LicksLessonsTakes : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Lessons",
                columns: table => new
                {
                    Number = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Break = table.Column<Guid>(type: "TEXT", nullable: false),
                    Title = table.Column<string>(type: "TEXT", nullable: false),
                    Edits = table.Column<string>(type: "TEXT", nullable: false),
                    ChangedAt = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Lessons", x => x.Number);
                });

            migrationBuilder.CreateTable(
                name: "Licks",
                columns: table => new
                {
                    Number = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Row = table.Column<string>(type: "TEXT", nullable: false),
                    AddedAt = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Licks", x => x.Number);
                });

            migrationBuilder.CreateTable(
                name: "Takes",
                columns: table => new
                {
                    Number = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Break = table.Column<Guid>(type: "TEXT", nullable: false),
                    At = table.Column<long>(type: "INTEGER", nullable: false),
                    Digest = table.Column<string>(type: "TEXT", nullable: false),
                    Ending = table.Column<string>(type: "TEXT", nullable: false),
                    Notes = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Takes", x => x.Number);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Lessons_Break",
                table: "Lessons",
                column: "Break");

            migrationBuilder.CreateIndex(
                name: "IX_Lessons_Id",
                table: "Lessons",
                column: "Id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Licks_Id",
                table: "Licks",
                column: "Id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Licks_Name",
                table: "Licks",
                column: "Name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Takes_Break",
                table: "Takes",
                column: "Break");

            migrationBuilder.CreateIndex(
                name: "IX_Takes_Digest",
                table: "Takes",
                column: "Digest");

            migrationBuilder.CreateIndex(
                name: "IX_Takes_Id",
                table: "Takes",
                column: "Id",
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Lessons");

            migrationBuilder.DropTable(
                name: "Licks");

            migrationBuilder.DropTable(
                name: "Takes");
        }
    }
}
