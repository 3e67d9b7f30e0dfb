using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Dyewort.Store.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Reading : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<double>(
                name: "exposed_hours",
                table: "readings",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "exposed_to",
                table: "readings",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "measured_with",
                table: "readings",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "covered",
                table: "photos",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "exposed_hours",
                table: "photos",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "exposed_to",
                table: "photos",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "height_px",
                table: "photos",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "paper_colour",
                table: "photos",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "placing_json",
                table: "photos",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "source",
                table: "photos",
                type: "TEXT",
                nullable: false,
                defaultValue: "Photo");

            migrationBuilder.AddColumn<string>(
                name: "strip_corners_json",
                table: "photos",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "strip_id",
                table: "photos",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "why_not_read",
                table: "photos",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "width_px",
                table: "photos",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<DateOnly>(
                name: "bare_measured_on",
                table: "materials",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "bare_method",
                table: "materials",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "bare_uncertainty_de00",
                table: "materials",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "paper_kind",
                table: "materials",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "house_strips",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    columns = table.Column<int>(type: "INTEGER", nullable: false),
                    rows = table.Column<int>(type: "INTEGER", nullable: false),
                    patches = table.Column<string>(type: "TEXT", nullable: false),
                    photo_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    corners_json = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_house_strips", x => x.id);
                });

            migrationBuilder.CreateIndex(
                name: "IX_photos_strip_id",
                table: "photos",
                column: "strip_id");

            migrationBuilder.AddForeignKey(
                name: "FK_photos_house_strips_strip_id",
                table: "photos",
                column: "strip_id",
                principalTable: "house_strips",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "FK_photos_house_strips_strip_id",
                table: "photos");

            migrationBuilder.DropTable(
                name: "house_strips");

            migrationBuilder.DropIndex(
                name: "IX_photos_strip_id",
                table: "photos");

            migrationBuilder.DropColumn(
                name: "exposed_hours",
                table: "readings");

            migrationBuilder.DropColumn(
                name: "exposed_to",
                table: "readings");

            migrationBuilder.DropColumn(
                name: "measured_with",
                table: "readings");

            migrationBuilder.DropColumn(
                name: "covered",
                table: "photos");

            migrationBuilder.DropColumn(
                name: "exposed_hours",
                table: "photos");

            migrationBuilder.DropColumn(
                name: "exposed_to",
                table: "photos");

            migrationBuilder.DropColumn(
                name: "height_px",
                table: "photos");

            migrationBuilder.DropColumn(
                name: "paper_colour",
                table: "photos");

            migrationBuilder.DropColumn(
                name: "placing_json",
                table: "photos");

            migrationBuilder.DropColumn(
                name: "source",
                table: "photos");

            migrationBuilder.DropColumn(
                name: "strip_corners_json",
                table: "photos");

            migrationBuilder.DropColumn(
                name: "strip_id",
                table: "photos");

            migrationBuilder.DropColumn(
                name: "why_not_read",
                table: "photos");

            migrationBuilder.DropColumn(
                name: "width_px",
                table: "photos");

            migrationBuilder.DropColumn(
                name: "bare_measured_on",
                table: "materials");

            migrationBuilder.DropColumn(
                name: "bare_method",
                table: "materials");

            migrationBuilder.DropColumn(
                name: "bare_uncertainty_de00",
                table: "materials");

            migrationBuilder.DropColumn(
                name: "paper_kind",
                table: "materials");
        }
    }
}
