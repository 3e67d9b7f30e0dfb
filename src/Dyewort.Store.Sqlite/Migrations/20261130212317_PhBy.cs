using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Dyewort.Store.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class PhBy : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "ph_by",
                table: "pot_log",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "ph_by",
                table: "additions",
                type: "TEXT",
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "ph_by",
                table: "pot_log");

            migrationBuilder.DropColumn(
                name: "ph_by",
                table: "additions");
        }
    }
}
