using System.Globalization;
using System.Linq;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Dyewort.Store.Sqlite.Migrations
{
    /// <summary>Takes out of the pantry what was copied into it from the table of common materials: spoonfuls nobody had weighed and
    /// cautions nobody had written. The chemistry tables say both; what was copied stays readable among the corrections.</summary>
    public partial class CopiedTableValues : Migration
    {
        // A spoonful that a maker entered or weighed has another source, even where its figure is the same.
        private static readonly (double Grams, string Source)[] Spoonfuls =
        [
            (4.8, "from memory"),
            (5, "from memory"),
            (6, "from memory"),
            (4.8, "a maker's weighing"),
            (3.5, "from memory"),
            (4.5, "from memory"),
            (3.3, "from memory"),
            (5, "density of water taken"),
            (2.7, "from memory"),
            (2.6, "a trade page"),
            (7.1, "from memory"),
        ];

        private static readonly string[] Cautions =
        [
            "Irritates eyes. Keep the dust down; keep it away from food and children.",
            "Harmful if swallowed; even a little is dangerous for a child. Irritates skin and eyes; stains. Gloves on; lock it away.",
            "Harmful if swallowed; damages eyes; very poisonous to water life. Gloves and eye protection; never down the drain.",
            "Fizzes with anything sour: add it slowly in a tall jar and never close the jar while it fizzes.",
            "Irritates eyes and skin badly. Gloves and eye protection; fizzes with anything sour.",
            "Irritates eyes. Fizzes with soda and chalk.",
            "Fizzes with soda and chalk.",
            "Smarts in eyes and cuts; air the room when it is hot. Never together with bleach.",
            "Foams with anything sour.",
            "Keep the dust down: it can make some people wheeze.",
            "Irritates skin and eyes; harmful if swallowed. A drop at a time.",
            "Irritates eyes.",
        ];

        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            var spoonfuls = string.Join(
                " OR ",
                Spoonfuls.Select(one => string.Create(
                    CultureInfo.InvariantCulture,
                    $"(grams_per_teaspoon = {one.Grams} AND grams_per_teaspoon_source = {Quoted(one.Source)})")));
            Correct(migrationBuilder, "GramsPerTeaspoonSource", "json_quote(grams_per_teaspoon_source)", spoonfuls);
            Correct(migrationBuilder, "GramsPerTeaspoon", "printf('%.15g', grams_per_teaspoon)", spoonfuls);
            migrationBuilder.Sql($"UPDATE materials SET grams_per_teaspoon = NULL, grams_per_teaspoon_source = NULL WHERE {spoonfuls};");

            var cautions = $"caution IN ({string.Join(", ", Cautions.Select(Quoted))})";
            Correct(migrationBuilder, "Caution", "json_quote(caution)", cautions);
            migrationBuilder.Sql($"UPDATE materials SET caution = NULL WHERE {cautions};");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            // What was copied can be read among the corrections; putting it back would make it the maker's.
        }

        /// <summary>What a correction by hand would have kept: field, before, after, and both times.</summary>
        private static void Correct(MigrationBuilder migrationBuilder, string field, string before, string where) =>
            migrationBuilder.Sql(
                $"""
                INSERT INTO corrections (id, entry_kind, entry_id, field, before, after, before_written_at, corrected_at)
                SELECT
                    printf('%s-%s-4%s-8%s-%s', hex(randomblob(4)), hex(randomblob(2)), substr(hex(randomblob(2)), 2),
                        substr(hex(randomblob(2)), 2), hex(randomblob(6))),
                    'Material', id, '{field}', {before}, 'null',
                    coalesce(
                        (SELECT max(c.corrected_at) FROM corrections c WHERE c.entry_id = materials.id AND c.field = '{field}'),
                        written_at),
                    strftime('%Y-%m-%dT%H:%M:%f', 'now') || '0000Z'
                FROM materials WHERE {where};
                """);

        private static string Quoted(string text) => $"'{text.Replace("'", "''", System.StringComparison.Ordinal)}'";
    }
}
