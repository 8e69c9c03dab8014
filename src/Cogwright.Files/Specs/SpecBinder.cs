using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Fastening;
using Cogwright.Files.Fields;
using Cogwright.Setup;

namespace Cogwright.Files;

/// <summary>Builds the spec from values that are all there and all of the right kind.</summary>
internal static class SpecBinder
{
    internal static SpecFile Bind(Leaves leaves) =>
        new(
            new DrivetrainSpec
            {
                Name = leaves.Text("name")!,
                Frame = new()
                {
                    ChainstayMm = leaves.Number("frame.chainstay"),
                    BottomBracketDropMm = leaves.Number("frame.bbDrop"),
                    AxleTravelMm = leaves.NumberOrNull("frame.axleTravel") ?? 0,
                    Suspension = RearEndBinder.Suspension(leaves),
                },
                Hanger = ShiftingBinder.Hanger(leaves),
                Rings = Rings(leaves),
                Cogs = new()
                {
                    Teeth = (ImmutableArray<int>)leaves.Find("cogs.teeth")!.Value,
                    SmallestLateralMm = leaves.Number("cogs.smallestLateral"),
                    SpacingMm = leaves.Number("cogs.spacing"),
                    TipDiametersMm =
                        leaves.Find("cogs.tipDiameters")?.Value as ImmutableArray<double?>? ?? [],
                },
                Chain = new()
                {
                    Pitches = leaves.WholeOrNull("chain.pitches"),
                    Elongation = leaves.NumberOrNull("chain.elongation") ?? 0,
                    HalfLink = leaves.Flag("chain.halfLink") ?? false,
                },
                RearDerailleur = leaves.HasGroup("rearDerailleur") ? Derailleur(leaves) : null,
                GearsNotUsed = Gears(leaves),
                Assumptions = Assumptions(leaves),
                Lateral = LateralBinder.Bind(leaves),
                Shifting = ShiftingBinder.Shifting(leaves),
                Adjusters = ShiftingBinder.Adjusters(leaves),
                Idler = RearEndBinder.Idler(leaves),
                FrontDerailleur = FrontBinder.Bind(leaves),
                Measured = MeasuredBinder.Bind(leaves),
            },
            Work(leaves)
        );

    private static ImmutableArray<Ring> Rings(Leaves leaves) =>
        [
            .. Enumerable
                .Range(0, leaves.Count("rings"))
                .Select(i => $"rings[{i}].")
                .Select(p => new Ring(
                    leaves.Whole(p + "teeth"),
                    leaves.Number(p + "lateral"),
                    leaves.NumberOrNull(p + "tipDiameter")
                )),
        ];

    private static ImmutableArray<Gear> Gears(Leaves leaves) =>
        [
            .. Enumerable
                .Range(0, leaves.Count("gearsNotUsed"))
                .Select(i => $"gearsNotUsed[{i}].")
                .Select(p => new Gear(leaves.Whole(p + "ring"), leaves.Whole(p + "cog"))),
        ];

    private static RearDerailleur Derailleur(Leaves leaves)
    {
        const string path = "rearDerailleur.";
        var derailleur = new RearDerailleur
        {
            BodyAngleRad = leaves.Number(path + "bodyAngle"),
            UpperPivotMm = (Point)leaves.Find(path + "upperPivot")!.Value,
            LinkLengthMm = leaves.Number(path + "linkLength"),
            LinkAngleRad = leaves.Number(path + "linkAngle"),
            SlantRad = leaves.Number(path + "slant"),
            GuideLateralAtZeroMm = leaves.Number(path + "guideLateralAtZero"),
            OutboardStopRad = LateralBinder.StopRad(leaves, "outboardStop"),
            InboardStopRad = LateralBinder.StopRad(leaves, "inboardStop"),
            IndexOffsetMm = leaves.NumberOrNull(path + "indexOffset") ?? 0,
            Cage = Cage(leaves),
            BodyAngleScrew = leaves.HasGroup(path + "bodyAngleScrew") ? Screw(leaves) : null,
            Sprung = SprungBinder.Sprung(leaves),
        };
        derailleur = MountBinder.Bind(leaves, derailleur);
        // The record's own defaults stand when nothing is given.
        return derailleur with
        {
            LeastGapMm = leaves.NumberOrNull(path + "leastGap") ?? derailleur.LeastGapMm,
            LeastMarginMm = leaves.NumberOrNull(path + "leastMargin") ?? derailleur.LeastMarginMm,
        };
    }

