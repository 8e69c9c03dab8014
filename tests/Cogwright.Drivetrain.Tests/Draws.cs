using CsCheck;

namespace Cogwright.Drivetrain.Tests;

/// <summary>Random cases from a fixed seed: the default run is the same on every machine, the long run is longer.</summary>
internal static class Draws
{
    internal static bool IsLong { get; } =
        Environment.GetEnvironmentVariable("COGWRIGHT_LONG") == "1";

    /// <summary>Cases from a generator; <paramref name="longCount"/> of them when COGWRIGHT_LONG=1.</summary>
    internal static IEnumerable<T> Of<T>(Gen<T> gen, int count, int longCount, ulong seed)
    {
        var pcg = new PCG(1, seed);
        for (var i = 0; i < (IsLong ? longCount : count); i++)
        {
            yield return gen.Generate(pcg, null, out _);
        }
    }

    internal static void Say(string text) => TestContext.Current.TestOutputHelper?.WriteLine(text);
}
