using System.Globalization;
using System.Security.Cryptography;
using Xunit.Sdk;

namespace Dyewort.Testing;

/// <summary>Claims that hold for whatever is drawn: each run draws anew, and a failure says how to draw the same again.</summary>
/// <remarks>What CsCheck draws has its own seed, printed on a failure and set by <c>CsCheck_Seed</c>.</remarks>
public static class Chance
{
    /// <summary>The variable that repeats a run.</summary>
    public const string Variable = "DYEWORT_SEED";

    /// <summary>Tries a claim once with a seed of this run.</summary>
    /// <exception cref="XunitException">The claim failed; the message begins with the seed.</exception>
    public static void Try(Action<Random> claim)
    {
        var seed = int.TryParse(Environment.GetEnvironmentVariable(Variable), CultureInfo.InvariantCulture, out var told)
            ? told
            : RandomNumberGenerator.GetInt32(int.MaxValue);
        try
        {
            claim(new Random(seed));
        }
        catch (Exception problem)
        {
            throw new XunitException($"Repeat it with {Variable}={seed}. {problem.Message}", problem);
        }
    }
}
