using System.Globalization;
using System.Text;
using Dyewort.Quantities;

namespace Dyewort.Colour;

/// <summary>A CGATS.17 text file: reference cards, spectra, what instruments export.</summary>
/// <param name="Kind">The first line's identifier, such as CGATS.17 or IT8.7/2; empty where there is none.</param>
/// <param name="Tables">At least one.</param>
/// <param name="Warnings">What was odd and read all the same.</param>
/// <remarks><para>Read tolerantly: any identifier or none, a byte order mark, any line ends, comments after #, tabs or blanks or semicolons
/// between values, quoted texts with doubled quotes, decimal commas, field lists and samples broken over lines, wrong or missing counts
/// (told as warnings), several tables. Refused with line number: text where a number belongs in a colour field, values that do not
/// fill whole samples, a list of fields or data that never ends, no data at all. Source: ANSI CGATS.17 [CGATS.17].</para></remarks>
public sealed record Cgats(string Kind, IReadOnlyList<CgatsTable> Tables, IReadOnlyList<string> Warnings)
{
    private const int LongestText = 20_000_000;
    private static readonly string[] NumberPrefixes = ["LAB_", "LCH_", "XYZ_", "XYY_", "SPECTRAL", "NM", "RGB_", "CMYK_", "D_"];

    /// <summary>Reads a file's text.</summary>
    /// <param name="field">The field or option to name in a refusal.</param>
    /// <param name="text">The whole text.</param>
    public static Outcome<Cgats> Parse(string field, string? text)
    {
        if (string.IsNullOrWhiteSpace(text))
            return Outcome.Refused<Cgats>(field, "The file is empty.", "Give a CGATS.17 text file.");
        return text.Length > LongestText
            ? Outcome.Refused<Cgats>(field, "The file is too long for a table of colours.", "Give a CGATS.17 text file.")
            : new Reader(field, text).Read();
    }

    /// <summary>The file as text, with counts that are right and quotes where they are needed.</summary>
    public string Write()
    {
        var text = new StringBuilder();
        text.Append(Kind.Length > 0 ? Kind : "CGATS.17").Append('\n');
        foreach (var table in Tables)
        {
            foreach (var (key, value) in table.Properties)
                text.Append(key)
                    .Append(value.Length > 0 ? " " : "")
                    .Append(value.Length > 0 ? Quoted(value, always: !IsNumber(value)) : "")
                    .Append('\n');
            text.Append(
                CultureInfo.InvariantCulture,
                $"NUMBER_OF_FIELDS {table.Fields.Count}\nBEGIN_DATA_FORMAT\n{string.Join('\t', table.Fields)}\nEND_DATA_FORMAT\n"
            );
            text.Append(CultureInfo.InvariantCulture, $"NUMBER_OF_SETS {table.Samples.Count}\nBEGIN_DATA\n");
            foreach (var sample in table.Samples)
                text.AppendJoin('\t', sample.Select(value => Quoted(value, always: false))).Append('\n');
            text.Append("END_DATA\n");
        }

        return text.ToString();
    }

    /// <summary>A table of colours for other programs: CIELAB under D50, as the trade expects.</summary>
    /// <param name="colours">Names and colours under D65.</param>
    /// <param name="description">What the table holds.</param>
    public static Cgats OfColours(IEnumerable<(string Id, Xyz Colour)> colours, string description)
    {
        ArgumentNullException.ThrowIfNull(colours);
        static string Number(double value) =>
            (Math.Round(value, 4) is var rounded && rounded == 0 ? 0 : Math.Round(value, 4)).ToString(
                "0.####",
                CultureInfo.InvariantCulture
            );
        KeyValuePair<string, string>[] properties =
        [
            new("DESCRIPTOR", description),
            new("WEIGHTING_FUNCTION", "ILLUMINANT,D50"),
            new("WEIGHTING_FUNCTION", "OBSERVER,2 degree"),
        ];
        var samples = colours
            .Select(pair => (pair.Id, Lab: Lab.FromXyz(Adaptation.ToD50(pair.Colour), WhitePoint.D50)))
            .Select(pair => (IReadOnlyList<string>)[pair.Id, Number(pair.Lab.L), Number(pair.Lab.A), Number(pair.Lab.B)]);
        return new("CGATS.17", [new(properties, ["SAMPLE_ID", "LAB_L", "LAB_A", "LAB_B"], [.. samples])], []);
    }

