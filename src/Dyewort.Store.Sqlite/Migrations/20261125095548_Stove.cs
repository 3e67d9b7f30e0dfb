using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Dyewort.Store.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Stove : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "lot_sheets",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    bought = table.Column<bool>(type: "INTEGER", nullable: false),
                    supplier = table.Column<string>(type: "TEXT", nullable: true),
                    leave_from = table.Column<string>(type: "TEXT", nullable: true),
                    covers = table.Column<string>(type: "TEXT", nullable: true),
                    leave_until = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    leave_written = table.Column<bool>(type: "INTEGER", nullable: false),
                    dried_from_grams = table.Column<double>(type: "REAL", nullable: true),
                    dried_to_grams = table.Column<double>(type: "REAL", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_lot_sheets", x => x.id);
                    table.ForeignKey(
                        name: "FK_lot_sheets_plant_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "plant_lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "pot_drops",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    pot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    minute = table.Column<double>(type: "REAL", nullable: false),
                    colour = table.Column<string>(type: "TEXT", nullable: true),
                    radius_de00 = table.Column<double>(type: "REAL", nullable: true),
                    said = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_pot_drops", x => x.id);
                    table.ForeignKey(
                        name: "FK_pot_drops_pots_pot_id",
                        column: x => x.pot_id,
                        principalTable: "pots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "pot_sheets",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    pot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    started_at = table.Column<string>(type: "TEXT", nullable: true),
                    @base = table.Column<string>(name: "base", type: "TEXT", nullable: true),
                    spirit_percent = table.Column<double>(type: "REAL", nullable: true),
                    colourants = table.Column<string>(type: "TEXT", nullable: true),
                    form = table.Column<string>(type: "TEXT", nullable: true),
                    pressed = table.Column<bool>(type: "INTEGER", nullable: false),
                    vessel_ml = table.Column<double>(type: "REAL", nullable: true),
                    diameter_cm = table.Column<double>(type: "REAL", nullable: true),
                    metal = table.Column<string>(type: "TEXT", nullable: false),
                    enamel_chipped = table.Column<bool>(type: "INTEGER", nullable: false),
                    spoon_metal = table.Column<string>(type: "TEXT", nullable: false),
                    ring = table.Column<string>(type: "TEXT", nullable: true),
                    heat_kw = table.Column<double>(type: "REAL", nullable: true),
                    lid_on = table.Column<bool>(type: "INTEGER", nullable: false),
                    water = table.Column<string>(type: "TEXT", nullable: true),
                    hardness_mg_per_l = table.Column<double>(type: "REAL", nullable: true),
                    alkalinity_mg_per_l = table.Column<double>(type: "REAL", nullable: true),
                    hours_warm = table.Column<double>(type: "REAL", nullable: true),
                    from_plant_ml = table.Column<double>(type: "REAL", nullable: true),
                    boiled_off_ml = table.Column<double>(type: "REAL", nullable: true),
                    held_ml = table.Column<double>(type: "REAL", nullable: true),
                    spilt_ml = table.Column<double>(type: "REAL", nullable: true),
                    strength = table.Column<double>(type: "REAL", nullable: true),
                    drop_paper = table.Column<string>(type: "TEXT", nullable: true),
                    repeats_pot_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_pot_sheets", x => x.id);
                    table.ForeignKey(
                        name: "FK_pot_sheets_pots_pot_id",
                        column: x => x.pot_id,
                        principalTable: "pots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_pot_sheets_pots_repeats_pot_id",
                        column: x => x.repeats_pot_id,
                        principalTable: "pots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "pot_timers",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    pot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    started_at = table.Column<string>(type: "TEXT", nullable: false),
                    due_at = table.Column<string>(type: "TEXT", nullable: false),
                    answered_at = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_pot_timers", x => x.id);
                    table.ForeignKey(
                        name: "FK_pot_timers_pots_pot_id",
                        column: x => x.pot_id,
                        principalTable: "pots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_lot_sheets_lot_id",
                table: "lot_sheets",
                column: "lot_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_pot_drops_pot_id",
                table: "pot_drops",
                column: "pot_id");

            migrationBuilder.CreateIndex(
                name: "IX_pot_sheets_pot_id",
                table: "pot_sheets",
                column: "pot_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_pot_sheets_repeats_pot_id",
                table: "pot_sheets",
                column: "repeats_pot_id");

            migrationBuilder.CreateIndex(
                name: "IX_pot_timers_pot_id",
                table: "pot_timers",
                column: "pot_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "lot_sheets");

            migrationBuilder.DropTable(
                name: "pot_drops");

            migrationBuilder.DropTable(
                name: "pot_sheets");

            migrationBuilder.DropTable(
                name: "pot_timers");
        }
    }
}
