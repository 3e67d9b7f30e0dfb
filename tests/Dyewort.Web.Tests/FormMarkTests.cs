using System.Text.RegularExpressions;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Every form that writes carries the token and the mark by which a second arrival of it is known.</summary>
public sealed partial class FormMarkTests
{
    [Fact]
    public void Every_form_that_posts_carries_its_mark()
    {
        var forms = 0;
        var bare = new List<string>();
        var root = Repository.PathOf("src", "Dyewort.Web");
        foreach (var file in Directory.EnumerateFiles(root, "*.razor", SearchOption.AllDirectories))
        {
            foreach (var form in Form().Matches(File.ReadAllText(file)).Select(match => match.Value).Where(Posts))
            {
                forms++;
                if (!form.Contains("<FormMark />", StringComparison.Ordinal))
                    bare.Add($"{Path.GetRelativePath(root, file)}: {form.Split('\n')[0]}");
            }
        }

        Assert.True(forms >= 60, $"Only {forms} forms were found.");
        Assert.True(bare.Count == 0, $"Put <FormMark /> into: {string.Join("; ", bare)}.");
    }

    [Theory]
    [InlineData("<form method=\"post\" action=\"/x\"><button>Go</button></form>", true)]
    [InlineData("<form class=\"a\"\n  method=\"POST\"><button>Go</button></form>", true)]
    [InlineData("<form action=\"/find\"><input name=\"q\" /></form>", false)]
    public void The_rule_has_teeth(string form, bool posts)
    {
        Assert.Equal(form, Form().Match(form).Value);
        Assert.Equal(posts, Posts(form));
    }

    private static bool Posts(string form) => Method().IsMatch(form);

    [GeneratedRegex("<form\\b.*?</form>", RegexOptions.Singleline | RegexOptions.IgnoreCase, 1000)]
    private static partial Regex Form();

    [GeneratedRegex("^<form\\b[^>]*method=\"post\"", RegexOptions.IgnoreCase, 1000)]
    private static partial Regex Method();
}
