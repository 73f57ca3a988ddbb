using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Rollwright.Library.Storage.Sqlite
{
    /// <inheritdoc />
    public partial class Beginning : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Breaks",
                columns: table => new
                {
                    Number = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Tune = table.Column<Guid>(type: "TEXT", nullable: false),
                    Title = table.Column<string>(type: "TEXT", nullable: false),
                    Current = table.Column<int>(type: "INTEGER", nullable: false),
                    ChangedAt = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Breaks", x => x.Number);
                });

            migrationBuilder.CreateTable(
                name: "Practice",
                columns: table => new
                {
                    Break = table.Column<Guid>(type: "TEXT", nullable: false),
                    Day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Phrase = table.Column<int>(type: "INTEGER", nullable: false),
                    Tempo = table.Column<double>(type: "REAL", nullable: false),
                    Clean = table.Column<int>(type: "INTEGER", nullable: false),
                    Spoiled = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Practice", x => new { x.Break, x.Day, x.Phrase });
                });

            migrationBuilder.CreateTable(
                name: "Revisions",
                columns: table => new
                {
                    Break = table.Column<Guid>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    Parent = table.Column<int>(type: "INTEGER", nullable: true),
                    At = table.Column<long>(type: "INTEGER", nullable: false),
                    By = table.Column<string>(type: "TEXT", nullable: false),
                    Words = table.Column<string>(type: "TEXT", nullable: false),
                    Wishes = table.Column<string>(type: "TEXT", nullable: false),
                    Json = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Revisions", x => new { x.Break, x.Number });
                });

            migrationBuilder.CreateTable(
                name: "Tunes",
                columns: table => new
                {
                    Number = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Title = table.Column<string>(type: "TEXT", nullable: false),
                    Abc = table.Column<string>(type: "TEXT", nullable: false),
                    Key = table.Column<string>(type: "TEXT", nullable: false),
                    Metre = table.Column<string>(type: "TEXT", nullable: false),
                    Composer = table.Column<string>(type: "TEXT", nullable: false),
                    Source = table.Column<string>(type: "TEXT", nullable: false),
                    Tags = table.Column<string>(type: "TEXT", nullable: false),
                    Fingerprint = table.Column<string>(type: "TEXT", nullable: false),
                    SearchText = table.Column<string>(type: "TEXT", nullable: false),
                    AddedAt = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Tunes", x => x.Number);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Breaks_Id",
                table: "Breaks",
                column: "Id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Breaks_Tune",
                table: "Breaks",
                column: "Tune");

            migrationBuilder.CreateIndex(
                name: "IX_Tunes_Fingerprint",
                table: "Tunes",
                column: "Fingerprint");

            migrationBuilder.CreateIndex(
                name: "IX_Tunes_Id",
                table: "Tunes",
                column: "Id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Tunes_Title",
                table: "Tunes",
                column: "Title");

            // What search looks in: kept in step by the database itself, within the same transaction.
            migrationBuilder.Sql(
                """
                CREATE VIRTUAL TABLE "TuneSearch" USING fts5("Text", content='', contentless_delete=1, tokenize='unicode61');
                CREATE TRIGGER "TuneAdded" AFTER INSERT ON "Tunes" BEGIN
                    INSERT INTO "TuneSearch"(rowid, "Text") VALUES (new."Number", new."SearchText");
                END;
                CREATE TRIGGER "TuneChanged" AFTER UPDATE OF "SearchText" ON "Tunes" BEGIN
                    DELETE FROM "TuneSearch" WHERE rowid = old."Number";
                    INSERT INTO "TuneSearch"(rowid, "Text") VALUES (new."Number", new."SearchText");
                END;
                CREATE TRIGGER "TuneGone" AFTER DELETE ON "Tunes" BEGIN
                    DELETE FROM "TuneSearch" WHERE rowid = old."Number";
                END;
                """
            );
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Breaks");

            migrationBuilder.DropTable(
                name: "Practice");

            migrationBuilder.DropTable(
                name: "Revisions");

            migrationBuilder.DropTable(
                name: "Tunes");
        }
    }
}
