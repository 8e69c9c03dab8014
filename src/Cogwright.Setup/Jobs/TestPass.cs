namespace Cogwright.Setup.Jobs;

/// <summary>The passes of the test, in their order: what a lesser load would have shown is not first found under a rider.</summary>
public enum TestPass
{
    /// <summary>On the stand, cranked by hand.</summary>
    Stand,

    /// <summary>On the stand against a dragging brake.</summary>
    Loaded,

    /// <summary>Ridden, the brakes tried first.</summary>
    Ride,
}

/// <summary>The steps that are passes of the test: those whose check names one.</summary>
public static class TestPasses
{
    /// <summary>The quantity of each pass in a check, in the order of <see cref="TestPass"/>; files use these names.</summary>
    public static IReadOnlyList<string> Quantities { get; } =
    ["stand-test", "loaded-test", "ride-test"];

    /// <summary>The pass that a check is, or null when it is none.</summary>
    /// <param name="quantity">The quantity of the check; null is none.</param>
    public static TestPass? Find(string? quantity)
    {
        for (var i = 0; i < Quantities.Count; i++)
        {
            if (Quantities[i] == quantity)
            {
                return (TestPass)i;
            }
        }
        return null;
    }
}
