using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace Dyewort.Mutants;

/// <summary>Lists the mutants of a file.</summary>
/// <remarks>The operators are the usual ones of mutation testing, and what this code is full of beside them: numbers,
/// limits, and middle values of rows. Words are left alone. A comparison of two fractions is only turned round, because
/// “less” and “less or equal” are the same for a number that is never met exactly.</remarks>
internal sealed class MutantFinder(SemanticModel model) : CSharpSyntaxWalker
{
    private readonly List<Mutant> found = [];

    public static IReadOnlyList<Mutant> In(SemanticModel model)
    {
        var finder = new MutantFinder(model);
        finder.Visit(model.SyntaxTree.GetRoot());
        return finder.found;
    }

    // Attributes name things, thrown exceptions carry words, enum members are numbered for the store.
    public override void VisitAttributeList(AttributeListSyntax node) { }

    public override void VisitThrowStatement(ThrowStatementSyntax node) { }

    public override void VisitThrowExpression(ThrowExpressionSyntax node) { }

    public override void VisitEnumDeclaration(EnumDeclarationSyntax node) { }

    public override void VisitInterpolatedStringExpression(InterpolatedStringExpressionSyntax node) { }

    public override void VisitMethodDeclaration(MethodDeclarationSyntax node)
    {
        if (node.Identifier.Text is "ToString" or "GetHashCode")
            return;
        if (node.Body is { Statements.Count: > 0 } body && !node.Modifiers.Any(SyntaxKind.AsyncKeyword))
        {
            var nothing = node.ReturnType is PredefinedTypeSyntax { Keyword.RawKind: (int)SyntaxKind.VoidKeyword } ? "" : " default!";
            Add(body.OpenBraceToken, $"{{ return{nothing};", "method left at once");
        }

        base.VisitMethodDeclaration(node);
    }

    public override void VisitBinaryExpression(BinaryExpressionSyntax node)
    {
        var (left, right) = (node.Left.ToString(), node.Right.ToString());
        switch (node.Kind())
        {
            case SyntaxKind.AddExpression when !IsText(node):
                Add(node.OperatorToken, "-", "arithmetic");
                break;
            case SyntaxKind.SubtractExpression:
                Add(node.OperatorToken, "+", "arithmetic");
                break;
            case SyntaxKind.MultiplyExpression:
                Add(node.OperatorToken, "/", "arithmetic");
                break;
            case SyntaxKind.DivideExpression:
                Add(node.OperatorToken, "*", "arithmetic");
                break;
            case SyntaxKind.LogicalAndExpression:
                Add(node, $"({left} || {right})", "and/or");
                break;
            case SyntaxKind.LogicalOrExpression:
                Add(node, $"({left} && {right})", "and/or");
                break;
            case SyntaxKind.EqualsExpression:
                Add(node.OperatorToken, "!=", "comparison");
                break;
            case SyntaxKind.NotEqualsExpression:
                Add(node.OperatorToken, "==", "comparison");
                break;
            case SyntaxKind.CoalesceExpression when node.Right is not ThrowExpressionSyntax:
                Add(node, $"({right})", "missing value");
                break;
            default:
                Compare(node.OperatorToken, IsFraction(node.Left) || IsFraction(node.Right));
                break;
        }

        base.VisitBinaryExpression(node);
    }

    public override void VisitRelationalPattern(RelationalPatternSyntax node)
    {
        Compare(node.OperatorToken, IsFraction(node.Expression));
        base.VisitRelationalPattern(node);
    }

    public override void VisitBinaryPattern(BinaryPatternSyntax node)
    {
        Add(node.OperatorToken, node.IsKind(SyntaxKind.AndPattern) ? "or" : "and", "and/or");
        base.VisitBinaryPattern(node);
    }

    public override void VisitAssignmentExpression(AssignmentExpressionSyntax node)
    {
        var other = node.Kind() switch
        {
            SyntaxKind.AddAssignmentExpression => "-=",
            SyntaxKind.SubtractAssignmentExpression => "+=",
            SyntaxKind.MultiplyAssignmentExpression => "/=",
            SyntaxKind.DivideAssignmentExpression => "*=",
            _ => null,
        };
        if (other is not null)
            Add(node.OperatorToken, other, "arithmetic");
        base.VisitAssignmentExpression(node);
    }

    public override void VisitPrefixUnaryExpression(PrefixUnaryExpressionSyntax node)
    {
        if (node.Kind() is SyntaxKind.UnaryMinusExpression or SyntaxKind.LogicalNotExpression)
            Add(node, $"({node.Operand})", "sign or not");
        base.VisitPrefixUnaryExpression(node);
    }