    private static PulleyCage Cage(Leaves leaves)
    {
        const string path = "rearDerailleur.cage.";
        return new()
        {
            Guide = Pulley(leaves, path + "guide.") with
            {
                FloatMm = leaves.NumberOrNull(path + "guide.float"),
            },
            Tension = Pulley(leaves, path + "tension."),
            RearStopRad = leaves.Number(path + "rearStop"),
            FrontStopRad = leaves.Number(path + "frontStop"),
            Spring = leaves.HasGroup(path + "spring")
                ? new CageSpring(
                    leaves.Number(path + "spring.torqueAtRearStop"),
                    leaves.Number(path + "spring.rate"),
                    leaves.NumberOrNull(path + "spring.damperTorque") ?? 0
                )
                : null,
            Damper = SprungBinder.Damper(leaves),
        };
    }

    private static CagePulley Pulley(Leaves leaves, string path) =>
        new(
            (Point)leaves.Find(path + "offset")!.Value,
            leaves.Whole(path + "teeth"),
            leaves.NumberOrNull(path + "tipDiameter")
        );

    private static Adjuster Screw(Leaves leaves)
    {
        const string path = "rearDerailleur.bodyAngleScrew.";
        var screw = new Adjuster
        {
            Name = leaves.Text(path + "name")!,
            Moves = Moves.BodyAngle,
            Tool = leaves.Text(path + "tool"),
            ThreadPitchMm = leaves.NumberOrNull(path + "threadPitch"),
            LeverRadiusMm = leaves.NumberOrNull(path + "leverRadius"),
            TurnsLeftIn = leaves.NumberOrNull(path + "turnsLeftIn"),
            TurnsLeftOut = leaves.NumberOrNull(path + "turnsLeftOut"),
            ClockwiseWidensGap = leaves.Text(path + "clockwise") != SpecFields.NarrowsGap,
        };
        return screw with
        {
            LeastTurn = leaves.NumberOrNull(path + "leastTurn") ?? screw.LeastTurn,
        };
    }

    private static WorkSpec Work(Leaves leaves)
    {
        const string gap = "rearDerailleur.gap";
        var actuation = leaves.Text("work.actuation");
        var hasDerailleur = leaves.HasGroup("rearDerailleur");
        return new()
        {
            Actuation =
                actuation is not null ? (Actuation)SpecFields.ActuationNames.IndexOf(actuation)
                : hasDerailleur ? Actuation.Cable
                : Actuation.None,
            FrontDerailleur = leaves.Flag("work.frontDerailleur") ?? leaves.Count("rings") > 1,
            Assisted = leaves.Flag("work.assisted") ?? false,
            Torques =
            [
                .. Fasteners
                    .All.Where(f => leaves.HasGroup($"work.torques.{f}"))
                    .Select(f => TorqueOf(leaves, f)),
            ],
            Gap = leaves.HasGroup(gap)
                ? new GapTarget(
                    leaves.Whole(gap + ".ring"),
                    leaves.Whole(gap + ".cog"),
                    leaves.Number(gap + ".value"),
                    leaves.Number(gap + ".tolerance")
                )
                : null,
        };
    }

    /// <summary>One value is a range without width; <see cref="SpecChecks"/> tells when neither is complete.</summary>
    private static TorqueSpec TorqueOf(Leaves leaves, string fastener)
    {
        var path = $"work.torques.{fastener}.";
        var value = leaves.NumberOrNull(path + "value");
        return new(
            fastener,
            value ?? leaves.NumberOrNull(path + "lower") ?? double.NaN,
            value ?? leaves.NumberOrNull(path + "upper") ?? double.NaN,
            leaves.Text(path + "tool")
        );
    }

    private static ImmutableArray<Assumption> Assumptions(Leaves leaves) =>
        [
            .. leaves
                .All.Where(l => l.Value.From is not null && l.Value.Shape is not ChoiceShape)
                .Select(l => new Assumption(
                    l.Key,
                    ValueText.ForPeople(l.Value.Value, l.Value.Shape),
                    l.Value.From!
                ))
                .OrderBy(a => SpecOrder.Of(a.Path))
                .ThenBy(a => a.Path, StringComparer.Ordinal),
        ];
}
