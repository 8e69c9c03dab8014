using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <summary>How a derailleur on the axle is set. Immutable.</summary>
/// <param name="Gear">The gear in which it is set.</param>
/// <param name="IsSet">Whether its cage can be brought to the mark with the chain.</param>
/// <param name="BodyAngleDeg">The body angle that comes out (degrees, anticlockwise seen from the drive side).</param>
/// <param name="GapMm">The gap in that gear with the cage at its mark (mm, tooth tip to tooth tip), or null without one.</param>
/// <param name="What">Why it cannot be set; empty when it can.</param>
/// <param name="WhatToDo">What to do then; empty when it can.</param>
/// <param name="IsAssumed">Whether it rests on figures that nobody measured.</param>
public sealed record SetUpFacts(
    (int RingTeeth, int CogTeeth) Gear,
    bool IsSet,
    double BodyAngleDeg,
    double? GapMm,
    string What,
    string WhatToDo,
    bool IsAssumed
);

/// <summary>The gap that another chain or another set-up cog would give.</summary>
/// <param name="Pitches">Length of the chain (pitches).</param>
/// <param name="CogTeeth">The set-up cog.</param>
/// <param name="GapMm">The gap (mm, tooth tip to tooth tip).</param>
public sealed record SetUpAlternative(int Pitches, int CogTeeth, double GapMm);

/// <summary>What a reading of the gap of a derailleur on the axle says, in numbers. Immutable.</summary>
public sealed record SetUpAdvice
{
    /// <summary>The gear in which the body is set.</summary>
    public required (int RingTeeth, int CogTeeth) SetUpGear { get; init; }

    /// <summary>The chain on the bike (pitches).</summary>
    public required int Pitches { get; init; }

    /// <summary>How far the cage stands in front of its mark by this reading (degrees, negative behind), or null when unknown.</summary>
    public double? CageOffMarkDeg { get; init; }

    /// <summary>How far forward the body stands of where it should by this reading (degrees), or null when unknown.</summary>
    public double? BodyOffDeg { get; init; }

    /// <summary>Change of the gap per degree that the body is turned forward (mm), or null.</summary>
    public double? MmPerBodyDegree { get; init; }

    /// <summary>Change of the gap per pitch of chain more, the body left (mm), or null.</summary>
    public double? MmPerPitchLeft { get; init; }

    /// <summary>Change of the gap per pitch of chain more, the body set to its mark again (mm), or null.</summary>
    public double? MmPerPitchSetAgain { get; init; }

    /// <summary>Other chains and set-up cogs, nearest to what is wanted first.</summary>
    public ImmutableArray<SetUpAlternative> Ways { get; init; } = [];
}

/// <content>A derailleur on the axle, and one that rests inboard.</content>
public sealed partial class QuantityCatalogue
{
    /// <summary>Whether the rear derailleur sits on the axle: no hanger, no stop screws, no body-angle screw.</summary>
    public bool IsOnAxle => spec.RearDerailleur is { Coaxial: not null };

    /// <summary>Whether the rear derailleur's springs pull inboard.</summary>
    public bool RestsInboard => CableSense.RestsInboard(spec);

    /// <summary>How the derailleur on the axle is set; null when it is on a hanger or nothing could be solved.</summary>
    public SetUpFacts? SetUp { get; }

    private SetUpFacts? MakeSetUp()
    {
        // A table that was asked for another body angle does not hold the set-up.
        if (table is null || (table.SetUp ?? CoaxialSetUp.Of(spec, table.Pitches)) is not { } setUp)
        {
            return null;
        }
        var words = setUp.IsSet
            ? null
            : Findings
                .Of(table)
                .Where(finding =>
                    finding.Kind
                        is FindingKind.ChainTooLongForMark
                            or FindingKind.ChainTooShortForMark
                            or FindingKind.SetUpCogNotReached
                )
                .Select(finding => Explanation.Of(finding, spec))
                .FirstOrDefault();
        return new(
            (setUp.Gear.RingTeeth, setUp.Gear.CogTeeth),
            setUp.IsSet,
            Degrees(setUp.BodyAngleRad),
            setUp.IsSet && table.Find(setUp.Gear) is { HasPose: true } gear ? gear.GapMm : null,
            words?.What ?? "",
            words?.WhatToDo ?? "",
            new AssumedDependence(spec.Assumptions).Pose
        );
    }

    /// <summary>What a reading of the gap says of the set-up; null when the derailleur is on a hanger, or nothing could be solved.</summary>
    /// <param name="gear">The gear in which the gap was read.</param>
    /// <param name="readMm">The gap read (mm, tooth tip to tooth tip).</param>
    /// <param name="wantedMm">The gap wanted there (mm).</param>
    /// <param name="toleranceMm">How far from it is still fine (mm).</param>
    public SetUpAdvice? CorrectSetUp(
        (int RingTeeth, int CogTeeth) gear,
        double readMm,
        double wantedMm,
        double toleranceMm
    ) => SetUpAdviceOf(SetUpCorrectionOf(gear, readMm, wantedMm, toleranceMm));

    private SetUpCorrection? SetUpCorrectionOf(
        (int RingTeeth, int CogTeeth) gear,
        double readMm,
        double wantedMm,
        double toleranceMm
    ) =>
        table is null
            ? null
            : SetUpCorrector.Correct(
                spec,
                table.Pitches,
                new(gear.RingTeeth, gear.CogTeeth),
                readMm,
                wantedMm,
                toleranceMm
            );

    private SetUpAdvice? SetUpAdviceOf(SetUpCorrection? found) =>
        found is null
            ? null
            : new()
            {
                SetUpGear = (found.SetUpGear.RingTeeth, found.SetUpGear.CogTeeth),
                Pitches = table!.Pitches,
                CageOffMarkDeg = found.CageOffMarkRad is { } cage ? Degrees(cage) : null,
                BodyOffDeg = found.BodyOffRad is { } body ? Degrees(body) : null,
                MmPerBodyDegree = found.MmPerBodyDegree,
                MmPerPitchLeft = found.MmPerPitchLeft,
                MmPerPitchSetAgain = found.MmPerPitchSetAgain,
                Ways =
                [
                    .. found.Ways.Select(way => new SetUpAlternative(
                        way.Pitches,
                        way.CogTeeth,
                        way.GapMm
                    )),
                ],
            };

    /// <summary>A correction of the gap by setting the derailleur on the axle again.</summary>
    private GapAdvice OnAxleAdvice(SetUpCorrection found, (int RingTeeth, int CogTeeth) gear) =>
        new()
        {
            Kind = found.Status switch
            {
                SetUpCorrectionStatus.Leave => GapAdviceKind.LeaveAsIs,
                SetUpCorrectionStatus.SetAgain => GapAdviceKind.SetAgain,
                SetUpCorrectionStatus.OtherMeans => GapAdviceKind.OtherMeans,
                SetUpCorrectionStatus.NotSet => GapAdviceKind.NotSet,
                _ => GapAdviceKind.NoGap,
            },
            Gear = gear,
            ReadMm = found.ReadMm,
            WantedMm = found.WantedMm,
            ModelMm = found.ExpectedMm,
            ExpectedMm = found.ExpectedMm,
            After = found.After is { } after ? After(after, 0) : [],
            SetUp = SetUpAdviceOf(found),
        };
}
