using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Dyewort.Store.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class PrintedBlack : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "printed_black_method",
                table: "materials",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "printed_black_percent",
                table: "materials",
                type: "REAL",
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "printed_black_method",
                table: "materials");

            migrationBuilder.DropColumn(
                name: "printed_black_percent",
                table: "materials");
        }
    }
}
