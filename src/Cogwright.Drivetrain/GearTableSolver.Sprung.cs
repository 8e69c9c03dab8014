namespace Cogwright.Drivetrain;

/// <content>The sprung mount: the body's angle is a second unknown in every gear.</content>
/// <remarks>
/// Model and symbols: docs/theory/mounts-sprung.md. For each body angle the closure gives the cage angle, so that one
/// root is sought, in the body angle alone.
/// </remarks>
public static partial class GearTableSolver
{
    private const double MetresPerMillimetre = 1e-3;

    /// <summary>The body angle is found within this (rad): a gap moves by less than 1e-8 mm over it.</summary>
    private const double BodyWithinRad = 1e-11;

    /// <summary>
    /// Steps from the forward limit to the rearward rest when the ends do not bracket a balance. Between two of them
    /// (about a degree) the moment would have to change sign twice to hide one; no random mechanism of the tests has two.
    /// </summary>
    private const int BodyScan = 32;

    /// <summary>Bound on the search's steps: bisection alone takes 39 over a quarter turn.</summary>
    private const int MostBodySteps = 200;

    /// <summary>
    /// A gear of a table on a sprung mount again, with friction that resists the cage on its way forward (N·m), or
    /// negative, on its way rearward.
    /// </summary>
    internal static GearResult AgainstFriction(
        GearTable table,
        RearDerailleur derailleur,
        SprungMount mount,
        in GearResult gear,
        double frictionNm
    )
    {
        var place = table.Place;
        return OnSpring(
            new(
                table.Spec,
                derailleur,
                mount,
                place,
                gear.RingIndex,
                gear.CogIndex,
                table.Pitches,
                table.BodyAngleRad
            )
            {
                FrictionNm = frictionNm,
            },
            place
        );
    }

    private static GearResult OnSpring(SprungBody body, in RearPlace place)
    {
        var balance = body.Balance();
        var result = WithDerailleur(
            body.Spec,
            body.Derailleur,
            CogReach.Of(body.Spec, place, body.Cog, balance.BodyAngleRad),
            body.Ring,
            body.Pitches
        ) with
        {
            BodyRest = balance.Rest,
        };
        if (double.IsNaN(result.TopRunMm))
        {
            return result;
        }
        var pitch = body.PitchMm;
        var (needs, foremost) = body.Needs();
        var takes = body.Takes();
        var tight = (body.Pitches - needs) * pitch;
        var loose = (takes - body.Pitches) * pitch;
        return result with
        {
            NeedsAtFrontStop = needs,
            ForemostCageAngleRad = foremost,
            TakesAtRearStop = takes,
            TightMarginMm = tight,
            LooseMarginMm = loose,
            ShortfallMm = result.State switch
            {
                GearState.Short => -tight,
                GearState.Slack => -loose,
                _ => result.ShortfallMm,
            },
            LowerRunTensionN = result.HasPose ? balance.TensionN : double.NaN,
            Evaluations = result.Evaluations + body.Evaluations,
        };
    }

    /// <summary>Where the body comes to rest, and the tension of the lower run there (N; NaN when there is none to speak of).</summary>
    private readonly record struct Balanced(double BodyAngleRad, BodyRest Rest, double TensionN);

    /// <summary>One gear as a function of the body angle.</summary>
    private struct SprungBody
    {
        private readonly SprungMount mount;
        private readonly RearPlace place;
        private readonly double anchorTurnRad;

        internal SprungBody(
            DrivetrainSpec spec,
            RearDerailleur derailleur,
            SprungMount mount,
            in RearPlace place,
            int ring,
            int cog,
            int pitches,
            double bodyAngleRad
        )
        {
            Spec = spec;
            Derailleur = derailleur;
            Ring = ring;
            Cog = cog;
            Pitches = pitches;
            this.mount = mount;
            this.place = place;
            anchorTurnRad = bodyAngleRad - derailleur.BodyAngleRad;
        }

        internal DrivetrainSpec Spec { get; }
        internal RearDerailleur Derailleur { get; }
        internal int Ring { get; }
        internal int Cog { get; }
        internal int Pitches { get; }

        /// <summary>What the cage has to overcome beside its spring on its way forward (N·m).</summary>
        internal double FrictionNm { get; init; }

        internal int Evaluations { get; private set; }

        internal readonly double PitchMm => Spec.Chain.PitchMm;

        /// <summary>Whether the pulley reaches the cog and the upper run can be: neither depends on the body angle.</summary>
        internal readonly bool IsServed
        {
            get
            {
                var reach = CogReach.Of(Spec, place, Cog, mount.RearRestRad);
                return reach.Blame == Blame.None && Closure(reach).Upper.IsPossible;
            }
        }

