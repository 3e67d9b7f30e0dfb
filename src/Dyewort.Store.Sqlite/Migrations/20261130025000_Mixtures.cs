using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Dyewort.Store.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Mixtures : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<double>(
                name: "mixed_ml",
                table: "samples",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "mixed_with_id",
                table: "samples",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "batch_readings",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    batch_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<string>(type: "TEXT", nullable: false),
                    colour = table.Column<string>(type: "TEXT", nullable: false),
                    uncertainty_de00 = table.Column<double>(type: "REAL", nullable: false),
                    source = table.Column<string>(type: "TEXT", nullable: false),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_batch_readings", x => x.id);
                    table.ForeignKey(
                        name: "FK_batch_readings_batches_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_samples_mixed_with_id",
                table: "samples",
                column: "mixed_with_id");

            migrationBuilder.CreateIndex(
                name: "IX_batch_readings_batch_id",
                table: "batch_readings",
                column: "batch_id");

            migrationBuilder.AddForeignKey(
                name: "FK_samples_samples_mixed_with_id",
                table: "samples",
                column: "mixed_with_id",
                principalTable: "samples",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "FK_samples_samples_mixed_with_id",
                table: "samples");

            migrationBuilder.DropTable(
                name: "batch_readings");

            migrationBuilder.DropIndex(
                name: "IX_samples_mixed_with_id",
                table: "samples");

            migrationBuilder.DropColumn(
                name: "mixed_ml",
                table: "samples");

            migrationBuilder.DropColumn(
                name: "mixed_with_id",
                table: "samples");
        }
    }
}
