using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Parts.Rules;

/// <summary>
/// The front chainline beside the rear one: rear chainline = hub spacing / 2 − recess − gap(locknut → smallest cog) −
/// width of the cogs / 2, a published workshop method (common practice). A difference is no refusal: the chain angle of
/// the gears says what comes of it.
/// </summary>
internal sealed class ChainlineRule(string id)
    : PartRule(
        id,
        [PartKind.Crank, PartKind.RearWheel, PartKind.Cassette, PartKind.RearDerailleur],
        [
            PartFields.Chainline,
            PartFields.HubSpacing,
            PartFields.Teeth,
            PartFields.Spacing,
            PartFields.StackWidth,
            PartFields.CogThickness,
            PartFields.LocknutGap,
        ]
    )
{
    /// <summary>Difference that is usual with a derailleur (mm; common practice).</summary>
    internal const double UsualMm = 3;

    internal override bool Asks(ReadOnlySpan<Part?> parts) =>
        parts[(int)PartKind.Crank] is not null
        && parts[(int)PartKind.RearWheel] is not null
        && parts[(int)PartKind.Cassette] is not null
        && parts[(int)PartKind.RearDerailleur] is not null;

    internal override Judgement Judge(ReadOnlySpan<Part?> parts, ImmutableArray<Part> adapters)
    {
        var front = parts[(int)PartKind.Crank]!.Number(PartFields.Chainline);
        var rear = RearMm(parts[(int)PartKind.RearWheel]!, parts[(int)PartKind.Cassette]!);
        if (front is not { } frontMm || rear is not { } rearMm)
        {
            return Judgement.Unknown;
        }
        var room = UsualMm - Math.Abs(frontMm - rearMm);
        return new(
            room >= 0 ? Compatibility.Yes : Compatibility.YesWith,
            room >= 0 ? room / UsualMm : double.NaN,
            frontMm,
            rearMm,
            Case: room >= 0 ? ""
                : frontMm > rearMm ? ".outboard"
                : ".inboard"
        );
    }

    /// <summary>Rear chainline: the middle of the cassette from the centre plane (mm), or null when not known.</summary>
    internal static double? RearMm(Part wheel, Part cassette)
    {
        var cogs = cassette.Numbers(PartFields.Teeth).Length;
        if (
            wheel.Number(PartFields.HubSpacing) is not { } spacing
            || cogs == 0
            || (IndexRule.SpacingMm(cassette) ?? (cogs == 1 ? 0 : null)) is not { } pitch
        )
        {
            return null;
        }
        var thickness =
            cassette.Number(PartFields.CogThickness) ?? LateralPractice.CogThicknessMm(cogs);
        var gap = cassette.Number(PartFields.LocknutGap) ?? LateralPractice.LocknutGapMm;
        var half = LateralPractice.HalfWidthMm(spacing, LateralPractice.RecessMm(spacing));
        return LateralPractice.SmallestCogLateralMm(half, gap, thickness)
            - ((cogs - 1) * pitch / 2);
    }

    protected override ImmutableArray<string> Words(
        ReadOnlySpan<Part?> parts,
        in Judgement judgement
    ) =>
        [
            Text(judgement.Left, 1),
            Text(judgement.Right, 1),
            Text(Math.Abs(judgement.Left - judgement.Right), 1),
            Text(UsualMm, 1),
        ];

    /// <inheritdoc/>
    protected override bool RestsOnAssumed(ReadOnlySpan<Part?> parts) =>
        parts[(int)PartKind.Cassette]!.Assumed.Contains(PartFields.Spacing);

    protected override ImmutableArray<(PartField Field, Part Part)> Missing(
        ReadOnlySpan<Part?> parts
    )
    {
        var missing = ImmutableArray.CreateBuilder<(PartField, Part)>();
        var crank = parts[(int)PartKind.Crank]!;
        var wheel = parts[(int)PartKind.RearWheel]!;
        var cassette = parts[(int)PartKind.Cassette]!;
        if (crank.Number(PartFields.Chainline) is null)
        {
            missing.Add((PartFields.Chainline, crank));
        }
        if (wheel.Number(PartFields.HubSpacing) is null)
        {
            missing.Add((PartFields.HubSpacing, wheel));
        }
        if (cassette.Numbers(PartFields.Teeth).IsEmpty)
        {
            missing.Add((PartFields.Teeth, cassette));
        }
        else if (IndexRule.SpacingMm(cassette) is null)
        {
            missing.Add((PartFields.Spacing, cassette));
        }
        return missing.ToImmutable();
    }
}