        /// <summary>The foremost body angle at which spring and chain balance, as the body comes back from its forward limit.</summary>
        internal Balanced Balance()
        {
            if (!IsServed)
            {
                return new(mount.RearRestRad, BodyRest.OnTab, double.NaN);
            }
            var front = At(mount.ForwardLimitRad);
            if (front.ImbalanceNm >= 0)
            {
                return new(front.BodyAngleRad, BodyRest.AtForwardLimit, front.TensionN);
            }
            var onTab = At(mount.RearRestRad);
            var rear = onTab;
            var found = rear.ImbalanceNm > 0;
            var range = mount.ForwardLimitRad - mount.RearRestRad;
            for (var i = 1; i < BodyScan && !found; i++)
            {
                var next = At(mount.ForwardLimitRad - (i * range / BodyScan));
                found = next.ImbalanceNm > 0;
                (rear, front) = found ? (next, front) : (rear, next);
            }
            return found
                ? Between(rear, front)
                : new(mount.RearRestRad, BodyRest.OnTab, onTab.TensionN);
        }

        /// <summary>Least chain that the gear needs (pitches), and the cage angle there: body and cage as far forward as they go.</summary>
        internal (double Pitches, double CageAngleRad) Needs()
        {
            var range = mount.ForwardLimitRad - mount.RearRestRad;
            var without = double.NaN;
            for (var i = 0; i <= BodyScan; i++)
            {
                var angle = mount.ForwardLimitRad - (i * range / BodyScan);
                var at = NeedsAt(angle);
                if (double.IsNaN(at.Pitches))
                {
                    without = angle;
                    continue;
                }
                // In front of the first angle with a pose lies the edge at which sprockets begin to overlap.
                while (without - angle > BodyWithinRad)
                {
                    var middle = 0.5 * (without + angle);
                    var there = NeedsAt(middle);
                    if (double.IsNaN(there.Pitches))
                    {
                        without = middle;
                    }
                    else
                    {
                        (angle, at) = (middle, there);
                    }
                }
                return at;
            }
            return (double.NaN, double.NaN);
        }

        /// <summary>Most chain that the gear takes (pitches): body at its rearward rest, cage at its rear stop.</summary>
        internal double Takes()
        {
            var range = mount.ForwardLimitRad - mount.RearRestRad;
            for (var i = 0; i <= BodyScan; i++)
            {
                var reach = CogReach.Of(
                    Spec,
                    place,
                    Cog,
                    mount.RearRestRad + (i * range / BodyScan)
                );
                var closure = Closure(reach);
                var takes = closure.TakesPitches(FrontStop(reach), RearStop(reach));
                Evaluations += closure.Evaluations;
                if (!double.IsNaN(takes))
                {
                    return takes;
                }
            }
            return double.NaN;
        }

        private (double Pitches, double CageAngleRad) NeedsAt(double bodyAngleRad)
        {
            var reach = CogReach.Of(Spec, place, Cog, bodyAngleRad);
            var closure = Closure(reach);
            // A chain of no length is too short at once: the walk ends at the first possible pose.
            _ = closure.Walk(FrontStop(reach), RearStop(reach), 0);
            Evaluations += closure.Evaluations;
            return (closure.NeedsPitches, closure.ForemostRad);
        }

        private readonly CageClosure Closure(in CogReach reach) =>
            ClosureOf(Spec, Derailleur.Cage, reach, Ring);

        private readonly double RearStop(in CogReach reach) =>
            Derailleur.Cage.RearStopRad + reach.BodyTurnRad;

        private readonly double FrontStop(in CogReach reach) =>
            Derailleur.Cage.FrontStopRad + reach.BodyTurnRad;

