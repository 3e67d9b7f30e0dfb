using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Dyewort.Store.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Amounts : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.RenameColumn(
                name: "ml",
                table: "recipe_steps",
                newName: "amount_ml");

            migrationBuilder.RenameColumn(
                name: "grams",
                table: "recipe_steps",
                newName: "amount_grams");

            migrationBuilder.RenameColumn(
                name: "ml",
                table: "additions",
                newName: "amount_ml");

            migrationBuilder.RenameColumn(
                name: "grams",
                table: "additions",
                newName: "amount_grams");

            migrationBuilder.RenameColumn(
                name: "amount_value",
                table: "additions",
                newName: "amount_number");

            migrationBuilder.AddColumn<string>(
                name: "amount_counted",
                table: "recipe_steps",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "amount_grams_high",
                table: "recipe_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "amount_grams_low",
                table: "recipe_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "amount_number",
                table: "recipe_steps",
                type: "REAL",
                nullable: false,
                defaultValue: 0.0);

            migrationBuilder.AddColumn<string>(
                name: "amount_spoon",
                table: "recipe_steps",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "amount_unit",
                table: "recipe_steps",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "measured_counted",
                table: "batch_steps",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "measured_grams_high",
                table: "batch_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "measured_grams_low",
                table: "batch_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "measured_number",
                table: "batch_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "measured_spoon",
                table: "batch_steps",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "measured_unit",
                table: "batch_steps",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "planned_counted",
                table: "batch_steps",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "planned_grams_high",
                table: "batch_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "planned_grams_low",
                table: "batch_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "planned_number",
                table: "batch_steps",
                type: "REAL",
                nullable: false,
                defaultValue: 0.0);

            migrationBuilder.AddColumn<string>(
                name: "planned_spoon",
                table: "batch_steps",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "planned_unit",
                table: "batch_steps",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "amount_counted",
                table: "additions",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "amount_grams_high",
                table: "additions",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "amount_grams_low",
                table: "additions",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "amount_spoon",
                table: "additions",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "planned_steps",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    sample_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    material_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    step = table.Column<int>(type: "INTEGER", nullable: false),
                    amount_counted = table.Column<string>(type: "TEXT", nullable: true),
                    amount_grams = table.Column<double>(type: "REAL", nullable: true),
                    amount_grams_high = table.Column<double>(type: "REAL", nullable: true),
                    amount_grams_low = table.Column<double>(type: "REAL", nullable: true),
                    amount_ml = table.Column<double>(type: "REAL", nullable: true),
                    amount_number = table.Column<double>(type: "REAL", nullable: false),
                    amount_spoon = table.Column<string>(type: "TEXT", nullable: true),
                    amount_text = table.Column<string>(type: "TEXT", nullable: false),
                    amount_unit = table.Column<string>(type: "TEXT", nullable: false),
                    written_at = table.Column<string>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<string>(type: "TEXT", nullable: true),
                    withdrawn_why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_planned_steps", x => x.id);
                    table.ForeignKey(
                        name: "FK_planned_steps_materials_material_id",
                        column: x => x.material_id,
                        principalTable: "materials",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_planned_steps_samples_sample_id",
                        column: x => x.sample_id,
                        principalTable: "samples",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_planned_steps_material_id",
                table: "planned_steps",
                column: "material_id");

            migrationBuilder.CreateIndex(
                name: "IX_planned_steps_sample_id_step",
                table: "planned_steps",
                columns: new[] { "sample_id", "step" },
                unique: true);

            Carry(migrationBuilder);

            migrationBuilder.DropColumn(
                name: "permission",
                table: "plant_lots");
        }

        /// <summary>What earlier notebooks said in words: amounts, plans, covered halves, leave to gather. OldWords reads them.</summary>
        private static void Carry(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql(
                """
                UPDATE additions SET amount_unit = old_amount_unit(amount_text), amount_counted = old_amount_counted(amount_text),
                    amount_spoon = old_amount_spoon(amount_text)
                WHERE old_amount_unit(amount_text) IS NOT NULL;

                UPDATE additions SET amount_unit = 'Gram', amount_number = coalesce(amount_grams, 0)
                WHERE old_amount_unit(amount_text) IS NULL;

                UPDATE recipe_steps SET amount_number = coalesce(old_amount_number(amount_text), amount_grams, 0),
                    amount_unit = coalesce(old_amount_unit(amount_text), 'Gram'), amount_counted = old_amount_counted(amount_text),
                    amount_spoon = old_amount_spoon(amount_text);

                UPDATE batch_steps SET planned_number = coalesce(old_amount_number(planned_text), planned_grams, 0),
                    planned_unit = coalesce(old_amount_unit(planned_text), 'Gram'), planned_counted = old_amount_counted(planned_text),
                    planned_spoon = old_amount_spoon(planned_text);

                UPDATE batch_steps SET measured_number = coalesce(old_amount_number(measured_text), measured_grams, 0),
                    measured_unit = coalesce(old_amount_unit(measured_text), 'Gram'), measured_counted = old_amount_counted(measured_text),
                    measured_spoon = old_amount_spoon(measured_text)
                WHERE measured_text IS NOT NULL;
                """);

            // A material may have been given another name since; the corrections know the one that it had.
            migrationBuilder.Sql(
                """
                WITH named AS (
                    SELECT name, id, 0 AS rank FROM materials WHERE withdrawn_at IS NULL
                    UNION ALL
                    SELECT json_extract(before, '$'), entry_id, 1 FROM corrections WHERE entry_kind = 'Material' AND field = 'Name'),
                planned AS (
                    SELECT s.id AS sample_id, s.written_at, step.key + 1 AS step, json_extract(step.value, '$.amount') AS amount,
                        (SELECT named.id FROM named WHERE named.name = json_extract(step.value, '$.material') COLLATE NOCASE
                            ORDER BY named.rank LIMIT 1) AS material_id
                    FROM samples s, json_each(old_plan(s.said, (SELECT json_group_array(name) FROM named))) step)
                INSERT INTO planned_steps (id, written_at, sample_id, material_id, step, amount_text, amount_number, amount_unit,
                    amount_counted, amount_spoon, amount_grams)
                SELECT new_id(), written_at, sample_id, material_id, step, amount, old_amount_number(amount), old_amount_unit(amount),
                    old_amount_counted(amount), old_amount_spoon(amount), old_amount_grams(amount)
                FROM planned WHERE old_amount_unit(amount) IS NOT NULL;

                UPDATE samples SET said = NULL
                WHERE said = 'to add: nothing' OR (said LIKE 'to mix: %' AND mixed_with_id IS NOT NULL)
                    OR (said LIKE 'to add: %' AND id IN (SELECT sample_id FROM planned_steps));

                UPDATE photos SET reading_json = old_reading(reading_json) WHERE covered IS NOT NULL AND reading_json IS NOT NULL;
                """);

            migrationBuilder.Sql(
                """
                UPDATE lot_sheets SET leave_from = coalesce(leave_from || ', ', '')
                    || (SELECT permission FROM plant_lots WHERE plant_lots.id = lot_sheets.lot_id)
                WHERE lot_id IN (SELECT id FROM plant_lots WHERE permission IS NOT NULL);

                INSERT INTO lot_sheets (id, written_at, lot_id, bought, leave_from, leave_written)
                SELECT new_id(), written_at, id, 0, permission, 0 FROM plant_lots
                WHERE permission IS NOT NULL AND id NOT IN (SELECT lot_id FROM lot_sheets);
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "planned_steps");

            migrationBuilder.DropColumn(
                name: "amount_counted",
                table: "recipe_steps");

            migrationBuilder.DropColumn(
                name: "amount_grams_high",
                table: "recipe_steps");

            migrationBuilder.DropColumn(
                name: "amount_grams_low",
                table: "recipe_steps");

            migrationBuilder.DropColumn(
                name: "amount_number",
                table: "recipe_steps");

            migrationBuilder.DropColumn(
                name: "amount_spoon",
                table: "recipe_steps");

            migrationBuilder.DropColumn(
                name: "amount_unit",
                table: "recipe_steps");

            migrationBuilder.DropColumn(
                name: "measured_counted",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "measured_grams_high",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "measured_grams_low",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "measured_number",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "measured_spoon",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "measured_unit",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "planned_counted",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "planned_grams_high",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "planned_grams_low",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "planned_number",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "planned_spoon",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "planned_unit",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "amount_counted",
                table: "additions");

            migrationBuilder.DropColumn(
                name: "amount_grams_high",
                table: "additions");

            migrationBuilder.DropColumn(
                name: "amount_grams_low",
                table: "additions");

            migrationBuilder.DropColumn(
                name: "amount_spoon",
                table: "additions");

            migrationBuilder.RenameColumn(
                name: "amount_ml",
                table: "recipe_steps",
                newName: "ml");

            migrationBuilder.RenameColumn(
                name: "amount_grams",
                table: "recipe_steps",
                newName: "grams");

            migrationBuilder.RenameColumn(
                name: "amount_ml",
                table: "additions",
                newName: "ml");

            migrationBuilder.RenameColumn(
                name: "amount_grams",
                table: "additions",
                newName: "grams");

            migrationBuilder.RenameColumn(
                name: "amount_number",
                table: "additions",
                newName: "amount_value");

            migrationBuilder.AddColumn<string>(
                name: "permission",
                table: "plant_lots",
                type: "TEXT",
                nullable: true);
        }
    }
}
