using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Dyewort.Store.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Stages : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_additions_sample_id_step",
                table: "additions");

            migrationBuilder.AddColumn<int>(
                name: "after_step",
                table: "swatches",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "stage_said_at",
                table: "swatches",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "after_step",
                table: "recipes",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.CreateIndex(
                name: "IX_additions_sample_id_step",
                table: "additions",
                columns: new[] { "sample_id", "step" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_additions_sample_id_step",
                table: "additions");

            migrationBuilder.DropColumn(
                name: "after_step",
                table: "swatches");

            migrationBuilder.DropColumn(
                name: "stage_said_at",
                table: "swatches");

            migrationBuilder.DropColumn(
                name: "after_step",
                table: "recipes");

            migrationBuilder.CreateIndex(
                name: "IX_additions_sample_id_step",
                table: "additions",
                columns: new[] { "sample_id", "step" },
                unique: true);
        }
    }
}
