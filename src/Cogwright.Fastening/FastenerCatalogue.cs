using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Cogwright.Fastening;

/// <summary>
/// The fasteners of a bike with the trade's ranges, threads and treatments: all common practice, N·m. Where practice differs by
/// kind the usual one stands first; another may ask for less, so the walk round names every kind where only the trade gives a figure.
/// </summary>
public static class FastenerCatalogue
{
    private static readonly ScrewThread M4 = ScrewThread.OfCoarse(4);
    private static readonly ScrewThread M5 = ScrewThread.OfCoarse(5);
    private static readonly ScrewThread M6 = ScrewThread.OfCoarse(6);

    /// <summary>Every fastener; those of one station stand in the order of the walk round the bike.</summary>
    public static ImmutableArray<Fastener> All { get; } =
    [
        new()
        {
            Id = Fasteners.RearAxle,
            Places = [new(BikeStation.RearEnd)],
            Ranges =
            [
                Of(FastenerKinds.ThroughAxle, 9, 15),
                Of(FastenerKinds.QuickRelease, 5, 7.5),
                // The one figure that the trade hands on, 35 N·m, and our 1 N·m either way.
                Of(FastenerKinds.ClampsDerailleur, 34, 36),
            ],
            Treatment = ThreadTreatment.Greased,
            IsSafetyCritical = true,
        },
        new()
        {
            Id = Fasteners.HangerScrews,
            Places = [new(BikeStation.RearEnd, 2)],
            Ranges =
            [
                Of(FastenerKinds.SmallScrews, 1, 2),
                Of(FastenerKinds.ThreadedNut, 8, 12),
                Of(FastenerKinds.LargeBolt, 25, 25),
            ],
            Thread = M4,
            Treatment = ThreadTreatment.Threadlocker,
            SettingsRestOnIt = true,
        },
        new()
        {
            Id = Fasteners.Lockring,
            Places = [new(BikeStation.RearEnd)],
            Ranges = [Of(FastenerKinds.Usual, 29, 50)],
            Treatment = ThreadTreatment.Greased,
            SettingsRestOnIt = true,
        },
        new()
        {
            Id = Fasteners.RearMount,
            Places = [new(BikeStation.RearDerailleur)],
            Ranges = [Of(FastenerKinds.Usual, 8, 10), Of(FastenerKinds.Coaxial, 10, 15)],
            Thread = new(10, 1),
            Treatment = ThreadTreatment.Greased,
        },
        new()
        {
            Id = Fasteners.Pulleys,
            Places = [new(BikeStation.RearDerailleur, 2)],
            Ranges = [Of(FastenerKinds.Usual, 3, 4), Of(FastenerKinds.OtherMaker, 2.5, 5)],
            Thread = M5,
            Treatment = ThreadTreatment.Threadlocker,
            SettingsRestOnIt = true,
        },
        new()
        {
            Id = Fasteners.RearCable,
            Places = [new(BikeStation.RearDerailleur)],
            Ranges = [Of(FastenerKinds.Usual, 5, 7), Of(FastenerKinds.OtherMaker, 4, 5)],
            Thread = M5,
            Treatment = ThreadTreatment.Greased,
        },
        new()
        {
            Id = Fasteners.RingBolts,
            Places = [new(BikeStation.DriveSideCrank, 4)],
            Ranges =
            [
                Of(FastenerKinds.Usual, 8, 11),
                Of(FastenerKinds.Steel, 12, 14),
                Of(FastenerKinds.Aluminium, 8, 9),
                Of(FastenerKinds.ThreeBolts, 4, 6),
                Of(FastenerKinds.RingLockring, 40, 55),
            ],
            Thread = new(8, 0.75),
            Treatment = ThreadTreatment.Greased,
        },
        new()
        {
            Id = Fasteners.FrontMount,
            Places = [new(BikeStation.SeatTube)],
            Ranges = [Of(FastenerKinds.Usual, 5, 7), Of(FastenerKinds.LightFrame, 2.8, 4)],
            Thread = M5,
            Treatment = ThreadTreatment.Dry,
        },
        new()
        {
            Id = Fasteners.FrontCable,
            Places = [new(BikeStation.SeatTube)],
            Ranges = [Of(FastenerKinds.Usual, 5, 7)],
            Thread = M5,
            Treatment = ThreadTreatment.Greased,
        },
        new()
        {
            Id = Fasteners.ShifterClamp,
            Places = [new(BikeStation.FrontEnd)],
            Ranges = [Of(FastenerKinds.FlatBar, 2.5, 5), Of(FastenerKinds.DropBar, 6, 8)],
            Thread = M5,
            Treatment = ThreadTreatment.Dry,
        },
        new()
        {
            Id = Fasteners.CrankPinch,
            Places = [new(BikeStation.OtherSideCrank, 2)],
            Ranges = [Of(FastenerKinds.Usual, 12, 15)],
            Thread = M6,
            Treatment = ThreadTreatment.Greased,
            IsSafetyCritical = true,
        },
        new()
        {
            Id = Fasteners.Pedals,
            Places =
            [
                new(BikeStation.DriveSideCrank),
                new(BikeStation.OtherSideCrank, IsLeftHand: true),
            ],
            Ranges = [Of(FastenerKinds.Usual, 35, 40)],
            Thread = ScrewThread.OfInch(9, 16, 20),
            Treatment = ThreadTreatment.Greased,
            IsSafetyCritical = true,
        },
        new()
        {
            Id = Fasteners.CrankBolt,
            Places = [new(BikeStation.DriveSideCrank), new(BikeStation.OtherSideCrank)],
            Ranges = [Of(FastenerKinds.Usual, 35, 50), Of(FastenerKinds.OtherMaker, 31, 54)],
            Thread = new(8, 1),
            Treatment = ThreadTreatment.Greased,
            IsSafetyCritical = true,
        },
        new()
        {
            Id = Fasteners.CrankPreload,
            Places = [new(BikeStation.OtherSideCrank)],
            Ranges = [Of(FastenerKinds.Usual, 0.4, 0.7)],
            Treatment = ThreadTreatment.Greased,
        },
        new()
        {
            Id = Fasteners.BracketCups,
            Places = [new(BikeStation.BottomBracket, 2)],
            Ranges =
            [
                Of(FastenerKinds.OuterCups, 35, 50),
                Of(FastenerKinds.OtherMaker, 34, 41),
                Of(FastenerKinds.Cartridge, 49, 69),
            ],
            Treatment = ThreadTreatment.Greased,
            IsSafetyCritical = true,
        },
        new()
        {
            Id = Fasteners.BrakeCaliper,
            Places = [new(BikeStation.RearEnd, 2), new(BikeStation.FrontEnd, 2)],
            Ranges = [Of(FastenerKinds.Usual, 6, 8), Of(FastenerKinds.OtherMaker, 11, 12)],
            Thread = M6,
            Treatment = ThreadTreatment.AsSupplied,
            IsSafetyCritical = true,
        },
        new()
        {
            Id = Fasteners.BrakeRotor,
            Places = [new(BikeStation.RearEnd, 6), new(BikeStation.FrontEnd, 6)],
            Ranges = [Of(FastenerKinds.SixBolts, 4, 6), Of(FastenerKinds.RotorLockring, 40, 40)],
            Thread = M5,
            Treatment = ThreadTreatment.AsSupplied,
            IsSafetyCritical = true,
        },
    ];

    private static readonly FrozenDictionary<string, Fastener> ById = All.ToFrozenDictionary(
        fastener => fastener.Id
    );

    /// <summary>The fastener of that name, or null when the trade has none of it here.</summary>
    public static Fastener? Find(string id) => ById.GetValueOrDefault(id);

    private static TradeRange Of(string kind, double lowerNm, double upperNm) =>
        new(kind, new(lowerNm, upperNm));
}
