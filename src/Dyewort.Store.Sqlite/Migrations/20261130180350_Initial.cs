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
                name: "house_strips",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    columns = table.Column<int>(type: "INTEGER", nullable: false),
                    rows = table.Column<int>(type: "INTEGER", nullable: false),
                    patches = table.Column<string>(type: "TEXT", nullable: false),
                    is_card = table.Column<bool>(type: "INTEGER", nullable: false),
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
                    bare_uncertainty_de00 = table.Column<double>(type: "REAL", nullable: true),
                    bare_method = table.Column<string>(type: "TEXT", nullable: true),
                    bare_measured_on = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    printed_black_percent = table.Column<double>(type: "REAL", nullable: true),
                    printed_black_method = table.Column<string>(type: "TEXT", nullable: true),
                    paper_kind = table.Column<string>(type: "TEXT", nullable: true),
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
                name: "settings",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    teaspoon = table.Column<string>(type: "TEXT", nullable: false),
                    currency = table.Column<string>(type: "TEXT", nullable: true),
                    maker = table.Column<string>(type: "TEXT", nullable: true),
                    place = table.Column<string>(type: "TEXT", nullable: true),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_settings", x => x.id);
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
                    mixed_with_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    mixed_ml = table.Column<double>(type: "REAL", nullable: true),
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
                        name: "FK_samples_samples_mixed_with_id",
                        column: x => x.mixed_with_id,
                        principalTable: "samples",
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
                    source = table.Column<string>(type: "TEXT", nullable: false, defaultValue: "Photo"),
                    width_px = table.Column<int>(type: "INTEGER", nullable: true),
                    height_px = table.Column<int>(type: "INTEGER", nullable: true),
                    paper_colour = table.Column<string>(type: "TEXT", nullable: true),
                    placing_json = table.Column<string>(type: "TEXT", nullable: true),
                    why_not_read = table.Column<string>(type: "TEXT", nullable: true),
                    covered = table.Column<string>(type: "TEXT", nullable: true),
                    exposed_hours = table.Column<double>(type: "REAL", nullable: true),
                    exposed_to = table.Column<string>(type: "TEXT", nullable: true),
                    strip_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    strip_corners_json = table.Column<string>(type: "TEXT", nullable: true),
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
                    table.ForeignKey(
                        name: "FK_photos_house_strips_strip_id",
                        column: x => x.strip_id,
                        principalTable: "house_strips",
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
                    exposed_hours = table.Column<double>(type: "REAL", nullable: true),
                    exposed_to = table.Column<string>(type: "TEXT", nullable: true),
                    measured_with = table.Column<string>(type: "TEXT", nullable: true),
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
                name: "IX_additions_material_id",
                table: "additions",
                column: "material_id");

            migrationBuilder.CreateIndex(
                name: "IX_additions_sample_id_step",
                table: "additions",
                columns: new[] { "sample_id", "step" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_batch_liquors_batch_id",
                table: "batch_liquors",
                column: "batch_id");

            migrationBuilder.CreateIndex(
                name: "IX_batch_liquors_pot_id",
                table: "batch_liquors",
                column: "pot_id");

            migrationBuilder.CreateIndex(
                name: "IX_batch_readings_batch_id",
                table: "batch_readings",
                column: "batch_id");

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
                name: "IX_lot_sheets_lot_id",
                table: "lot_sheets",
                column: "lot_id",
                unique: true);

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
                name: "IX_photos_strip_id",
                table: "photos",
                column: "strip_id");

            migrationBuilder.CreateIndex(
                name: "IX_plant_lots_plant_id",
                table: "plant_lots",
                column: "plant_id");

            migrationBuilder.CreateIndex(
                name: "IX_pot_drops_pot_id",
                table: "pot_drops",
                column: "pot_id");

            migrationBuilder.CreateIndex(
                name: "IX_pot_log_pot_id",
                table: "pot_log",
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

            migrationBuilder.CreateIndex(
                name: "IX_samples_mixed_with_id",
                table: "samples",
                column: "mixed_with_id");

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
                name: "batch_liquors");

            migrationBuilder.DropTable(
                name: "batch_readings");

            migrationBuilder.DropTable(
                name: "batch_steps");

            migrationBuilder.DropTable(
                name: "bottle_checks");

            migrationBuilder.DropTable(
                name: "corrections");

            migrationBuilder.DropTable(
                name: "lot_sheets");

            migrationBuilder.DropTable(
                name: "pot_drops");

            migrationBuilder.DropTable(
                name: "pot_log");

            migrationBuilder.DropTable(
                name: "pot_sheets");

            migrationBuilder.DropTable(
                name: "pot_timers");

            migrationBuilder.DropTable(
                name: "readings");

            migrationBuilder.DropTable(
                name: "recipe_steps");

            migrationBuilder.DropTable(
                name: "settings");

            migrationBuilder.DropTable(
                name: "bottles");

            migrationBuilder.DropTable(
                name: "photos");

            migrationBuilder.DropTable(
                name: "batches");

            migrationBuilder.DropTable(
                name: "house_strips");

            migrationBuilder.DropTable(
                name: "recipes");

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
