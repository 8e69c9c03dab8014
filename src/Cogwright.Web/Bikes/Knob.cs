namespace Cogwright.Web.Bikes;

/// <summary>
/// Something that can be tried by turning it: its range, what it does to a trial, and how its value is said. Immutable.
/// </summary>
public sealed record Knob
{
    /// <summary>A name for code and addresses, such as <c>screw</c>.</summary>
    public required string Key { get; init; }

    /// <summary>What a mechanic calls it.</summary>
    public required string Label { get; init; }

    /// <summary>Least value.</summary>
    public required double Least { get; init; }

    /// <summary>Greatest value.</summary>
    public required double Most { get; init; }

    /// <summary>One step of its buttons and its slider.</summary>
    public required double Step { get; init; }

    /// <summary>The value that the spec has.</summary>
    public required double AsSpec { get; init; }

    /// <summary>The value in a trial.</summary>
    public required Func<Trial, double> Read { get; init; }

    /// <summary>A trial with another value.</summary>
    public required Func<Trial, double, Trial> Write { get; init; }

    /// <summary>A value in words.</summary>
    public required Func<double, string> Say { get; init; }

    /// <summary>Whether it moves parts sideways, so that the top view moves with it.</summary>
    public bool MovesSideways { get; init; }

    /// <summary>Whether it changes the shape of a part, so that the drawing is made anew.</summary>
    public bool ChangesShape { get; init; }

    /// <summary>
    /// A value brought to the nearest of these: a whole number of steps from the spec's value, or an end of the range, which
    /// need not be a whole number of steps away.
    /// </summary>
    public double Nearest(double value)
    {
        var step = Math.Clamp(AsSpec + (Math.Round((value - AsSpec) / Step) * Step), Least, Most);
        foreach (var end in (ReadOnlySpan<double>)[Least, Most])
        {
            step = Math.Abs(value - end) < Math.Abs(value - step) ? end : step;
        }
        return step;
    }
}
