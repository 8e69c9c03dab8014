using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>What the chain rubs on in a gear.</summary>
/// <param name="Ring">On the next larger ring.</param>
/// <param name="Cage">On the front cage, in every position of it.</param>
internal readonly record struct Rubbing(bool Ring, bool Cage)
{
    /// <summary>Whether it rubs at all.</summary>
    internal bool Any => Ring || Cage;

    /// <summary>Each gear of a table that rubs, as the findings have it.</summary>
    internal static ImmutableDictionary<Gear, Rubbing> Of(GearTable table)
    {
        var rubbing = ImmutableDictionary.CreateBuilder<Gear, Rubbing>();
        foreach (var finding in Findings.Of(table))
        {
            var before = rubbing.GetValueOrDefault(finding.Gear);
            if (finding.Kind == FindingKind.RubsNextRing)
            {
                rubbing[finding.Gear] = before with { Ring = true };
            }
            else if (finding.Kind == FindingKind.RubsFrontCage)
            {
                rubbing[finding.Gear] = before with { Cage = true };
            }
        }
        return rubbing.ToImmutable();
    }
}
