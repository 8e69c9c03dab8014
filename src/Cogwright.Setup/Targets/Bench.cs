using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Targets;

/// <summary>The bike on the stand as the target makers see it: what it has and what moves it.</summary>
internal sealed record Bench(QuantityCatalogue Catalogue, WorkSpec Work)
{
    /// <summary>Whether the rear shifts: a derailleur and more than one cog.</summary>
    internal bool ShiftsRear => Catalogue.HasRearDerailleur && Catalogue.Cogs.Length > 1;

    /// <summary>Whether a front derailleur shifts between rings.</summary>
    internal bool ShiftsFront => Work.FrontDerailleur && Catalogue.Rings.Length > 1;

    /// <summary>Whether motors shift.</summary>
    internal bool IsMotorDriven =>
        Work.Actuation is Actuation.MotorWired or Actuation.MotorWireless;

    /// <summary>Whether a cable shifts.</summary>
    internal bool IsCable => Work.Actuation is Actuation.Cable;

    /// <summary>Ending of a text key for what moves the derailleurs.</summary>
    internal string ByActuation => IsMotorDriven ? "motor" : "cable";

    /// <summary>Whether the rear derailleur sits on the axle: no hanger, no stop screws, no body-angle screw.</summary>
    internal bool IsOnAxle => Catalogue.IsOnAxle;

    /// <summary>
    /// Whether the rear axle stays hand-tight until the chain is on: it clamps the derailleur, or slides to tension the chain.
    /// </summary>
    internal bool AxleStaysLoose =>
        IsOnAxle || (Catalogue.AxleSlides && !Catalogue.HasRearDerailleur);

    /// <summary>Whether the rear derailleur's springs pull inboard; only against a cable (<see cref="WorkCheck"/>).</summary>
    internal bool RestsInboard => Catalogue.RestsInboard;

    /// <summary>Ending of a text key for what moves the rear derailleur and how it is mounted.</summary>
    internal string ByRear =>
        IsOnAxle ? $"{ByActuation}OnAxle"
        : RestsInboard ? "cableAtRest"
        : ByActuation;

    /// <summary>Ending of a text key for how the rear derailleur is mounted, or null for one on a hanger.</summary>
    internal string? ByMount => IsOnAxle ? "onAxle" : null;

    /// <summary>Ending of a text key for how a stop is reached: by the motor's offset or with the cable slack; null when it is pushed by hand.</summary>
    internal string? ByStop =>
        IsMotorDriven ? "motor"
        : RestsInboard ? "atRest"
        : null;

    /// <summary>The caution of the spokes, in the words that suit the derailleur.</summary>
    internal string SpokesCaution =>
        IsOnAxle ? "spokesOnAxle"
        : RestsInboard ? "spokesAtRest"
        : "spokes";

    /// <summary>The gear with the smallest ring on which a cog can be used; the smallest ring when none can.</summary>
    internal (int RingTeeth, int CogTeeth) OnSmallRing(int cogTeeth) =>
        Usable(Catalogue.Rings.Reverse(), cogTeeth);

    /// <summary>The gear with the largest ring on which a cog can be used; the largest ring when none can.</summary>
    internal (int RingTeeth, int CogTeeth) OnLargeRing(int cogTeeth) =>
        Usable(Catalogue.Rings, cogTeeth);

    /// <summary>Whether the rider may use the gear.</summary>
    internal bool IsUsable((int RingTeeth, int CogTeeth) gear) =>
        !Catalogue.GearsNotToUse.Any(g => (g.RingTeeth, g.CogTeeth) == gear);

    private (int RingTeeth, int CogTeeth) Usable(IEnumerable<int> rings, int cogTeeth)
    {
        foreach (var ring in rings)
        {
            if (IsUsable((ring, cogTeeth)))
            {
                return (ring, cogTeeth);
            }
        }
        return (rings.First(), cogTeeth);
    }
}
