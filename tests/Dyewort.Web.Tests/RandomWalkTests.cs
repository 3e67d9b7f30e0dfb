using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using Dyewort.Testing;
using Dyewort.Web.Components;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Somebody who follows any link and fills any form with anything: nothing they do makes a page fail.</summary>
public sealed partial class RandomWalkTests
{
    /// <summary>How many forms are sent; the suite takes some hundreds.</summary>
    public const string Variable = "DYEWORT_WALK";

    private static readonly string[] Hostile =
    [
        "",
        " ",
        "0",
        "-1",
        "-0.0001",
        "1e308",
        "1e-308",
        "NaN",
        "Infinity",
        "-Infinity",
        "99999999999999999999999999",
        "99999",
        "100000",
        "1000000",
        "0.0000000001",
        "99999 l",
        "1000 kg",
        "100000 tsp",
        "99999 gallons",
        "0 g",
        "1/0 tsp",
        "1/999999 g",
        "three",
        "<script>alert(1)</script>",
        "\"><b onmouseover='x'>",
        "'; DROP TABLE pots; --",
        "{{7*7}} @Model",
        "\u202Eesrever \u0000nul",
        "🫐🫐🫐 ä́̈ \uD800",
        "0001-01-01",
        "9999-12-31",
        "1900-01-01",
        "2025-02-30",
        "2199-12-31",
        "%00%0d%0aSet-Cookie: a=b",
        "/etc/passwd",
        "A1",
        "C1",
        "#",
        "#zzz",
        "lab(1e9 -1e9 0)",
        "color(xyz-d65 9 9 9)",
        "C99999999",
        "00000000-0000-0000-0000-000000000000",
        new('x', 5000),
    ];

    private static readonly string[] Plausible =
    [
        "1",
        "2",
        "3",
        "12",
        "20",
        "0.5",
        "2.5 g",
        "¼ tsp",
        "3 drops",
        "20 ml",
        "1.5 L",
        "100 ml",
        "3.5",
        "92",
        "2025-03-01",
        "2026-01-15",
        "dark purple-red",
        "#6a7390",
        "lab(50 20 -30)",
        "on the shelf",
        "alum",
        "Weld",
        "black bean",
    ];

