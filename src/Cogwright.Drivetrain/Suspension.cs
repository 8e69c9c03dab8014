using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>What a figure of travel means.</summary>
public enum TravelMeaning
{
    /// <summary>How far the rear axle has risen against the frame, vertically (mm).</summary>
    VerticalAtWheel,

    /// <summary>How far the shock has been pushed in, along its eyes (mm).</summary>
    ShockStroke,
}

/// <summary>A moving part of a rear end.</summary>
public enum LinkageMember
{
    /// <summary>The swingarm, or the lower link of a four-bar.</summary>
    LowerLink,

    /// <summary>The upper link of a four-bar, also called the rocker.</summary>
    UpperLink,

    /// <summary>The part of a four-bar between the rear ends of its two links.</summary>
    Coupler,
}

/// <summary>How the rear axle moves against the frame. All positions hold with the suspension fully extended.</summary>
public abstract record RearLinkage
{
    private protected RearLinkage() { }
}

/// <summary>One swingarm that turns about one pivot on the frame and carries axle and hanger.</summary>
/// <param name="PivotMm">The pivot (mm, from the bottom-bracket axis).</param>
public sealed record SinglePivot(Point PivotMm) : RearLinkage;

/// <summary>Two links on the frame, joined by a coupler. Positions with the suspension fully extended.</summary>
/// <param name="LowerFrameMm">Lower link: its pivot on the frame (mm, from the bottom-bracket axis).</param>
/// <param name="LowerRearMm">Lower link: its rear pivot.</param>
/// <param name="UpperFrameMm">Upper link: its pivot on the frame.</param>
/// <param name="UpperRearMm">Upper link: its pivot on the coupler.</param>
/// <param name="Carries">Which member carries axle and hanger: the coupler or the lower link.</param>
public sealed record FourBar(
    Point LowerFrameMm,
    Point LowerRearMm,
    Point UpperFrameMm,
    Point UpperRearMm,
    LinkageMember Carries = LinkageMember.Coupler
) : RearLinkage;

/// <summary>One row of a tabulated path.</summary>
/// <param name="TravelMm">Travel (mm), in the meaning that the suspension states.</param>
/// <param name="AxleMm">The rear axle (mm, from the bottom-bracket axis).</param>
/// <param name="RotationRad">
/// How far the member that carries the hanger has turned (rad, anticlockwise seen from the drive side).
/// </param>
public readonly record struct PathPoint(double TravelMm, Point AxleMm, double RotationRad);

/// <summary>
/// A path of the axle by points, from fully extended to fully compressed. Between the points a cubic is laid through
/// each with the slope of the parabola through it and its neighbours; outside nothing is guessed.
/// </summary>
/// <param name="Points">At least two points, of rising travel, the first at travel 0.</param>
public sealed record TabulatedPath(ImmutableArray<PathPoint> Points) : RearLinkage;

/// <summary>The eyes of the shock, with the suspension fully extended.</summary>
/// <param name="FrameEyeMm">The eye on the frame (mm, from the bottom-bracket axis).</param>
/// <param name="MemberEyeMm">The eye on the moving member.</param>
/// <param name="On">The member that it is on; of a single pivot only the swingarm.</param>
public sealed record ShockEyes(
    Point FrameEyeMm,
    Point MemberEyeMm,
    LinkageMember On = LinkageMember.LowerLink
);

/// <summary>A suspended rear end. Immutable.</summary>
public sealed record Suspension
{
    /// <summary>How the axle moves.</summary>
    public required RearLinkage Linkage { get; init; }

    /// <summary>Total travel (mm), in the meaning of <see cref="TravelMeans"/>.</summary>
    public required double TravelMm { get; init; }

    /// <summary>What every figure of travel of this bike means.</summary>
    public TravelMeaning TravelMeans { get; init; } = TravelMeaning.VerticalAtWheel;

    /// <summary>The shock's eyes; needed when travel is the shock's stroke and the linkage is given by its pivots.</summary>
    public ShockEyes? Shock { get; init; }

    /// <summary>Sag with the rider on the bike, as a fraction of the travel (0.3 is thirty percent), or null when not set.</summary>
    public double? SagFraction { get; init; }

    /// <summary>The travel at which gaps are set and read (mm): at sag, or fully extended when no sag is given.</summary>
    public double SetUpTravelMm => (SagFraction ?? 0) * TravelMm;
}
