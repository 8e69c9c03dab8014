namespace Cogwright.Parts;

/// <summary>
/// The order of options: the answer, then the reserve, then the fewest changes, then what is in stock. A reserve beyond
/// comfortable is no better than comfortable, and tenths of it are alike: otherwise no two would ever be alike, and changes
/// and stock would never count.
/// </summary>
/// <param name="Answer">The answer; more is better.</param>
/// <param name="Tenths">The reserve in tenths of what is comfortable, at most 10.</param>
/// <param name="Changes">Parts that differ; fewer is better.</param>
/// <param name="Stock">Of parts and adapters, the worst: <see cref="InStock"/>, <see cref="NotCounted"/> or <see cref="NotInStock"/>; more is better.</param>
/// <param name="Place">Which combination it is, so that the order is one.</param>
internal readonly record struct OptionRank(
    Compatibility Answer,
    int Tenths,
    int Changes,
    int Stock,
    long Place
) : IComparable<OptionRank>
{
    internal const int Comfortable = 10;
    internal const int InStock = 2;
    internal const int NotCounted = 1;
    internal const int NotInStock = 0;

    internal static int TenthsOf(double reserve) =>
        double.IsNaN(reserve) || reserve >= 1 ? Comfortable : (int)Math.Floor(reserve * 10);

    /// <summary>Negative when this one is better.</summary>
    public int CompareTo(OptionRank other)
    {
        var order = other.Answer.CompareTo(Answer);
        order = order != 0 ? order : other.Tenths.CompareTo(Tenths);
        order = order != 0 ? order : Changes.CompareTo(other.Changes);
        order = order != 0 ? order : other.Stock.CompareTo(Stock);
        return order != 0 ? order : Place.CompareTo(other.Place);
    }
}