    public override void VisitLiteralExpression(LiteralExpressionSyntax node)
    {
        switch (node.Token.Value)
        {
            case true:
                Add(node, "false", "true/false");
                break;
            case false:
                Add(node, "true", "true/false");
                break;
            case int or byte or long:
                var whole = Convert.ToInt64(node.Token.Value, CultureInfo.InvariantCulture);
                Add(node, (whole == 1 ? 0 : whole + 1).ToString(CultureInfo.InvariantCulture), "number");
                break;
            case double or float or decimal:
                var value = Convert.ToDouble(node.Token.Value, CultureInfo.InvariantCulture);
                var suffix = node.Token.Value switch
                {
                    float => "f",
                    decimal => "m",
                    _ => "d",
                };
                Add(node, (value == 0 ? 1 : value * 1.1).ToString("R", CultureInfo.InvariantCulture) + suffix, "number");
                break;
        }
    }

    public override void VisitConditionalExpression(ConditionalExpressionSyntax node)
    {
        Add(node.Condition, $"!({node.Condition})", "choice");
        base.VisitConditionalExpression(node);
    }

    public override void VisitIfStatement(IfStatementSyntax node)
    {
        Add(node.Condition, $"({node.Condition}) && false", "never");
        Add(node.Condition, $"({node.Condition}) || true", "always");
        base.VisitIfStatement(node);
    }

    public override void VisitExpressionStatement(ExpressionStatementSyntax node)
    {
        Add(node, ";", "statement removed");
        base.VisitExpressionStatement(node);
    }

    // A loop that steps the other way only ever hangs.
    public override void VisitForStatement(ForStatementSyntax node)
    {
        Visit(node.Declaration);
        Visit(node.Condition);
        Visit(node.Statement);
    }

    public override void VisitInvocationExpression(InvocationExpressionSyntax node)
    {
        if (node.Expression is MemberAccessExpressionSyntax access)
        {
            var (name, at) = (access.Name.Identifier.Text, node.ArgumentList.Arguments);
            var isMath = access.Expression.ToString() is "Math" or "MathF";
            if (isMath && name is "Min" or "Max" && at.Count == 2)
            {
                Add(node, $"({at[0]})", "limit removed");
                Add(node, $"({at[1]})", "limit removed");
            }
            else if (isMath && name is "Clamp" or "Abs" or "Sqrt" or "Round" or "Floor" or "Ceiling" && at.Count > 0)
            {
                Add(node, $"({at[0]})", name is "Clamp" ? "limit removed" : "function removed");
            }

            var other = name switch
            {
                "Min" => "Max",
                "Max" => "Min",
                "First" => "Last",
                "Last" => "First",
                "FirstOrDefault" => "LastOrDefault",
                "LastOrDefault" => "FirstOrDefault",
                "Any" => "All",
                "All" => "Any",
                "Take" => "Skip",
                "Skip" => "Take",
                "Order" => "OrderDescending",
                "OrderBy" => "OrderByDescending",
                "OrderByDescending" => "OrderBy",
                "MinBy" => "MaxBy",
                "MaxBy" => "MinBy",
                "Floor" => "Ceiling",
                "Ceiling" => "Floor",
                "Sin" => "Cos",
                "Cos" => "Sin",
                _ => null,
            };
            if (other is not null)
                Add(access.Name, other, "function");
        }

        base.VisitInvocationExpression(node);
    }

    private void Compare(SyntaxToken sign, bool fractions)
    {
        var (other, edge) = sign.Kind() switch
        {
            SyntaxKind.LessThanToken => (">=", "<="),
            SyntaxKind.LessThanEqualsToken => (">", "<"),
            SyntaxKind.GreaterThanToken => ("<=", ">="),
            SyntaxKind.GreaterThanEqualsToken => ("<", ">"),
            _ => (null, null),
        };
        if (other is null)
            return;
        Add(sign, other, "comparison");
        if (!fractions)
            Add(sign, edge!, "comparison");
    }

    private bool IsText(BinaryExpressionSyntax node) => model.GetTypeInfo(node).Type?.SpecialType == SpecialType.System_String;

    private bool IsFraction(ExpressionSyntax node) =>
        model.GetTypeInfo(node).Type?.SpecialType is SpecialType.System_Double or SpecialType.System_Single or SpecialType.System_Decimal;

    private void Add(SyntaxNodeOrToken what, string text, string kind) => found.Add(new(model.SyntaxTree, what.Span, text, kind));
}
