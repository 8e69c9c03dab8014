using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>Something in a spec that cannot be.</summary>
/// <param name="Path">The field, as in the spec file, such as <c>cogs.teeth[3]</c>.</param>
/// <param name="Message">What is wrong and what was expected.</param>
public sealed record SpecProblem(string Path, string Message);

/// <summary>
/// Says what in a spec cannot be: absurd sizes, cogs out of order, sprockets that overlap. The solver may be asked
/// only about a spec without problems.
/// </summary>
public static partial class SpecCheck
{
    /// <summary>Longest length that any part of a bicycle may have here (mm).</summary>
    private const double LongestMm = 5000;

    /// <summary>Greatest wear taken seriously: a chain at 5 % would have jumped long ago.</summary>
    private const double MostElongation = 0.05;

    /// <summary>Most rings, and most cogs, that a bike may have here.</summary>
    public const int MostSprockets = 20;

    /// <summary>Longest chain (pitches); tandems and cargo bikes stay below.</summary>
    public const int MostPitches = 500;

    /// <summary>All problems, in the order of the spec; empty when there is none.</summary>
    public static ImmutableArray<SpecProblem> Problems(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var problems = ImmutableArray.CreateBuilder<SpecProblem>();
        CheckFrame(spec.Frame, problems);
        CheckRearEnd(spec, problems);
        CheckRings(spec, problems);
        CheckCogs(spec.Cogs, problems);
        CheckChain(spec.Chain, problems);
        CheckLateral(spec, problems);
        if (spec.RearDerailleur is { } derailleur)
        {
            CheckDerailleur(spec, derailleur, problems);
        }
        else if (spec.Rings.Length > 1 || spec.Cogs.Teeth.Length > 1)
        {
            problems.Add(new("rearDerailleur", Texts.Get("check.derailleurNeeded")));
        }
        CheckShifting(spec, problems);
        CheckFront(spec, problems);
        if (spec.Measured is { } measured)
        {
            CheckMeasured(spec, measured, problems);
        }
        foreach (var gear in spec.GearsNotUsed)
        {
            if (
                !spec.Rings.Any(ring => ring.Teeth == gear.RingTeeth)
                || !spec.Cogs.Teeth.Contains(gear.CogTeeth)
            )
            {
                problems.Add(
                    new(
                        "gearsNotUsed",
                        Texts.Get("check.noSuchGear", gear.RingTeeth, gear.CogTeeth)
                    )
                );
            }
        }
        if (problems.Count == 0)
        {
            CheckOverlap(spec, problems);
            CheckIdlerOverTravel(spec, problems);
        }
        return problems.ToImmutable();
    }

    private static void CheckFrame(Frame frame, ImmutableArray<SpecProblem>.Builder problems)
    {
        Range(problems, "frame.chainstay", frame.ChainstayMm, 100, 2000);
        Range(problems, "frame.bbDrop", frame.BottomBracketDropMm, -300, 300);
        Range(problems, "frame.axleTravel", frame.AxleTravelMm, 0, 100);
        if (Math.Abs(frame.BottomBracketDropMm) >= frame.ChainstayMm)
        {
            problems.Add(new("frame.bbDrop", Texts.Get("check.dropBeyondStay")));
        }
    }

    private static void CheckRings(
        DrivetrainSpec spec,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        if (spec.Rings.Length is < 1 or > MostSprockets)
        {
            problems.Add(
                new("rings", Texts.Get("check.count", spec.Rings.Length, 1, MostSprockets))
            );
            return;
        }
        for (var i = 0; i < spec.Rings.Length; i++)
        {
            var ring = spec.Rings[i];
            Teeth(problems, $"rings[{i}].teeth", ring.Teeth);
            Range(problems, $"rings[{i}].lateral", ring.LateralMm, -200, 200);
            Tip(problems, $"rings[{i}].tipDiameter", ring.Teeth, ring.TipDiameterMm);
            for (var j = 0; j < i; j++)
            {
                if (spec.Rings[j].Teeth == ring.Teeth)
                {
                    problems.Add(
                        new($"rings[{i}].teeth", Texts.Get("check.ringTwice", ring.Teeth))
                    );
                }
            }
        }
    }

