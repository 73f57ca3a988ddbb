using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Rollwright.Library.Storage.Sqlite
{
    /// <inheritdoc />
    public partial class Owners : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_Licks_Name",
                table: "Licks");

            migrationBuilder.AddColumn<string>(
                name: "Owner",
                table: "Tunes",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "Owner",
                table: "Takes",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "Owner",
                table: "Revisions",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "Owner",
                table: "Practice",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "Owner",
                table: "Licks",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "Owner",
                table: "Lessons",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "Owner",
                table: "Breaks",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.CreateIndex(
                name: "IX_Tunes_Owner",
                table: "Tunes",
                column: "Owner");

            migrationBuilder.CreateIndex(
                name: "IX_Takes_Owner",
                table: "Takes",
                column: "Owner");

            migrationBuilder.CreateIndex(
                name: "IX_Revisions_Owner",
                table: "Revisions",
                column: "Owner");

            migrationBuilder.CreateIndex(
                name: "IX_Practice_Owner",
                table: "Practice",
                column: "Owner");

            migrationBuilder.CreateIndex(
                name: "IX_Licks_Owner",
                table: "Licks",
                column: "Owner");

            migrationBuilder.CreateIndex(
                name: "IX_Licks_Owner_Name",
                table: "Licks",
                columns: new[] { "Owner", "Name" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Lessons_Owner",
                table: "Lessons",
                column: "Owner");

            migrationBuilder.CreateIndex(
                name: "IX_Breaks_Owner",
                table: "Breaks",
                column: "Owner");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_Tunes_Owner",
                table: "Tunes");

            migrationBuilder.DropIndex(
                name: "IX_Takes_Owner",
                table: "Takes");

            migrationBuilder.DropIndex(
                name: "IX_Revisions_Owner",
                table: "Revisions");

            migrationBuilder.DropIndex(
                name: "IX_Practice_Owner",
                table: "Practice");

            migrationBuilder.DropIndex(
                name: "IX_Licks_Owner",
                table: "Licks");

            migrationBuilder.DropIndex(
                name: "IX_Licks_Owner_Name",
                table: "Licks");

            migrationBuilder.DropIndex(
                name: "IX_Lessons_Owner",
                table: "Lessons");

            migrationBuilder.DropIndex(
                name: "IX_Breaks_Owner",
                table: "Breaks");

            migrationBuilder.DropColumn(
                name: "Owner",
                table: "Tunes");

            migrationBuilder.DropColumn(
                name: "Owner",
                table: "Takes");

            migrationBuilder.DropColumn(
                name: "Owner",
                table: "Revisions");

            migrationBuilder.DropColumn(
                name: "Owner",
                table: "Practice");

            migrationBuilder.DropColumn(
                name: "Owner",
                table: "Licks");

            migrationBuilder.DropColumn(
                name: "Owner",
                table: "Lessons");

            migrationBuilder.DropColumn(
                name: "Owner",
                table: "Breaks");

            migrationBuilder.CreateIndex(
                name: "IX_Licks_Name",
                table: "Licks",
                column: "Name",
                unique: true);
        }
    }
}