        /// <summary>Moment of the chain less that of the spring, about the hanger bolt (N·m, forward), at a body angle.</summary>
        /// <remarks>
        /// A chain too short at that angle pulls the body forward without limit; one that hangs does not pull; where
        /// sprockets would overlap at every cage angle the body cannot come so far forward.
        /// </remarks>
        private Sample At(double bodyAngleRad)
        {
            var reach = CogReach.Of(Spec, place, Cog, bodyAngleRad);
            var closure = Closure(reach);
            var rearStop = RearStop(reach);
            var end = closure.Walk(FrontStop(reach), rearStop, Pitches);
            Evaluations += closure.Evaluations;
            var resists = mount.TorqueNm(bodyAngleRad, anchorTurnRad);
            if (end is not (ClosureEnd.Taut or ClosureEnd.Jammed))
            {
                return new(
                    bodyAngleRad,
                    end,
                    end switch
                    {
                        ClosureEnd.Short => double.PositiveInfinity,
                        ClosureEnd.Slack => -resists,
                        _ => double.NegativeInfinity,
                    },
                    double.NaN,
                    double.NaN
                );
            }
            var theta = closure.CageAngleRad;
            if (end == ClosureEnd.Jammed)
            {
                _ = closure.PathPitches(theta);
            }
            var onCage = closure.TensionLeverMm(theta) * MetresPerMillimetre;
            var bolt = place.Pose.Carry(Spec.BoltOffsetMm);
            var arm = reach.CagePivot - bolt;
            var pull = closure.PullPerTension;
            var onBody = onCage + (((arm.X * pull.Y) - (arm.Y * pull.X)) * MetresPerMillimetre);
            var spring = Derailleur.Cage.Spring!;
            // Friction that outdoes the spring leaves the chain without tension: a chain does not push.
            var torque = Math.Max(0, spring.TorqueNm(theta - rearStop) + FrictionNm);
            return new(
                bodyAngleRad,
                end,
                onCage > 0 ? (torque / onCage * onBody) - resists : double.PositiveInfinity,
                onCage > 0 ? torque / onCage : double.NaN,
                resists / onBody
            );
        }

        /// <summary>
        /// The balance between a body angle that the chain pulls forward and one that the spring pulls rearward, by
        /// <see cref="Chandrupatla"/>'s method, halving where one of the three has no pose.
        /// </summary>
        private Balanced Between(in Sample rear, in Sample front)
        {
            var (b, a) = (rear, front);
            var c = a;
            var part = 0.5;
            for (var step = 0; step < MostBodySteps; step++)
            {
                var next = At(a.BodyAngleRad + (part * (b.BodyAngleRad - a.BodyAngleRad)));
                var sameSide = next.ImbalanceNm > 0 == a.ImbalanceNm > 0;
                (c, b) = sameSide ? (a, b) : (b, a);
                a = next;
                var width = Math.Abs(b.BodyAngleRad - a.BodyAngleRad);
                if (a.ImbalanceNm == 0 || width <= BodyWithinRad)
                {
                    break;
                }
                part = Chandrupatla.Inside(Part(a, b, c), width, BodyWithinRad);
            }
            return Rests(a, b);
        }

        private static double Part(in Sample a, in Sample b, in Sample c) =>
            a.IsTaut && b.IsTaut && c.IsTaut
                ? Chandrupatla.Part(
                    (a.BodyAngleRad, a.ImbalanceNm),
                    (b.BodyAngleRad, b.ImbalanceNm),
                    (c.BodyAngleRad, c.ImbalanceNm)
                )
                : 0.5;

        /// <summary>The end of the closed bracket that has a pose. Where the other has none the cage is at one of its stops, and the body alone says the tension.</summary>
        private static Balanced Rests(in Sample a, in Sample b)
        {
            if (a.IsTaut && b.IsTaut)
            {
                var nearer = Math.Abs(a.ImbalanceNm) <= Math.Abs(b.ImbalanceNm) ? a : b;
                return new(nearer.BodyAngleRad, BodyRest.Balanced, nearer.TensionN);
            }
            var (taut, other) = a.IsTaut ? (a, b) : (b, a);
            if (!taut.IsTaut)
            {
                // Too short just behind where sprockets would overlap: the body goes no further forward.
                taut = taut.End == ClosureEnd.Short ? taut : other;
                return new(taut.BodyAngleRad, BodyRest.AtForwardLimit, double.NaN);
            }
            var atStop = other.End is ClosureEnd.Short or ClosureEnd.Slack;
            return new(
                taut.BodyAngleRad,
                BodyRest.Balanced,
                atStop && taut.HoldsWithN > 0 ? taut.HoldsWithN : taut.TensionN
            );
        }
    }

    /// <summary>The moments at one body angle.</summary>
    /// <param name="BodyAngleRad">The body angle (rad).</param>
    /// <param name="End">What the closure found there.</param>
    /// <param name="ImbalanceNm">Moment of the chain less that of the spring about the hanger bolt (N·m, forward).</param>
    /// <param name="TensionN">Tension that the cage's spring makes (N); NaN where it makes none or the cage has no lever.</param>
    /// <param name="HoldsWithN">Tension that would hold the body there (N).</param>
    private readonly record struct Sample(
        double BodyAngleRad,
        ClosureEnd End,
        double ImbalanceNm,
        double TensionN,
        double HoldsWithN
    )
    {
        internal bool IsTaut =>
            End is ClosureEnd.Taut or ClosureEnd.Jammed && double.IsFinite(ImbalanceNm);
    }
}