    private static void CheckCogs(CogSet cogs, ImmutableArray<SpecProblem>.Builder problems)
    {
        if (cogs.Teeth.Length is < 1 or > MostSprockets)
        {
            problems.Add(
                new("cogs.teeth", Texts.Get("check.count", cogs.Teeth.Length, 1, MostSprockets))
            );
            return;
        }
        for (var i = 0; i < cogs.Teeth.Length; i++)
        {
            Teeth(problems, $"cogs.teeth[{i}]", cogs.Teeth[i]);
            Tip(problems, $"cogs.tipDiameters[{i}]", cogs.Teeth[i], cogs.TipDiameterMm(i));
            if (i > 0 && cogs.Teeth[i] <= cogs.Teeth[i - 1])
            {
                problems.Add(
                    new(
                        $"cogs.teeth[{i}]",
                        Texts.Get("check.cogOrder", cogs.Teeth[i], cogs.Teeth[i - 1])
                    )
                );
            }
        }
        if (cogs.TipDiametersMm.Length > cogs.Teeth.Length)
        {
            problems.Add(
                new("cogs.tipDiameters", Texts.Get("check.tooManyTips", cogs.Teeth.Length))
            );
        }
        Range(problems, "cogs.smallestLateral", cogs.SmallestLateralMm, -200, 200);
        Range(problems, "cogs.spacing", cogs.SpacingMm, cogs.Teeth.Length > 1 ? 1 : 0, 10);
    }

    private static void CheckChain(Chain chain, ImmutableArray<SpecProblem>.Builder problems)
    {
        Range(problems, "chain.elongation", chain.Elongation, -0.005, MostElongation);
        if (chain.Pitches is not { } pitches)
        {
            return;
        }
        if (pitches is < 10 or > MostPitches)
        {
            problems.Add(
                new("chain.pitches", Texts.Get("check.range", pitches, 10, MostPitches, ""))
            );
        }
        else if (pitches % 2 != 0 && !chain.HalfLink)
        {
            problems.Add(new("chain.pitches", Texts.Get("check.oddChain", pitches)));
        }
    }

    private static void CheckDerailleur(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        if (spec.Hanger is { } hanger)
        {
            Offset(problems, "hanger.offset", hanger.OffsetMm, 200);
        }
        else if (derailleur.Coaxial is null)
        {
            problems.Add(new("hanger", Texts.Get("check.hangerNeeded")));
            return;
        }
        CheckMount(spec, derailleur, problems);
        Angle(problems, "rearDerailleur.bodyAngle", derailleur.BodyAngleRad);
        Offset(problems, "rearDerailleur.upperPivot", derailleur.UpperPivotMm, 200);
        Range(problems, "rearDerailleur.linkLength", derailleur.LinkLengthMm, 5, 300);
        Angle(problems, "rearDerailleur.linkAngle", derailleur.LinkAngleRad);
        AngleWithin(problems, "rearDerailleur.slant", derailleur.SlantRad, 89);
        Range(
            problems,
            "rearDerailleur.guideLateralAtZero",
            derailleur.GuideLateralAtZeroMm,
            -200,
            200
        );
        Range(problems, "rearDerailleur.indexOffset", derailleur.IndexOffsetMm, -20, 20);
        Range(problems, "rearDerailleur.leastGap", derailleur.LeastGapMm, 0, 50);
        Range(problems, "rearDerailleur.leastMargin", derailleur.LeastMarginMm, 0, 100);
        CheckStops(derailleur, problems);
        CheckCage(derailleur.Cage, problems);
        CheckSprung(spec, derailleur, problems);
        if (derailleur.BodyAngleScrew is { } screw)
        {
            CheckScrew("rearDerailleur.bodyAngleScrew", screw, problems);
        }
    }

    private static void CheckStops(
        RearDerailleur derailleur,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        if (derailleur.OutboardStopRad is { } outboard)
        {
            AngleWithin(problems, "rearDerailleur.outboardStop", outboard, 90);
        }
        if (derailleur.InboardStopRad is { } inboard)
        {
            AngleWithin(problems, "rearDerailleur.inboardStop", inboard, 90);
        }
        if (derailleur.OutboardStopRad >= derailleur.InboardStopRad)
        {
            problems.Add(new("rearDerailleur.inboardStop", Texts.Get("check.stopOrder")));
        }
    }

    private static void CheckCage(PulleyCage cage, ImmutableArray<SpecProblem>.Builder problems)
    {
        const string path = "rearDerailleur.cage";
        Offset(problems, $"{path}.guide.offset", cage.Guide.OffsetMm, 200);
        Teeth(problems, $"{path}.guide.teeth", cage.Guide.Teeth);
        Tip(problems, $"{path}.guide.tipDiameter", cage.Guide.Teeth, cage.Guide.TipDiameterMm);
        Offset(problems, $"{path}.tension.offset", cage.Tension.OffsetMm, 300);
        Teeth(problems, $"{path}.tension.teeth", cage.Tension.Teeth);
        Tip(
            problems,
            $"{path}.tension.tipDiameter",
            cage.Tension.Teeth,
            cage.Tension.TipDiameterMm
        );
        AngleWithin(problems, $"{path}.rearStop", cage.RearStopRad, 270);
        AngleWithin(problems, $"{path}.frontStop", cage.FrontStopRad, 270);
        if (!(cage.RearStopRad < cage.FrontStopRad))
        {
            problems.Add(new($"{path}.frontStop", Texts.Get("check.cageStopOrder")));
        }
        if (cage.Spring is { } spring)
        {
            Range(problems, $"{path}.spring.torqueAtRearStop", spring.TorqueAtRearStopNm, 0, 50);
            Range(problems, $"{path}.spring.rate", spring.RateNmPerRad, 0, 50);
            Range(problems, $"{path}.spring.damperTorque", spring.DamperTorqueNm, 0, 50);
        }
        var apart = (cage.Tension.OffsetMm - cage.Guide.OffsetMm).Length;
        if (
            cage.Guide.Teeth is >= Sprocket.LeastTeeth and <= Sprocket.MostTeeth
            && cage.Tension.Teeth is >= Sprocket.LeastTeeth and <= Sprocket.MostTeeth
        )
        {
            var least =
                Sprocket.PitchRadiusMm(cage.Guide.Teeth)
                + Sprocket.PitchRadiusMm(cage.Tension.Teeth);
            if (!(apart > least))
            {
                problems.Add(
                    new($"{path}.tension.offset", Texts.Get("check.pulleysOverlap", apart, least))
                );
            }
        }
    }

