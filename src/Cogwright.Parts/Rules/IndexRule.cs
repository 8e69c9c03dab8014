using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Parts.Rules;

/// <summary>
/// Cable per click × shift ratio = distance from cog to cog, over the whole cassette: with the cable anchored as well as can
/// be, the guide pulley may stand beside no cog by more than the limit.
/// </summary>
/// <remarks>The cumulative errors of all clicks, less the middle of their extremes; as <see cref="Indexing"/> does with a spec.</remarks>
internal sealed class IndexRule(string id)
    : PartRule(
        id,
        [PartKind.RearShifter, PartKind.RearDerailleur, PartKind.Cassette],
        [
            PartFields.Pull,
            PartFields.ShiftRatio,
            PartFields.Teeth,
            PartFields.Spacing,
            PartFields.StackWidth,
            PartFields.CogThickness,
        ]
    )
{
    /// <summary>What is left when one is comfortable with it (mm).</summary>
    private const double ComfortableMm = 0.1;

    /// <summary>Sideways play of a guide pulley that has much of it, end to end (mm; from memory).</summary>
    private const double WideFloatMm = 0.8;

    internal override bool Asks(ReadOnlySpan<Part?> parts) =>
        parts[(int)PartKind.RearShifter] is { } shifter
        && parts[(int)PartKind.RearDerailleur] is { } derailleur
        && parts[(int)PartKind.Cassette] is not null
        && shifter.Tag(PartFields.Protocol) is null
        && derailleur.Tag(PartFields.Protocol) is null;

    internal override Judgement Judge(ReadOnlySpan<Part?> parts, ImmutableArray<Part> adapters)
    {
        var pull = parts[(int)PartKind.RearShifter]!.Numbers(PartFields.Pull);
        var ratio = parts[(int)PartKind.RearDerailleur]!.Number(PartFields.ShiftRatio);
        var cassette = parts[(int)PartKind.Cassette]!;
        var spacing = SpacingMm(cassette);
        var cogs = cassette.Numbers(PartFields.Teeth).Length;
        // Clicks that are left over are another rule's; those that nobody measured are not known.
        if (
            cogs == 0
            || pull.Length < cogs - 1
            || ratio is not { } shiftRatio
            || spacing is not { } spacingMm
        )
        {
            return Judgement.Unknown;
        }
        var clicks = cogs - 1;
        var (error, least, most) = (0.0, 0.0, 0.0);
        for (var click = 0; click < clicks; click++)
        {
            error += (pull[click] * shiftRatio) - spacingMm;
            least = Math.Min(least, error);
            most = Math.Max(most, error);
        }
        var off = (most - least) / 2;
        var reserve = (Indexing.UsualLimitMm - off) / ComfortableMm;
        return off switch
        {
            <= Indexing.UsualLimitMm => new(Compatibility.Yes, reserve, off, Indexing.UsualLimitMm),
            <= WideFloatMm / 2 => new(
                Compatibility.YesWith,
                double.NaN,
                off,
                Indexing.UsualLimitMm
            ),
            _ => new(Compatibility.No, reserve, off, Indexing.UsualLimitMm),
        };
    }

    /// <summary>From cog to cog (mm): as said, or from the width of the whole stack; null when neither is known.</summary>
    internal static double? SpacingMm(Part cassette)
    {
        var cogs = cassette.Numbers(PartFields.Teeth).Length;
        return cassette.Number(PartFields.Spacing)
            ?? (
                cogs > 1 && cassette.Number(PartFields.StackWidth) is { } stack
                    ? LateralPractice.SpacingFromStackMm(
                        stack,
                        cogs,
                        cassette.Number(PartFields.CogThickness)
                            ?? LateralPractice.CogThicknessMm(cogs)
                    )
                    : null
            );
    }

    protected override ImmutableArray<string> Words(
        ReadOnlySpan<Part?> parts,
        in Judgement judgement
    )
    {
        var pull = parts[(int)PartKind.RearShifter]!.Numbers(PartFields.Pull);
        var ratio = parts[(int)PartKind.RearDerailleur]!.Number(PartFields.ShiftRatio);
        var mean = pull.IsEmpty ? double.NaN : pull.Average();
        return
        [
            Text(mean, 2),
            Text(ratio ?? double.NaN, 2),
            Text(mean * (ratio ?? double.NaN), 2),
            Text(SpacingMm(parts[(int)PartKind.Cassette]!) ?? double.NaN, 2),
            Text(judgement.Left, 2),
            Text(judgement.Right, 2),
            Text(2 * judgement.Left, 2),
        ];
    }

    /// <inheritdoc/>
    protected override bool RestsOnAssumed(ReadOnlySpan<Part?> parts) =>
        parts[(int)PartKind.Cassette]!.Assumed.Contains(PartFields.Spacing);

    protected override ImmutableArray<(PartField Field, Part Part)> Missing(
        ReadOnlySpan<Part?> parts
    )
    {
        var missing = ImmutableArray.CreateBuilder<(PartField, Part)>();
        var shifter = parts[(int)PartKind.RearShifter]!;
        var derailleur = parts[(int)PartKind.RearDerailleur]!;
        var cassette = parts[(int)PartKind.Cassette]!;
        var cogs = cassette.Numbers(PartFields.Teeth).Length;
        if (cogs == 0)
        {
            missing.Add((PartFields.Teeth, cassette));
        }
        if (shifter.Numbers(PartFields.Pull).Length < Math.Max(1, cogs - 1))
        {
            missing.Add((PartFields.Pull, shifter));
        }
        if (derailleur.Number(PartFields.ShiftRatio) is null)
        {
            missing.Add((PartFields.ShiftRatio, derailleur));
        }
        if (SpacingMm(cassette) is null)
        {
            missing.Add((PartFields.Spacing, cassette));
        }
        return missing.ToImmutable();
    }
}
