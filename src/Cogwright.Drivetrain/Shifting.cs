using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>What moves the rear derailleur from cog to cog: a cable with its clicks, or programmed positions. Immutable.</summary>
public sealed record Shifting
{
    /// <summary>Cable moved by each click (mm), from the cog at which the cable is slack: the smallest, or the largest of a derailleur that rests inboard; empty when motor-driven. Their number may differ from the cogs'.</summary>
    public ImmutableArray<double> PullMm { get; init; } = [];

    /// <summary>Shift ratio (mm of guide pulley per mm of cable), or null when motor-driven.</summary>
    public double? ShiftRatio { get; init; }

    /// <summary>Programmed lateral positions of the guide pulley (mm, outboard of the centre plane), smallest cog first; empty with a cable.</summary>
    public ImmutableArray<double> PositionsMm { get; init; } = [];

    /// <summary>How far one offset step moves the guide pulley (mm per step), or null.</summary>
    public double? OffsetStepMm { get; init; }

    /// <summary>Offset steps left in the outboard direction, or null when unknown.</summary>
    public int? StepsLeftOutboard { get; init; }

    /// <summary>Offset steps left in the inboard direction, or null when unknown.</summary>
    public int? StepsLeftInboard { get; init; }

    /// <summary>Whether a cable with its clicks is described.</summary>
    public bool IsCable => !PullMm.IsDefaultOrEmpty && ShiftRatio is not null;

    /// <summary>Whether programmed positions are described.</summary>
    public bool IsProgrammed => !PositionsMm.IsDefaultOrEmpty;
}
