using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Dyewort.Store.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class ReasonsAndPoisonCentre : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "poison_centre",
                table: "settings",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "reason",
                table: "additions",
                type: "TEXT",
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "poison_centre",
                table: "settings");

            migrationBuilder.DropColumn(
                name: "reason",
                table: "additions");
        }
    }
}
