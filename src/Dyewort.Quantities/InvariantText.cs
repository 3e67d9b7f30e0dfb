using System.Globalization;
using System.Runtime.CompilerServices;

namespace Dyewort.Quantities;

/// <summary>A sentence with figures in it, with a decimal point whatever the machine's language. Long ones may be joined with +.</summary>
/// <remarks>The compiler fills it from an interpolated string: write <c>InvariantText.Of($"{grams:0.0} g")</c>.</remarks>
[InterpolatedStringHandler]
public ref struct InvariantText
{
    private DefaultInterpolatedStringHandler inner;

    /// <summary>Called by the compiler.</summary>
    public InvariantText(int literalLength, int formattedCount) => inner = new(literalLength, formattedCount, CultureInfo.InvariantCulture);

    /// <summary>The sentence.</summary>
    public static string Of(InvariantText text) => text.inner.ToStringAndClear();

    /// <summary>Called by the compiler.</summary>
    public void AppendLiteral(string value) => inner.AppendLiteral(value);

    /// <summary>Called by the compiler.</summary>
    public void AppendFormatted<T>(T value) => inner.AppendFormatted(value);

    /// <summary>Called by the compiler.</summary>
    public void AppendFormatted<T>(T value, string? format) => inner.AppendFormatted(value, format);
}