    [Fact]
    public async Task Whatever_is_typed_and_however_often_no_page_fails()
    {
        var count = Number(Variable) ?? 200;
        var seed = Number(Chance.Variable) ?? RandomNumberGenerator.GetInt32(int.MaxValue);
        await using var own = await OwnNotebook.OpenAsync(patience: TimeSpan.FromMilliseconds(20));
        using var walk = new Walk(own, seed, count);
        var (sent, accepted, doubled) = await walk.GoAsync();
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"{Chance.Variable}={seed}: {sent} forms, {accepted} accepted, {doubled} sent twice."
        );
        Assert.True(accepted > sent / 10, $"Only {accepted} of {sent} forms were accepted: the walk shows little.");
        Assert.True(doubled > 0, "No form was sent twice.");
        Assert.True(walk.Failures.Count == 0, $"Repeat it with {Chance.Variable}={seed} {Variable}={count}.\n{walk.Report()}");
    }

    [Fact]
    public void The_walk_finds_the_forms_of_a_page()
    {
        const string Html =
            "<form method=\"post\" action=\"/x&amp;y\"><input type=\"hidden\" name=\"Once\" value=\"1\" />"
            + "<input name=\"A\" value=\"&quot;\" />"
            + "<select name=\"B\"><option value=\"p\">p</option><option value=\"q\" selected>q</option></select>"
            + "<input type=\"checkbox\" name=\"C\" value=\"yes\" /><textarea name=\"D\">d</textarea>"
            + "<button name=\"E\" value=\"e\">Go</button></form><form><input name=\"q\" /></form>";
        var forms = PageForm.Of(Html, "/page");
        Assert.Equal([("/x&y", true), ("/page", false)], forms.Select(form => (form.Action, form.Posts)));
        Assert.Equal(["Once=1", "A=\"", "B=q", "D=d", "E=e"], forms[0].AsItStands().Select(field => $"{field.Key}={field.Value}"));
    }

    private static int? Number(string variable) =>
        int.TryParse(Environment.GetEnvironmentVariable(variable), CultureInfo.InvariantCulture, out var told) ? told : null;

    [GeneratedRegex("href=\"(?<to>/[^\"#]*)", RegexOptions.ExplicitCapture, 5000)]
    private static partial Regex Link();

    private sealed class Walk(OwnNotebook own, int seed, int count) : IDisposable
    {
        private readonly Random chance = new(seed);
        private readonly int most = Math.Min(600, 100 + (count / 2));
        private readonly Tab one = new(own.Address);
        private readonly Tab other = new(own.Address);
        private readonly List<string> pages = ["/"];
        private readonly HashSet<string> known = ["/"];
        private readonly List<string> values = [];
        private readonly List<string> trail = [];
        private readonly HashSet<string> failed = [];

        public List<string> Failures { get; } = [];

        public string Report() => string.Join("\n", Failures.Take(20));

        public async Task<(int Sent, int Accepted, int Doubled)> GoAsync()
        {
            foreach (var start in new[] { "/pots", "/charts", "/recipes", "/bottles", "/batches", "/pantry", "/settings", "/lots" })
                Learn(start);
            for (var look = 0; look < 60; look++)
                await LookAsync(Any(pages));
            var (sent, accepted, doubled) = (0, 0, 0);
            for (var tries = 0; sent < count && tries < 10 * count; tries++)
            {
                var page = chance.Next(4) > 0 ? Any(pages) : Bent(Any(pages));
                if (await LookAsync(page) is not { } html || PageForm.Of(html, page) is not { Count: > 0 } forms)
                    continue;
                var form = Any([.. forms.Where(form => form.Posts || chance.Next(6) == 0).DefaultIfEmpty(Any(forms))]);
                sent++;
                if (!form.Posts)
                {
                    await LookAsync(Query(form.Action, Fill(form)));
                    continue;
                }

                var twice = chance.Next(3) == 0;
                var next = await SendAsync(page, form, twice);
                if (next is null)
                    continue;
                accepted++;
                if (twice)
                    doubled++;
                await LookAsync(next.Split('#')[0]);
                await LookAsync(page);
            }

            await LookAtAllAsync();
            return (sent, accepted, doubled);
        }

        public void Dispose()
        {
            one.Dispose();
            other.Dispose();
        }

        /// <summary>Every page that was ever seen.</summary>
        private async Task LookAtAllAsync()
        {
            foreach (var page in pages.Where(page => !page.Contains("/photos/", StringComparison.Ordinal)).ToList())
                await LookAsync(page);
        }

        private async Task<string?> SendAsync(string page, PageForm form, bool twice)
        {
            var fields = Fill(form);
            var files = new Dictionary<string, byte[]>();
            foreach (var file in form.Fields.Where(field => field.Kind == "file" && chance.Next(2) == 0))
                files[file.Name] = chance.Next(2) == 0 ? [] : Encoding.UTF8.GetBytes(Value(file));
            trail.Add($"{form.Action} {Say(fields)}");
            var way = twice ? chance.Next(3) : 3;
            switch (way)
            {
                case 0:
                    // The same form once more, after the answer.
                    var first = await PostAsync(one, form.Action, fields, files);
                    if (first is null)
                        return null;
                    var written = await EntriesAsync();
                    var second = await PostAsync(one, form.Action, fields, files);
                    var more = await EntriesAsync() - written;
                    if (second != first || more != 0)
                        Failures.Add($"Sent twice, {form.Action} led to {first} and {second}, and wrote {more} more: {Say(fields)}");
                    return first;
                case 1:
                    // A double tap.
                    var both = await Task.WhenAll(PostAsync(one, form.Action, fields, files), PostAsync(one, form.Action, fields, files));
                    if (both[0] != both[1])
                        Failures.Add($"A double tap on {form.Action} led to {both[0]} and {both[1]}: {Say(fields)}");
                    return both[0];
                case 2:
                    // The same from two tabs.
                    var (_, html) = await other.LoadAsync(page);
                    var twin = PageForm.Of(html, page).FirstOrDefault(found => found.Posts && found.Action == form.Action);
                    var its = fields
                        .Where(field => field.Key != FormMark.Name && !field.Key.StartsWith("__", StringComparison.Ordinal))
                        .Concat(
                            (twin?.AsItStands() ?? []).Where(field =>
                                field.Key == FormMark.Name || field.Key.StartsWith("__", StringComparison.Ordinal)
                            )
                        );
                    var answers = await Task.WhenAll(PostAsync(one, form.Action, fields, files), PostAsync(other, form.Action, its, files));
                    return answers[0] ?? answers[1];
                default:
                    return await PostAsync(one, form.Action, fields, files);
            }
        }

        private async Task<string?> PostAsync(
            Tab tab,
            string action,
            IEnumerable<KeyValuePair<string, string>> fields,
            Dictionary<string, byte[]> files
        )
        {
            var (status, _, next) = await tab.PostAsync(action, fields, files);
            if ((int)status >= 500)
                Fail($"POST {action}: {(int)status}; {Say(fields)}", action);
            return next;
        }

        private async Task<string?> LookAsync(string page)
        {
            using var answer = await one.Client.GetAsync(page);
            if ((int)answer.StatusCode >= 500)
                Fail($"GET {page}: {(int)answer.StatusCode}", page);
            if (answer.Content.Headers.ContentType?.MediaType != "text/html")
                return null;
            var html = await answer.Content.ReadAsStringAsync();
            if (html.Contains("<script>alert", StringComparison.Ordinal) || html.Contains("<b onmouseover", StringComparison.Ordinal))
                Fail($"GET {page} shows what was typed as markup.", page);
            if (answer.StatusCode == HttpStatusCode.OK)
            {
                foreach (var link in Link().Matches(html).Select(match => WebUtility.HtmlDecode(match.Groups["to"].Value)))
                    Learn(link);
                foreach (var value in PageForm.Of(html, page).SelectMany(form => form.Fields).Where(field => field.Kind != "text"))
                {
                    if (value.Value is { Length: > 0 and < 60 } text && values.Count < 500)
                        values.Add(text);
                }
            }

            return html;
        }

        // One fault of a kind is told once, with what was done just before.
        private void Fail(string what, string address)
        {
            if (failed.Add(Regex.Replace(address.Split('?')[0], "[0-9a-f-]{36}|[0-9]+", "…", RegexOptions.None, TimeSpan.FromSeconds(1))))
                Failures.Add($"{what}\n    after {string.Join("\n    after ", trail.TakeLast(2).Reverse())}");
        }

        private void Learn(string page)
        {
            if (page.StartsWith("/assets/", StringComparison.Ordinal) || page.Length > 1500 || known.Count > most || !known.Add(page))
                return;
            pages.Add(page);
        }

        private List<KeyValuePair<string, string>> Fill(PageForm form)
        {
            var filled = new List<KeyValuePair<string, string>>();
            var wild = chance.Next(3);
            var buttons = form.Fields.Where(field => field.Kind == "submit").ToList();
            var pressed = buttons.Count > 0 ? Any(buttons) : null;
            foreach (var field in form.Fields)
            {
                if (field.Kind is "file" || (field.Kind is "submit" && field != pressed))
                    continue;
                if (field.Name == FormMark.Name || field.Name.StartsWith("__", StringComparison.Ordinal))
                {
                    filled.Add(new(field.Name, field.Value ?? ""));
                    continue;
                }

                var touched =
                    chance.Next(10)
                    < (
                        wild == 0 ? 2
                        : wild == 1 ? 5
                        : 8
                    );
                if (!touched && field.Value is { } stands)
                    filled.Add(new(field.Name, stands));
                else if (touched && chance.Next(12) > 0)
                    filled.Add(new(field.Name, Value(field)));
            }

            return filled;
        }

        private string Value(PageField field) =>
            (field.Choices.Count, chance.Next(10)) switch
            {
                (> 0, < 8) => Any(field.Choices),
                (0, < 1) => field.Value ?? "",
                (0, < 6) when field.Kind != "hidden" => Any(Plausible),
                (_, 8) when values.Count > 0 => Any(values),
                _ => Any(Hostile),
            };

        /// <summary>An address with one value of its query, or one piece of its path, put wrong.</summary>
        private string Bent(string page)
        {
            var parts = page.Split('?', 2);
            if (parts.Length == 2)
            {
                var pairs = parts[1].Split('&');
                var at = chance.Next(pairs.Length);
                pairs[at] = pairs[at].Split('=')[0] + "=" + Uri.EscapeDataString(Clean(Any(Hostile)));
                return $"{parts[0]}?{string.Join('&', pairs)}";
            }

            var pieces = page.Split('/');
            pieces[^1] = Uri.EscapeDataString(Clean(Any(Hostile)));
            return string.Join('/', pieces);
        }

        private static string Query(string action, List<KeyValuePair<string, string>> fields) =>
            action.Split('?')[0]
            + "?"
            + string.Join('&', fields.Select(field => $"{Uri.EscapeDataString(field.Key)}={Uri.EscapeDataString(Clean(field.Value))}"));

        // No address holds half a surrogate, and none is longer than a server takes.
        private static string Clean(string text) =>
            string.Concat((text.Length > 1000 ? text[..1000] : text).Where(letter => !char.IsSurrogate(letter)));

        /// <summary>How many rows there are in all tables.</summary>
        private async Task<long> EntriesAsync()
        {
            var tables = await own.LookAsync(db =>
                Task.FromResult(db.Model.GetEntityTypes().Select(type => type.GetTableName()!).Distinct().ToList())
            );
            await using var notebook = new SqliteConnection($"Data Source={Path.Combine(own.Folder, "notebook.db")}");
            await notebook.OpenAsync();
            await using var rows = notebook.CreateCommand();
            rows.CommandText = "SELECT " + string.Join(" + ", tables.Select(table => $"(SELECT count(*) FROM {table})"));
            return (long)(await rows.ExecuteScalarAsync())!;
        }

        private static string Say(IEnumerable<KeyValuePair<string, string>> fields) =>
            string.Join(
                ", ",
                fields
                    .Where(field => !field.Key.StartsWith("__", StringComparison.Ordinal) && field.Key != FormMark.Name)
                    .Select(field => $"{field.Key}={(field.Value.Length > 60 ? field.Value[..60] + "…" : field.Value)}")
            );

        private T Any<T>(IReadOnlyList<T> all) => all[chance.Next(all.Count)];
    }
}
