using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Dyewort.Store.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Initial : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "corrections",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    entry_kind = table.Column<string>(type: "TEXT", nullable: false),
                    entry_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    field = table.Column<string>(type: "TEXT", nullable: false),
                    before = table.Column<string>(type: "TEXT", nullable: false),
                    after = table.Column<string>(type: "TEXT", nullable: false),
                    before_written_at = table.Column<string>(type: "TEXT", nullable: false),
                    corrected_at = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_corrections", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "materials",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", nullable: false),
                    substance = table.Column<string>(type: "TEXT", nullable: true),
                    strength_percent = table.Column<double>(type: "REAL", nullable: true),
                    grams_per_teaspoon = table.Column<double>(type: "REAL", nullable: true),
                    grams_per_teaspoon_source = table.Column<string>(type: "TEXT", nullable: true),
                    grams_per_piece = table.Column<double>(type: "REAL", nullable: true),
                    unit_price = table.Column<double>(type: "REAL", nullable: true),
                    stock = table.Column<double>(type: "REAL", nullable: true),
                    stock_unit = table.Column<string>(type: "TEXT", nullable: true),
                    caution = table.Column<string>(type: "TEXT", nullable: true),
                    letters = table.Column<string>(type: "TEXT", nullable: true),
                    holds_ml = table.Column<double>(type: "REAL", nullable: true),
                    grams_per_square_metre = table.Column<double>(type: "REAL", nullable: true),
                    bare_colour = table.Column<string>(type: "TEXT", nullable: true),
                    note = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_materials", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "plant_lots",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    plant_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    gathered_on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    place = table.Column<string>(type: "TEXT", nullable: true),
                    permission = table.Column<string>(type: "TEXT", nullable: true),
                    part = table.Column<string>(type: "TEXT", nullable: true),
                    condition = table.Column<string>(type: "TEXT", nullable: true),
                    grams = table.Column<double>(type: "REAL", nullable: true),
                    note = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_plant_lots", x => x.id);
                    table.ForeignKey(
                        name: "FK_plant_lots_materials_plant_id",
                        column: x => x.plant_id,
                        principalTable: "materials",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "pots",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    code = table.Column<string>(type: "TEXT", nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    made_on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    plant_grams = table.Column<double>(type: "REAL", nullable: true),
                    liquid = table.Column<string>(type: "TEXT", nullable: true),
                    liquid_ml = table.Column<double>(type: "REAL", nullable: true),
                    vessel = table.Column<string>(type: "TEXT", nullable: true),
                    how = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_pots", x => x.id);
                    table.ForeignKey(
                        name: "FK_pots_plant_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "plant_lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "pot_log",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    pot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<string>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", nullable: false),
                    celsius = table.Column<double>(type: "REAL", nullable: true),
                    ph = table.Column<double>(type: "REAL", nullable: true),
                    ml = table.Column<double>(type: "REAL", nullable: true),
                    said = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_pot_log", x => x.id);
                    table.ForeignKey(
                        name: "FK_pot_log_pots_pot_id",
                        column: x => x.pot_id,
                        principalTable: "pots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "trials",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    pot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    letter = table.Column<string>(type: "TEXT", nullable: false),
                    title = table.Column<string>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", nullable: false),
                    set_out_on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_trials", x => x.id);
                    table.ForeignKey(
                        name: "FK_trials_pots_pot_id",
                        column: x => x.pot_id,
                        principalTable: "pots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "charts",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    trial_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    paper_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    title = table.Column<string>(type: "TEXT", nullable: false),
                    layout_json = table.Column<string>(type: "TEXT", nullable: false),
                    page = table.Column<string>(type: "TEXT", nullable: false),
                    painted_on = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_charts", x => x.id);
                    table.ForeignKey(
                        name: "FK_charts_materials_paper_id",
                        column: x => x.paper_id,
                        principalTable: "materials",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_charts_trials_trial_id",
                        column: x => x.trial_id,
                        principalTable: "trials",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "samples",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    pot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    trial_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    parent_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    jar = table.Column<string>(type: "TEXT", nullable: false),
                    volume_ml = table.Column<double>(type: "REAL", nullable: false),
                    poured_at = table.Column<string>(type: "TEXT", nullable: false),
                    said = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_samples", x => x.id);
                    table.ForeignKey(
                        name: "FK_samples_pots_pot_id",
                        column: x => x.pot_id,
                        principalTable: "pots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_samples_samples_parent_id",
                        column: x => x.parent_id,
                        principalTable: "samples",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_samples_trials_trial_id",
                        column: x => x.trial_id,
                        principalTable: "trials",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "photos",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    sha256 = table.Column<string>(type: "TEXT", nullable: false),
                    extension = table.Column<string>(type: "TEXT", nullable: false),
                    chart_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    subject_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    taken_at = table.Column<string>(type: "TEXT", nullable: false),
                    state = table.Column<string>(type: "TEXT", nullable: true),
                    reading_json = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_photos", x => x.id);
                    table.ForeignKey(
                        name: "FK_photos_charts_chart_id",
                        column: x => x.chart_id,
                        principalTable: "charts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "additions",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    sample_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    material_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    step = table.Column<int>(type: "INTEGER", nullable: false),
                    at = table.Column<string>(type: "TEXT", nullable: false),
                    amount_text = table.Column<string>(type: "TEXT", nullable: false),
                    amount_value = table.Column<double>(type: "REAL", nullable: false),
                    amount_unit = table.Column<string>(type: "TEXT", nullable: false),
                    grams = table.Column<double>(type: "REAL", nullable: true),
                    ml = table.Column<double>(type: "REAL", nullable: true),
                    seen = table.Column<string>(type: "TEXT", nullable: true),
                    ph = table.Column<double>(type: "REAL", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_additions", x => x.id);
                    table.ForeignKey(
                        name: "FK_additions_materials_material_id",
                        column: x => x.material_id,
                        principalTable: "materials",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_additions_samples_sample_id",
                        column: x => x.sample_id,
                        principalTable: "samples",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "swatches",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    chart_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    cell = table.Column<string>(type: "TEXT", nullable: false),
                    sample_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    paper_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    coats = table.Column<int>(type: "INTEGER", nullable: false),
                    wash = table.Column<double>(type: "REAL", nullable: false),
                    said = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_swatches", x => x.id);
                    table.ForeignKey(
                        name: "FK_swatches_charts_chart_id",
                        column: x => x.chart_id,
                        principalTable: "charts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_swatches_materials_paper_id",
                        column: x => x.paper_id,
                        principalTable: "materials",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_swatches_samples_sample_id",
                        column: x => x.sample_id,
                        principalTable: "samples",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "readings",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    swatch_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<string>(type: "TEXT", nullable: false),
                    state = table.Column<string>(type: "TEXT", nullable: false),
                    colour = table.Column<string>(type: "TEXT", nullable: false),
                    uncertainty_de00 = table.Column<double>(type: "REAL", nullable: false),
                    source = table.Column<string>(type: "TEXT", nullable: false),
                    photo_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    polygon_json = table.Column<string>(type: "TEXT", nullable: true),
                    method = table.Column<string>(type: "TEXT", nullable: true),
                    warnings = table.Column<string>(type: "TEXT", nullable: true),
                    corrects_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_readings", x => x.id);
                    table.ForeignKey(
                        name: "FK_readings_photos_photo_id",
                        column: x => x.photo_id,
                        principalTable: "photos",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_readings_readings_corrects_id",
                        column: x => x.corrects_id,
                        principalTable: "readings",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_readings_swatches_swatch_id",
                        column: x => x.swatch_id,
                        principalTable: "swatches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_additions_material_id",
                table: "additions",
                column: "material_id");

            migrationBuilder.CreateIndex(
                name: "IX_additions_sample_id_step",
                table: "additions",
                columns: new[] { "sample_id", "step" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_charts_number",
                table: "charts",
                column: "number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_charts_paper_id",
                table: "charts",
                column: "paper_id");

            migrationBuilder.CreateIndex(
                name: "IX_charts_trial_id",
                table: "charts",
                column: "trial_id");

            migrationBuilder.CreateIndex(
                name: "IX_corrections_entry_id_field",
                table: "corrections",
                columns: new[] { "entry_id", "field" });

            migrationBuilder.CreateIndex(
                name: "IX_materials_name",
                table: "materials",
                column: "name");

            migrationBuilder.CreateIndex(
                name: "IX_photos_chart_id",
                table: "photos",
                column: "chart_id");

            migrationBuilder.CreateIndex(
                name: "IX_photos_sha256",
                table: "photos",
                column: "sha256");

            migrationBuilder.CreateIndex(
                name: "IX_plant_lots_plant_id",
                table: "plant_lots",
                column: "plant_id");

            migrationBuilder.CreateIndex(
                name: "IX_pot_log_pot_id",
                table: "pot_log",
                column: "pot_id");

            migrationBuilder.CreateIndex(
                name: "IX_pots_code",
                table: "pots",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_pots_lot_id",
                table: "pots",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "IX_readings_corrects_id",
                table: "readings",
                column: "corrects_id");

            migrationBuilder.CreateIndex(
                name: "IX_readings_photo_id",
                table: "readings",
                column: "photo_id");

            migrationBuilder.CreateIndex(
                name: "IX_readings_swatch_id",
                table: "readings",
                column: "swatch_id");

            migrationBuilder.CreateIndex(
                name: "IX_samples_parent_id",
                table: "samples",
                column: "parent_id");

            migrationBuilder.CreateIndex(
                name: "IX_samples_pot_id_jar",
                table: "samples",
                columns: new[] { "pot_id", "jar" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_samples_trial_id",
                table: "samples",
                column: "trial_id");

            migrationBuilder.CreateIndex(
                name: "IX_swatches_chart_id_cell",
                table: "swatches",
                columns: new[] { "chart_id", "cell" });

            migrationBuilder.CreateIndex(
                name: "IX_swatches_paper_id",
                table: "swatches",
                column: "paper_id");

            migrationBuilder.CreateIndex(
                name: "IX_swatches_sample_id",
                table: "swatches",
                column: "sample_id");

            migrationBuilder.CreateIndex(
                name: "IX_trials_pot_id_letter",
                table: "trials",
                columns: new[] { "pot_id", "letter" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "additions");

            migrationBuilder.DropTable(
                name: "corrections");

            migrationBuilder.DropTable(
                name: "pot_log");

            migrationBuilder.DropTable(
                name: "readings");

            migrationBuilder.DropTable(
                name: "photos");

            migrationBuilder.DropTable(
                name: "swatches");

            migrationBuilder.DropTable(
                name: "charts");

            migrationBuilder.DropTable(
                name: "samples");

            migrationBuilder.DropTable(
                name: "trials");

            migrationBuilder.DropTable(
                name: "pots");

            migrationBuilder.DropTable(
                name: "plant_lots");

            migrationBuilder.DropTable(
                name: "materials");
        }
    }
}
