namespace Cogwright.Fastening;

/// <summary>Where a torque comes from, the strongest first.</summary>
public enum TorqueSource
{
    /// <summary>The part's own figure: printed on it, or from its sheet through the spec.</summary>
    Part,

    /// <summary>The procedure that the work follows.</summary>
    Procedure,

    /// <summary>The range of the trade (common practice).</summary>
    TradeRange,

    /// <summary>Nobody gives a figure: start low and go up (<see cref="Groping"/>).</summary>
    None,
}

/// <summary>How a fastener without any figure is tightened. Common practice.</summary>
public static class Groping
{
    /// <summary>Where it starts (N·m).</summary>
    public const double StartNm = 2;

    /// <summary>How much more at a time (N·m), never above a printed maximum.</summary>
    public const double StepNm = 0.5;
}

/// <summary>The torque of a fastener, marked with where it comes from. Immutable.</summary>
public sealed record TorqueFigure
{
    private TorqueFigure(TorqueRange? range, TorqueSource source, string? conflict)
    {
        Range = range;
        Source = source;
        Conflict = conflict;
    }

    /// <summary>The torque, or null with <see cref="TorqueSource.None"/>.</summary>
    public TorqueRange? Range { get; }

    /// <summary>Where it comes from.</summary>
    public TorqueSource Source { get; }

    /// <summary>Two figures that have no torque in common, in words with what to do; else null.</summary>
    public string? Conflict { get; }

    /// <summary>
    /// The figure that counts. The part's own wins over the procedure's, and that over the trade's (common practice). Part and
    /// procedure that contradict one another are told; a trade's range that another figure leaves is not: it is only a habit.
    /// </summary>
    /// <param name="part">The part's figure, or null.</param>
    /// <param name="procedure">The procedure's figure, or null.</param>
    /// <param name="trade">The trade's range, or null.</param>
    public static TorqueFigure Of(
        TorqueRange? part,
        TorqueRange? procedure = null,
        TorqueRange? trade = null
    )
    {
        if (part is not null)
        {
            var conflict =
                procedure is not null && !part.Overlaps(procedure)
                    ? Texts.Get(
                        "figure.conflict",
                        part.LowerNm,
                        part.UpperNm,
                        procedure.LowerNm,
                        procedure.UpperNm
                    )
                    : null;
            return new(part, TorqueSource.Part, conflict);
        }
        return procedure is not null ? new(procedure, TorqueSource.Procedure, null)
            : trade is not null ? new(trade, TorqueSource.TradeRange, null)
            : new(null, TorqueSource.None, null);
    }
}
