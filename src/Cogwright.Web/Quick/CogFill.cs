using System.Collections.Immutable;

namespace Cogwright.Web.Quick;

/// <summary>
/// Cogs between the smallest and the largest when nobody named them: each larger than the one before by the same share,
/// in whole teeth, as cassettes are made. A choice of this program; the end cogs decide chain length and gap.
/// </summary>
internal static class CogFill
{
    /// <summary>The cogs, smallest first.</summary>
    /// <param name="smallest">Teeth of the smallest.</param>
    /// <param name="largest">Teeth of the largest; at least so many more that every cog can differ.</param>
    /// <param name="count">How many, at least 1.</param>
    internal static ImmutableArray<int> Between(int smallest, int largest, int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(largest, smallest + count - 1);
        var teeth = ImmutableArray.CreateBuilder<int>(count);
        var last = count - 1;
        for (var i = 0; i < count; i++)
        {
            var even =
                last == 0
                    ? smallest
                    : smallest * Math.Pow((double)largest / smallest, (double)i / last);
            var least = i == 0 ? smallest : teeth[i - 1] + 1;
            // What is still to come must fit below the largest.
            teeth.Add(Math.Clamp((int)Math.Round(even), least, largest - (last - i)));
        }
        return teeth.MoveToImmutable();
    }
}
