using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Dyewort.Store.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Making : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "recipes",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    sample_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    swatch_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    reading_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    wash = table.Column<double>(type: "REAL", nullable: false),
                    keeps_months = table.Column<int>(type: "INTEGER", nullable: true),
                    note = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_recipes", x => x.id);
                    table.ForeignKey(
                        name: "FK_recipes_readings_reading_id",
                        column: x => x.reading_id,
                        principalTable: "readings",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_recipes_samples_sample_id",
                        column: x => x.sample_id,
                        principalTable: "samples",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_recipes_swatches_swatch_id",
                        column: x => x.swatch_id,
                        principalTable: "swatches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "batches",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    code = table.Column<string>(type: "TEXT", nullable: false),
                    recipe_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    liquor_ml = table.Column<double>(type: "REAL", nullable: false),
                    made_on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    ready_ml = table.Column<double>(type: "REAL", nullable: true),
                    ph = table.Column<double>(type: "REAL", nullable: true),
                    note = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_batches", x => x.id);
                    table.ForeignKey(
                        name: "FK_batches_recipes_recipe_id",
                        column: x => x.recipe_id,
                        principalTable: "recipes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "recipe_lines",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    recipe_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    material_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    step = table.Column<int>(type: "INTEGER", nullable: false),
                    for_ml = table.Column<double>(type: "REAL", nullable: false),
                    amount_text = table.Column<string>(type: "TEXT", nullable: false),
                    grams = table.Column<double>(type: "REAL", nullable: true),
                    ml = table.Column<double>(type: "REAL", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_recipe_lines", x => x.id);
                    table.ForeignKey(
                        name: "FK_recipe_lines_materials_material_id",
                        column: x => x.material_id,
                        principalTable: "materials",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_recipe_lines_recipes_recipe_id",
                        column: x => x.recipe_id,
                        principalTable: "recipes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "batch_amounts",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    batch_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    material_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    step = table.Column<int>(type: "INTEGER", nullable: false),
                    planned_text = table.Column<string>(type: "TEXT", nullable: false),
                    planned_grams = table.Column<double>(type: "REAL", nullable: true),
                    planned_ml = table.Column<double>(type: "REAL", nullable: true),
                    measured_text = table.Column<string>(type: "TEXT", nullable: true),
                    measured_grams = table.Column<double>(type: "REAL", nullable: true),
                    measured_ml = table.Column<double>(type: "REAL", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_batch_amounts", x => x.id);
                    table.ForeignKey(
                        name: "FK_batch_amounts_batches_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_batch_amounts_materials_material_id",
                        column: x => x.material_id,
                        principalTable: "materials",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "batch_pours",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    batch_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    pot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    planned_ml = table.Column<double>(type: "REAL", nullable: false),
                    measured_ml = table.Column<double>(type: "REAL", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_batch_pours", x => x.id);
                    table.ForeignKey(
                        name: "FK_batch_pours_batches_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_batch_pours_pots_pot_id",
                        column: x => x.pot_id,
                        principalTable: "pots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "bottles",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    code = table.Column<string>(type: "TEXT", nullable: false),
                    batch_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    container_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    filled_ml = table.Column<double>(type: "REAL", nullable: false),
                    filled_on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    keep_by = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    look_again_on = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    place = table.Column<string>(type: "TEXT", nullable: true),
                    kept_back = table.Column<bool>(type: "INTEGER", nullable: false),
                    gone_on = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    gone_how = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_bottles", x => x.id);
                    table.ForeignKey(
                        name: "FK_bottles_batches_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_bottles_materials_container_id",
                        column: x => x.container_id,
                        principalTable: "materials",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "bottle_checks",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    bottle_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    finding = table.Column<string>(type: "TEXT", nullable: false),
                    ph = table.Column<double>(type: "REAL", nullable: true),
                    said = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_bottle_checks", x => x.id);
                    table.ForeignKey(
                        name: "FK_bottle_checks_bottles_bottle_id",
                        column: x => x.bottle_id,
                        principalTable: "bottles",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_batch_amounts_batch_id_step",
                table: "batch_amounts",
                columns: new[] { "batch_id", "step" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_batch_amounts_material_id",
                table: "batch_amounts",
                column: "material_id");

            migrationBuilder.CreateIndex(
                name: "IX_batch_pours_batch_id",
                table: "batch_pours",
                column: "batch_id");

            migrationBuilder.CreateIndex(
                name: "IX_batch_pours_pot_id",
                table: "batch_pours",
                column: "pot_id");

            migrationBuilder.CreateIndex(
                name: "IX_batches_code",
                table: "batches",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_batches_recipe_id",
                table: "batches",
                column: "recipe_id");

            migrationBuilder.CreateIndex(
                name: "IX_bottle_checks_bottle_id",
                table: "bottle_checks",
                column: "bottle_id");

            migrationBuilder.CreateIndex(
                name: "IX_bottles_batch_id",
                table: "bottles",
                column: "batch_id");

            migrationBuilder.CreateIndex(
                name: "IX_bottles_code",
                table: "bottles",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_bottles_container_id",
                table: "bottles",
                column: "container_id");

            migrationBuilder.CreateIndex(
                name: "IX_recipe_lines_material_id",
                table: "recipe_lines",
                column: "material_id");

            migrationBuilder.CreateIndex(
                name: "IX_recipe_lines_recipe_id_step",
                table: "recipe_lines",
                columns: new[] { "recipe_id", "step" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_recipes_number",
                table: "recipes",
                column: "number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_recipes_reading_id",
                table: "recipes",
                column: "reading_id");

            migrationBuilder.CreateIndex(
                name: "IX_recipes_sample_id",
                table: "recipes",
                column: "sample_id");

            migrationBuilder.CreateIndex(
                name: "IX_recipes_swatch_id",
                table: "recipes",
                column: "swatch_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "batch_amounts");

            migrationBuilder.DropTable(
                name: "batch_pours");

            migrationBuilder.DropTable(
                name: "bottle_checks");

            migrationBuilder.DropTable(
                name: "recipe_lines");

            migrationBuilder.DropTable(
                name: "bottles");

            migrationBuilder.DropTable(
                name: "batches");

            migrationBuilder.DropTable(
                name: "recipes");
        }
    }
}