    private static bool IsNumber(string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out _);

    private static string Quoted(string value, bool always) =>
        always || value.Length == 0 || value.IndexOfAny([' ', '\t', '"', '#', ';', ',']) >= 0
            ? $"\"{value.Replace("\"", "\"\"", StringComparison.Ordinal).ReplaceLineEndings(" ")}\""
            : value;

    private readonly record struct Token(string Text, int Line, bool First, bool Quoted);

    private sealed class Reader(string field, string text)
    {
        private readonly List<CgatsTable> tables = [];
        private readonly List<string> warnings = [];
        private List<KeyValuePair<string, string>> properties = [];
        private List<string> fields = [];

        public Outcome<Cgats> Read()
        {
            if (Tokens() is not { } tokens)
                return Refuse(1, "holds a character that no text file has", "Save it as plain text.");
            var kind = "";
            var place = 0;
            if (tokens.Count > 0 && !IsKeyword(tokens[0].Text) && (tokens.Count == 1 || tokens[1].Line > tokens[0].Line || tokens[1].First))
                kind = tokens[place++].Text;
            while (place < tokens.Count)
            {
                var token = tokens[place];
                var word = token.Text.ToUpperInvariant();
                if (word == "BEGIN_DATA_FORMAT")
                {
                    var end = Find(tokens, place, "END_DATA_FORMAT");
                    if (end < 0)
                        return Refuse(token.Line, "begins a list of fields that never ends", "Close it with END_DATA_FORMAT.");
                    fields = [.. tokens.Skip(place + 1).Take(end - place - 1).Select(one => one.Text)];
                    if (fields.Count == 0)
                        return Refuse(token.Line, "begins an empty list of fields", "Name them, such as SAMPLE_ID LAB_L LAB_A LAB_B.");
                    if (
                        fields.GroupBy(name => name, StringComparer.OrdinalIgnoreCase).FirstOrDefault(group => group.Count() > 1) is
                        { } twice
                    )
                        return Refuse(token.Line, $"names the field {twice.Key} twice", "Give every field a name of its own.");
                    Expect("NUMBER_OF_FIELDS", fields.Count, "fields");
                    place = end + 1;
                }
                else if (word == "BEGIN_DATA")
                {
                    var end = Find(tokens, place, "END_DATA");
                    if (end < 0)
                        return Refuse(
                            token.Line,
                            "begins data that never end",
                            "The file seems cut off; get it whole, or close it with END_DATA."
                        );
                    if (Table(tokens, place, end) is { } refused)
                        return refused;
                    place = end + 1;
                }
                else
                {
                    place = Property(tokens, place);
                }
            }

            return tables.Count > 0
                ? Outcome.Of(new Cgats(kind, tables, warnings))
                : Outcome.Refused<Cgats>(
                    field,
                    "The file holds no data between BEGIN_DATA and END_DATA.",
                    "Give a CGATS.17 text file, such as a reference card's."
                );
        }

        private static bool IsKeyword(string word) =>
            word.Equals("BEGIN_DATA_FORMAT", StringComparison.OrdinalIgnoreCase)
            || word.Equals("BEGIN_DATA", StringComparison.OrdinalIgnoreCase)
            || word.StartsWith("NUMBER_OF_", StringComparison.OrdinalIgnoreCase);

        private static int Find(List<Token> tokens, int from, string word) =>
            tokens.FindIndex(from, token => !token.Quoted && token.Text.Equals(word, StringComparison.OrdinalIgnoreCase));

        private Outcome<Cgats> Refuse(int line, string what, string remedy) =>
            Outcome.Refused<Cgats>(field, string.Create(CultureInfo.InvariantCulture, $"Line {line} {what}."), remedy);

        private int Property(List<Token> tokens, int place)
        {
            var key = tokens[place++];
            var values = new List<string>();
            while (place < tokens.Count && tokens[place].Line == key.Line && !tokens[place].First)
                values.Add(tokens[place++].Text);
            // KEYWORD only announces that a name is about to be used.
            if (!key.Text.Equals("KEYWORD", StringComparison.OrdinalIgnoreCase))
                properties.Add(new(key.Text, string.Join(' ', values)));
            return place;
        }

        private void Expect(string keyword, int count, string what)
        {
            var said = properties.FindLast(property => property.Key.Equals(keyword, StringComparison.OrdinalIgnoreCase)).Value;
            if (said is not null && int.TryParse(said, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number != count)
                warnings.Add(string.Create(CultureInfo.InvariantCulture, $"The file says it has {number} {what}, and has {count}."));
            properties.RemoveAll(property => property.Key.Equals(keyword, StringComparison.OrdinalIgnoreCase));
        }

        private Outcome<Cgats>? Table(List<Token> tokens, int begin, int end)
        {
            if (fields.Count == 0)
                return Refuse(
                    tokens[begin].Line,
                    "begins data before any list of fields",
                    "Put BEGIN_DATA_FORMAT … END_DATA_FORMAT before it."
                );
            var values = tokens.GetRange(begin + 1, end - begin - 1);
            if (values.Count == 0)
                return Refuse(tokens[begin].Line, "begins data, and there are none", "Give at least one sample.");
            if (values.Count % fields.Count != 0)
            {
                var odd = values.GroupBy(value => value.Line).FirstOrDefault(line => line.Count() != fields.Count);
                return Refuse(
                    odd?.Key ?? tokens[begin].Line,
                    $"has {odd?.Count() ?? values.Count} values where there are {fields.Count} fields",
                    "Every sample needs one value for each field."
                );
            }

            var comma = !values.Any(value => !value.Quoted && value.Text.Contains('.', StringComparison.Ordinal) && Plain(value.Text));
            var samples = new List<IReadOnlyList<string>>(values.Count / fields.Count);
            for (var start = 0; start < values.Count; start += fields.Count)
            {
                var sample = new string[fields.Count];
                for (var column = 0; column < fields.Count; column++)
                {
                    var value = values[start + column];
                    var numeric = NumberPrefixes.Any(prefix => fields[column].StartsWith(prefix, StringComparison.OrdinalIgnoreCase));
                    var plain = numeric && comma ? value.Text.Replace(',', '.') : value.Text;
                    if (
                        numeric
                        && !(
                            double.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
                            && double.IsFinite(number)
                        )
                    )
                        return Refuse(
                            value.Line,
                            $"has “{(value.Text.Length > 40 ? value.Text[..40] + "…" : value.Text)}” in {fields[column]}",
                            "A number belongs there; leave samples without a colour out."
                        );
                    sample[column] = plain;
                }

                samples.Add(sample);
            }

            Expect("NUMBER_OF_SETS", samples.Count, "samples");
            tables.Add(new(properties, fields, samples));
            properties = [];
            return null;
        }

        private static bool Plain(string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out _);

        /// <summary>Words of the file with their lines; null where there is a zero character, as in pictures and archives.</summary>
        private List<Token>? Tokens()
        {
            var tokens = new List<Token>();
            var line = 1;
            var first = true;
            var at = text[0] == '\uFEFF' ? 1 : 0;
            while (at < text.Length)
            {
                var letter = text[at];
                if (letter == '\0')
                    return null;
                if (letter is '\n' or '\r')
                {
                    if (letter == '\r' && at + 1 < text.Length && text[at + 1] == '\n')
                        at++;
                    (line, first, at) = (line + 1, true, at + 1);
                }
                else if (letter is ' ' or '\t' or ';')
                {
                    at++;
                }
                else if (letter == '#')
                {
                    while (at < text.Length && text[at] is not ('\n' or '\r'))
                        at++;
                }
                else if (letter == '"')
                {
                    var word = new StringBuilder();
                    at++;
                    while (at < text.Length && text[at] is not ('\n' or '\r'))
                    {
                        if (text[at] == '"' && at + 1 < text.Length && text[at + 1] == '"')
                            word.Append(text[at++]);
                        else if (text[at] == '"')
                            break;
                        else
                            word.Append(text[at]);
                        at++;
                    }

                    if (at < text.Length && text[at] == '"')
                        at++;
                    tokens.Add(new(word.ToString(), line, first, Quoted: true));
                    first = false;
                }
                else
                {
                    var start = at;
                    while (at < text.Length && text[at] is not (' ' or '\t' or ';' or '\n' or '\r' or '\0'))
                        at++;
                    tokens.Add(new(text[start..at], line, first, Quoted: false));
                    first = false;
                }
            }

            return tokens;
        }
    }
}
