using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Text;

namespace Dyewort.Mutants;

/// <summary>Which tests run through which member, so that a mutant is shown only to the tests that can notice it.</summary>
/// <remarks>The room is run once with a note at the start of every member. What runs while something static or lazy is made is made once
/// for all, so it counts as reached by every test of the run.</remarks>
internal sealed class Reached
{
    /// <summary>Stands for all tests.</summary>
    public const string Everything = "*";

    private readonly Dictionary<SyntaxTree, List<(TextSpan Span, int Id)>> members = [];
    private readonly Dictionary<int, HashSet<string>> tests = [];
    private int count;

    /// <summary>What is compiled into the room for the run; it writes what it noted when the tests end.</summary>
    public string Notes =>
        $$"""
            namespace Dyewort.Noted;
            public static class Notes
            {
                private static readonly System.Collections.Concurrent.ConcurrentDictionary<string, byte[]> Seen = new();
                private static readonly System.Runtime.CompilerServices.ConditionalWeakTable<object, byte[]> Known = new();
                static Notes() => System.AppDomain.CurrentDomain.ProcessExit += (_, _) => System.IO.File.WriteAllLines(
                    System.Environment.GetEnvironmentVariable("MUTANTS_NOTES")!,
                    System.Linq.Enumerable.Select(Seen, one => one.Key + "=" + string.Join(',', System.Linq.Enumerable.Where(
                        System.Linq.Enumerable.Range(0, one.Value.Length), i => one.Value[i] != 0))));
                public static void At(int id)
                {
                    var now = Xunit.TestContext.Current;
                    var key = (object?)now.TestMethod ?? (object?)now.TestClass ?? typeof(Notes);
                    if (!Known.TryGetValue(key, out var seen))
                    {
                        var name = now.TestMethod is { } method ? method.TestClass.TestClassName + "." + method.MethodName
                            : now.TestClass is { } type ? type.TestClassName + ".*" : "*";
                        seen = Seen.GetOrAdd(name, _ => new byte[{{count}}]);
                        Known.AddOrUpdate(key, seen);
                    }
                    if (seen[id] != 0) return;
                    seen[id] = 1;
                    foreach (var frame in new System.Diagnostics.StackTrace().GetFrames())
                        if (frame.GetMethod() is { } one && (one.Name == ".cctor" || one.DeclaringType?.Name == "Lazy`1"))
                            Seen.GetOrAdd("*", _ => new byte[{{count}}])[id] = 1;
                }
            }
            """;

    /// <summary>The text of a file with a note at the start of every member.</summary>
    public SourceText Note(SyntaxTree tree)
    {
        var changes = new List<TextChange>();
        var spans = members[tree] = [];
        foreach (var node in tree.GetRoot().DescendantNodes())
        {
            var (body, arrow, shape) = node switch
            {
                ConstructorDeclarationSyntax one => (one.Body, one.ExpressionBody, "{0} {1}; }}"),
                BaseMethodDeclarationSyntax one => (one.Body, one.ExpressionBody, Shape((one as MethodDeclarationSyntax)?.ReturnType)),
                LocalFunctionStatementSyntax one => (one.Body, one.ExpressionBody, Shape(one.ReturnType)),
                AccessorDeclarationSyntax one => (
                    one.Body,
                    one.ExpressionBody,
                    one.Keyword.Text == "get" ? "{0} return {1}; }}" : "{0} {1}; }}"
                ),
                PropertyDeclarationSyntax one => (null, one.ExpressionBody, "{{ get {0} return {1}; }} }}"),
                IndexerDeclarationSyntax one => (null, one.ExpressionBody, "{{ get {0} return {1}; }} }}"),
                _ => (null, null, ""),
            };
            if (body is null && arrow is null)
                continue;
            var note = $"{{ Dyewort.Noted.Notes.At({count});";
            if (body is not null)
            {
                changes.Add(new(body.OpenBraceToken.Span, note));
            }
            else
            {
                var inner = arrow!.Expression is ThrowExpressionSyntax ? shape.Replace("return ", "", StringComparison.Ordinal) : shape;
                var text = string.Format(CultureInfo.InvariantCulture, inner, note, arrow.Expression);
                var end = arrow.Parent!.ChildTokens().Last();
                changes.Add(new(TextSpan.FromBounds(arrow.SpanStart, end.Span.End), text));
            }

            spans.Add((node.Span, count++));
        }

        // Arrows hold expressions, and members stand in no expression, so the changes never overlap.
        return tree.GetText().WithChanges(changes.OrderBy(one => one.Span.Start));
    }

    /// <summary>Reads what a run noted.</summary>
    public void Read(string file)
    {
        foreach (var line in File.ReadLines(file))
        {
            var at = line.LastIndexOf('=');
            foreach (var id in line[(at + 1)..].Split(',', StringSplitOptions.RemoveEmptyEntries))
            {
                var number = int.Parse(id, CultureInfo.InvariantCulture);
                if (!tests.TryGetValue(number, out var names))
                    tests[number] = names = [];
                names.Add(line[..at]);
            }
        }
    }

    /// <summary>The tests that reach a mutant; none where no test does.</summary>
    public IReadOnlySet<string> By(Mutant mutant)
    {
        var spans = members[mutant.Tree];
        var around = spans.Where(one => one.Span.Contains(mutant.Span)).OrderBy(one => one.Span.Length).ToArray();
        IEnumerable<(TextSpan Span, int Id)> ask;
        if (around.Length > 0)
        {
            ask = around[..1];
        }
        else
        {
            // A field's value matters to whoever runs through its type, and to others where they can see it.
            var node = mutant.Tree.GetRoot().FindNode(mutant.Span);
            var field = node.FirstAncestorOrSelf<MemberDeclarationSyntax>(one =>
                one is FieldDeclarationSyntax or PropertyDeclarationSyntax
            );
            var type = node.FirstAncestorOrSelf<TypeDeclarationSyntax>();
            var isOwn = field is FieldDeclarationSyntax && !field.Modifiers.Any(word => word.Text is "public" or "internal");
            if (!isOwn || type is null)
                return new HashSet<string>(StringComparer.Ordinal) { Everything };
            ask = spans.Where(one => type.Span.Contains(one.Span));
        }

        var names = ask.SelectMany(one => tests.GetValueOrDefault(one.Id) ?? []).ToHashSet(StringComparer.Ordinal);
        return names.Contains(Everything) ? new HashSet<string>(StringComparer.Ordinal) { Everything } : names;
    }

    private static string Shape(TypeSyntax? type) => type?.ToString() == "void" ? "{0} {1}; }}" : "{0} return {1}; }}";
}
