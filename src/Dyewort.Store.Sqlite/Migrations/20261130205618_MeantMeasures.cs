using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Dyewort.Store.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class MeantMeasures : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "amount_kitchen",
                table: "recipe_steps",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "amount_least",
                table: "recipe_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "amount_most",
                table: "recipe_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "liquid_said",
                table: "pots",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "plant_said",
                table: "pots",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "amount_kitchen",
                table: "planned_steps",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "amount_least",
                table: "planned_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "amount_most",
                table: "planned_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "measured_kitchen",
                table: "batch_steps",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "measured_least",
                table: "batch_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "measured_most",
                table: "batch_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "planned_kitchen",
                table: "batch_steps",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "planned_least",
                table: "batch_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "planned_most",
                table: "batch_steps",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "amount_kitchen",
                table: "additions",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "amount_least",
                table: "additions",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "amount_most",
                table: "additions",
                type: "REAL",
                nullable: true);

            // What was written until now was meant in the kitchen of the day; in the metric one, what is larger than a cup was a US measure.
            foreach (var (table, amount) in new[]
            {
                ("additions", "amount"),
                ("planned_steps", "amount"),
                ("recipe_steps", "amount"),
                ("batch_steps", "planned"),
                ("batch_steps", "measured"),
            })
            {
                migrationBuilder.Sql(
                    $"""
                    UPDATE {table} SET {amount}_kitchen =
                        CASE WHEN {amount}_unit IN ('FluidOunce', 'Pint', 'Quart', 'Gallon')
                                AND COALESCE((SELECT teaspoon FROM settings LIMIT 1), 'Metric') = 'Metric'
                            THEN 'UsCustomary'
                            ELSE COALESCE((SELECT teaspoon FROM settings LIMIT 1), 'Metric') END
                    WHERE {amount}_spoon IS NULL
                        AND {amount}_unit IN
                            ('Teaspoon', 'Tablespoon', 'Pinch', 'Dash', 'Cup', 'FluidOunce', 'Pint', 'Quart', 'Gallon');
                    """);
            }

            migrationBuilder.AlterColumn<DateOnly>(
                name: "gathered_on",
                table: "plant_lots",
                type: "TEXT",
                nullable: true,
                oldClrType: typeof(DateOnly),
                oldType: "TEXT");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "amount_kitchen",
                table: "recipe_steps");

            migrationBuilder.DropColumn(
                name: "amount_least",
                table: "recipe_steps");

            migrationBuilder.DropColumn(
                name: "amount_most",
                table: "recipe_steps");

            migrationBuilder.DropColumn(
                name: "liquid_said",
                table: "pots");

            migrationBuilder.DropColumn(
                name: "plant_said",
                table: "pots");

            migrationBuilder.DropColumn(
                name: "amount_kitchen",
                table: "planned_steps");

            migrationBuilder.DropColumn(
                name: "amount_least",
                table: "planned_steps");

            migrationBuilder.DropColumn(
                name: "amount_most",
                table: "planned_steps");

            migrationBuilder.DropColumn(
                name: "measured_kitchen",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "measured_least",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "measured_most",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "planned_kitchen",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "planned_least",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "planned_most",
                table: "batch_steps");

            migrationBuilder.DropColumn(
                name: "amount_kitchen",
                table: "additions");

            migrationBuilder.DropColumn(
                name: "amount_least",
                table: "additions");

            migrationBuilder.DropColumn(
                name: "amount_most",
                table: "additions");

            migrationBuilder.AlterColumn<DateOnly>(
                name: "gathered_on",
                table: "plant_lots",
                type: "TEXT",
                nullable: false,
                defaultValue: new DateOnly(1, 1, 1),
                oldClrType: typeof(DateOnly),
                oldType: "TEXT",
                oldNullable: true);
        }
    }
}
