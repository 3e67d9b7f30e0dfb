using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Text;

namespace Dyewort.Mutants;

/// <summary>One small fault that could have been written by mistake.</summary>
/// <param name="Tree">The file.</param>
/// <param name="Span">What is replaced.</param>
/// <param name="Text">What stands there instead.</param>
/// <param name="Kind">The operator that made it.</param>
internal sealed record Mutant(SyntaxTree Tree, TextSpan Span, string Text, string Kind)
{
    /// <summary>The line, counted from 1.</summary>
    public int Line => Tree.GetLineSpan(Span).StartLinePosition.Line + 1;

    /// <summary>File, line, operator, and what became of the line.</summary>
    public override string ToString()
    {
        var text = Tree.GetText();
        var line = text.Lines.GetLineFromPosition(Span.Start);
        var before = text.ToString(TextSpan.FromBounds(line.Start, Math.Max(line.End, Span.End)));
        var from = Span.Start - line.Start;
        var after = $"{before[..from]}{Text}{before[(from + Span.Length)..]}";
        return $"{Path.GetFileName(Tree.FilePath)}:{Line} {Kind}\n    - {OneLine(before)}\n    + {OneLine(after)}";
    }

    /// <summary>The same words without the line's number.</summary>
    public static string Unnumbered(string words)
    {
        var colon = words.IndexOf(':', StringComparison.Ordinal);
        var space = colon < 0 ? -1 : words.IndexOf(' ', colon);
        return space < 0 ? words : words[..colon] + words[space..];
    }

    private static string OneLine(string text)
    {
        var joined = string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return joined.Length > 220 ? joined[..220] + " …" : joined;
    }
}
