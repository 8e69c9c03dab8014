using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Files;

/// <summary>
/// What each figure of a spec may be, as <see cref="SpecCheck"/> has it, for people to read before they type. A test holds the
/// two together.
/// </summary>
internal static class FieldRanges
{
    private static readonly ImmutableDictionary<string, FieldRange> Table = new (
        string Path,
        double Least,
        double Most
    )[]
    {
        ("frame.chainstay", 100, 2000),
        ("frame.bbDrop", -300, 300),
        ("frame.axleTravel", 0, 100),
        ("frame.dropoutFace", 20, 200),
        ("frame.suspension.travel", 1, 400),
        ("frame.suspension.sag", 0, 100),
        ("hanger.gaugeRadius", 100, 400),
        ("rings[].teeth", Sprocket.LeastTeeth, Sprocket.MostTeeth),
        ("rings[].lateral", -200, 200),
        ("cogs.recess", 0, 20),
        ("cogs.locknutGap", -5, 30),
        ("cogs.thickness", 0.5, 5),
        ("cogs.stackWidth", 1, 100),
        ("cogs.chainline", 0, 200),
        ("cogs.smallestLateral", -200, 200),
        ("cogs.spacing", 1, 10),
        ("chain.pitches", 10, SpecCheck.MostPitches),
        ("chain.elongation", -0.5, 5),
        ("chain.width", 3, 15),
        ("crank.chainline", 0, 200),
        ("crank.ringSpacing", 1, 30),
        ("crank.ringThickness", 0.5, 10),
        ("wheel.flangeLateral", 0, 100),
        ("wheel.flangeRadius", 5, 150),
        ("wheel.rimLateral", -60, 60),
        ("wheel.rimRadius", 80, 400),
        ("wheel.spokeThickness", 0.5, 5),
        ("wheel.cageToSpokes", -5, 60),
        ("wheel.cogToSpokes", -5, 60),
        ("rearDerailleur.bodyAngle", -180, 180),
        ("rearDerailleur.linkLength", 5, 300),
        ("rearDerailleur.linkAngle", -180, 180),
        ("rearDerailleur.slant", -89, 89),
        ("rearDerailleur.guideLateralAtZero", -200, 200),
        ("rearDerailleur.indexOffset", -20, 20),
        ("rearDerailleur.outboardStop", -90, 90),
        ("rearDerailleur.inboardStop", -90, 90),
        ("rearDerailleur.leastGap", 0, 50),
        ("rearDerailleur.leastMargin", 0, 100),
        ("rearDerailleur.cage.guide.teeth", Sprocket.LeastTeeth, Sprocket.MostTeeth),
        ("rearDerailleur.cage.guide.float", 0, 5),
        ("rearDerailleur.cage.tension.teeth", Sprocket.LeastTeeth, Sprocket.MostTeeth),
        ("rearDerailleur.cage.rearStop", -270, 270),
        ("rearDerailleur.cage.frontStop", -270, 270),
        ("rearDerailleur.cage.innerFace", 1, 30),
        ("rearDerailleur.cage.reach", 1, 60),
        ("rearDerailleur.cage.spring.torqueAtRearStop", 0, 50),
        ("rearDerailleur.bodyAngleScrew.threadPitch", 0.1, 5),
        ("rearDerailleur.bodyAngleScrew.leverRadius", 1, 200),
        ("rearDerailleur.bodyAngleScrew.turnsLeftIn", 0, 100),
        ("rearDerailleur.bodyAngleScrew.turnsLeftOut", 0, 100),
        ("rearDerailleur.bodyAngleScrew.leastTurn", 0.01, 2),
        ("frontDerailleur.xRear", -300, 100),
        ("frontDerailleur.xFront", -200, 200),
        ("frontDerailleur.innerPlate.faceRear", -50, 50),
        ("frontDerailleur.innerPlate.faceFront", -50, 50),
        ("frontDerailleur.innerPlate.thickness", 0, 10),
        ("frontDerailleur.outerPlate.faceRear", -50, 50),
        ("frontDerailleur.outerPlate.faceFront", -50, 50),
        ("frontDerailleur.outerPlate.thickness", 0, 10),
        ("frontDerailleur.linkLength", 5, 200),
        ("frontDerailleur.linkAngle", -180, 180),
        ("frontDerailleur.height", -10, 30),
        ("frontDerailleur.bridgeBelow", 0, 150),
        ("frontDerailleur.cableRatio", 0.2, 10),
        ("shifting.pull", 0.5, 15),
        ("shifting.shiftRatio", 0.3, 5),
        ("shifting.offsetStep", 0.005, 2),
        ("adjusters[].threadPitch", 0.1, 5),
        ("adjusters[].leverRadius", 1, 200),
        ("adjusters[].turnsLeftIn", 0, 100),
        ("adjusters[].turnsLeftOut", 0, 100),
        ("adjusters[].leastTurn", 0.01, 2),
        ("adjusters[].mmPerTurn", 0.01, 20),
        ("adjusters[].clicksPerTurn", 1, 100),
    }.ToImmutableDictionary(
        row => row.Path,
        row => new FieldRange(row.Least, row.Most),
        StringComparer.Ordinal
    );

    /// <summary>All of them, by table path; in the unit of a bare number, fractions in percent.</summary>
    internal static IReadOnlyDictionary<string, FieldRange> All => Table;

    internal static FieldRange? Of(string tablePath) =>
        Table.TryGetValue(tablePath, out var range) ? range : null;
}
