using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Rollwright.Library.Storage.Postgres
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
                    Number = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Tune = table.Column<Guid>(type: "uuid", nullable: false),
                    Title = table.Column<string>(type: "text", nullable: false),
                    Current = table.Column<int>(type: "integer", nullable: false),
                    ChangedAt = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Breaks", x => x.Number);
                });

            migrationBuilder.CreateTable(
                name: "Practice",
                columns: table => new
                {
                    Break = table.Column<Guid>(type: "uuid", nullable: false),
                    Day = table.Column<DateOnly>(type: "date", nullable: false),
                    Phrase = table.Column<int>(type: "integer", nullable: false),
                    Tempo = table.Column<double>(type: "double precision", nullable: false),
                    Clean = table.Column<int>(type: "integer", nullable: false),
                    Spoiled = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Practice", x => new { x.Break, x.Day, x.Phrase });
                });

            migrationBuilder.CreateTable(
                name: "Revisions",
                columns: table => new
                {
                    Break = table.Column<Guid>(type: "uuid", nullable: false),
                    Number = table.Column<int>(type: "integer", nullable: false),
                    Parent = table.Column<int>(type: "integer", nullable: true),
                    At = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    Words = table.Column<string>(type: "text", nullable: false),
                    Wishes = table.Column<string>(type: "text", nullable: false),
                    Json = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Revisions", x => new { x.Break, x.Number });
                });

            migrationBuilder.CreateTable(
                name: "Tunes",
                columns: table => new
                {
                    Number = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Title = table.Column<string>(type: "text", nullable: false),
                    Abc = table.Column<string>(type: "text", nullable: false),
                    Key = table.Column<string>(type: "text", nullable: false),
                    Metre = table.Column<string>(type: "text", nullable: false),
                    Composer = table.Column<string>(type: "text", nullable: false),
                    Source = table.Column<string>(type: "text", nullable: false),
                    Tags = table.Column<string>(type: "text", nullable: false),
                    Fingerprint = table.Column<string>(type: "text", nullable: false),
                    SearchText = table.Column<string>(type: "text", nullable: false),
                    AddedAt = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
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

            // What search looks in: kept in step by the database itself.
            migrationBuilder.Sql(
                """
                ALTER TABLE "Tunes" ADD COLUMN "SearchVector" tsvector
                    GENERATED ALWAYS AS (to_tsvector('simple', "SearchText")) STORED;
                CREATE INDEX "IX_Tunes_SearchVector" ON "Tunes" USING GIN ("SearchVector");
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
