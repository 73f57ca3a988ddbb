using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Rollwright.Library.Storage.Sqlite
{
    /// <inheritdoc />
    public partial class LicksSetAside : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "SetAsideLicks",
                columns: table => new
                {
                    Who = table.Column<string>(type: "TEXT", nullable: false),
                    Lick = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SetAsideLicks", x => new { x.Who, x.Lick });
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "SetAsideLicks");
        }
    }
}