    private static void CheckScrew(
        string path,
        Adjuster screw,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        if (screw.ThreadPitchMm is { } pitch)
        {
            Range(problems, $"{path}.threadPitch", pitch, 0.1, 5);
        }
        if (screw.LeverRadiusMm is { } lever)
        {
            Range(problems, $"{path}.leverRadius", lever, 1, 200);
        }
        if (screw.TurnsLeftIn is { } turnsIn)
        {
            Range(problems, $"{path}.turnsLeftIn", turnsIn, 0, 100);
        }
        if (screw.TurnsLeftOut is { } turnsOut)
        {
            Range(problems, $"{path}.turnsLeftOut", turnsOut, 0, 100);
        }
        Range(problems, $"{path}.leastTurn", screw.LeastTurn, 0.01, 2);
    }

    /// <summary>The ring and the cog of every gear must stand apart; the two at fault are named.</summary>
    private static void CheckOverlap(
        DrivetrainSpec spec,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        var ring = spec.Rings.Max(r => r.Teeth);
        var cog = spec.Cogs.Teeth[^1];
        var needed = Sprocket.PitchRadiusMm(ring) + Sprocket.PitchRadiusMm(cog);
        if (spec.Frame.ChainstayMm <= needed)
        {
            problems.Add(
                new(
                    "frame.chainstay",
                    Texts.Get("check.sprocketsOverlap", ring, cog, spec.Frame.ChainstayMm, needed)
                )
            );
        }
    }

    private static void Teeth(ImmutableArray<SpecProblem>.Builder problems, string path, int teeth)
    {
        if (teeth is < Sprocket.LeastTeeth or > Sprocket.MostTeeth)
        {
            problems.Add(
                new(path, Texts.Get("check.teeth", teeth, Sprocket.LeastTeeth, Sprocket.MostTeeth))
            );
        }
    }

    private static void Tip(
        ImmutableArray<SpecProblem>.Builder problems,
        string path,
        int teeth,
        double? tipMm
    )
    {
        if (tipMm is { } tip && teeth is >= Sprocket.LeastTeeth and <= Sprocket.MostTeeth)
        {
            var pitchDiameter = 2 * Sprocket.PitchRadiusMm(teeth);
            // Shaped teeth stand within a few mm of the pitch circle; anything else is another sprocket.
            Range(problems, path, tip, pitchDiameter - 3, pitchDiameter + 15);
        }
    }

    private static void Offset(
        ImmutableArray<SpecProblem>.Builder problems,
        string path,
        Point offset,
        double mostMm
    )
    {
        Range(problems, $"{path}[0]", offset.X, -mostMm, mostMm);
        Range(problems, $"{path}[1]", offset.Y, -mostMm, mostMm);
    }

    private static void Angle(
        ImmutableArray<SpecProblem>.Builder problems,
        string path,
        double angleRad
    ) => AngleWithin(problems, path, angleRad, 180);

    private static void AngleWithin(
        ImmutableArray<SpecProblem>.Builder problems,
        string path,
        double angleRad,
        double mostDeg
    )
    {
        var degrees = angleRad * 180 / Math.PI;
        if (!(Math.Abs(degrees) <= mostDeg + 1e-9))
        {
            problems.Add(new(path, Texts.Get("check.range", degrees, -mostDeg, mostDeg, " °")));
        }
    }

    private static void Range(
        ImmutableArray<SpecProblem>.Builder problems,
        string path,
        double value,
        double least,
        double most
    )
    {
        // Written so that NaN is refused too.
        if (!(value >= least && value <= most && Math.Abs(value) <= LongestMm))
        {
            problems.Add(new(path, Texts.Get("check.range", value, least, most, "")));
        }
    }
}
