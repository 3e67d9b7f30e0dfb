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
                    code = table.Column<string>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    sample_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    pot_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    swatch_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    chart_position = table.Column<string>(type: "TEXT", nullable: true),
                    base_volume_ml = table.Column<double>(type: "REAL", nullable: false),
                    liquor = table.Column<string>(type: "TEXT", nullable: true),
                    colour = table.Column<string>(type: "TEXT", nullable: true),
                    uncertainty_de00 = table.Column<double>(type: "REAL", nullable: true),
                    keep_months = table.Column<int>(type: "INTEGER", nullable: true),
                    caution = table.Column<string>(type: "TEXT", nullable: true),
                    note = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_recipes", x => x.id);
                    table.ForeignKey(
                        name: "FK_recipes_pots_pot_id",
                        column: x => x.pot_id,
                        principalTable: "pots",
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
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    code = table.Column<string>(type: "TEXT", nullable: false),
                    recipe_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    made_on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    planned_liquor_ml = table.Column<double>(type: "REAL", nullable: false),
                    measured_liquor_ml = table.Column<double>(type: "REAL", nullable: true),
                    made_ml = table.Column<double>(type: "REAL", nullable: true),
                    filtered_ml = table.Column<double>(type: "REAL", nullable: true),
                    kept_back_ml = table.Column<double>(type: "REAL", nullable: true),
                    ph = table.Column<double>(type: "REAL", nullable: true),
                    keep_by = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    place = table.Column<string>(type: "TEXT", nullable: true),
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
                name: "recipe_steps",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    recipe_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    step = table.Column<int>(type: "INTEGER", nullable: false),
                    material_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    amount_text = table.Column<string>(type: "TEXT", nullable: false),
                    grams = table.Column<double>(type: "REAL", nullable: true),
                    ml = table.Column<double>(type: "REAL", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_recipe_steps", x => x.id);
                    table.ForeignKey(
                        name: "FK_recipe_steps_materials_material_id",
                        column: x => x.material_id,
                        principalTable: "materials",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_recipe_steps_recipes_recipe_id",
                        column: x => x.recipe_id,
                        principalTable: "recipes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "batch_liquors",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    batch_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    pot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    ml = table.Column<double>(type: "REAL", nullable: false),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_batch_liquors", x => x.id);
                    table.ForeignKey(
                        name: "FK_batch_liquors_batches_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_batch_liquors_pots_pot_id",
                        column: x => x.pot_id,
                        principalTable: "pots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "batch_steps",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    batch_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    step = table.Column<int>(type: "INTEGER", nullable: false),
                    material_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    name = table.Column<string>(type: "TEXT", nullable: false),
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
                    table.PrimaryKey("PK_batch_steps", x => x.id);
                    table.ForeignKey(
                        name: "FK_batch_steps_batches_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_batch_steps_materials_material_id",
                        column: x => x.material_id,
                        principalTable: "materials",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "bottles",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    batch_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    code = table.Column<string>(type: "TEXT", nullable: false),
                    container_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    fill_ml = table.Column<double>(type: "REAL", nullable: false),
                    filled_on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    keep_by = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    place = table.Column<string>(type: "TEXT", nullable: true),
                    gone_on = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    gone_why = table.Column<string>(type: "TEXT", nullable: true),
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
                    passed = table.Column<bool>(type: "INTEGER", nullable: false),
                    seen = table.Column<string>(type: "TEXT", nullable: true),
                    ph = table.Column<double>(type: "REAL", nullable: true),
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
                name: "IX_batch_liquors_batch_id",
                table: "batch_liquors",
                column: "batch_id");

            migrationBuilder.CreateIndex(
                name: "IX_batch_liquors_pot_id",
                table: "batch_liquors",
                column: "pot_id");

            migrationBuilder.CreateIndex(
                name: "IX_batch_steps_batch_id_step",
                table: "batch_steps",
                columns: new[] { "batch_id", "step" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_batch_steps_material_id",
                table: "batch_steps",
                column: "material_id");

            migrationBuilder.CreateIndex(
                name: "IX_batches_code",
                table: "batches",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_batches_number",
                table: "batches",
                column: "number",
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
                name: "IX_bottles_batch_id_number",
                table: "bottles",
                columns: new[] { "batch_id", "number" },
                unique: true);

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
                name: "IX_recipe_steps_material_id",
                table: "recipe_steps",
                column: "material_id");

            migrationBuilder.CreateIndex(
                name: "IX_recipe_steps_recipe_id_step",
                table: "recipe_steps",
                columns: new[] { "recipe_id", "step" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_recipes_code",
                table: "recipes",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_recipes_pot_id",
                table: "recipes",
                column: "pot_id");

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
                name: "batch_liquors");

            migrationBuilder.DropTable(
                name: "batch_steps");

            migrationBuilder.DropTable(
                name: "bottle_checks");

            migrationBuilder.DropTable(
                name: "recipe_steps");

            migrationBuilder.DropTable(
                name: "bottles");

            migrationBuilder.DropTable(
                name: "batches");

            migrationBuilder.DropTable(
                name: "recipes");
        }
    }
}
