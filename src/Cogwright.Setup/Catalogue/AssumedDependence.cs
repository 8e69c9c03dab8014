using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <summary>Which quantities rest on values that nobody measured or stated, told by the paths of the spec's assumptions.</summary>
internal sealed class AssumedDependence(IEnumerable<Assumption> assumptions)
{
    // The screw turns the body but does not place it; spring and least values are limits, not geometry.
    private static readonly string[] NoGeometry =
    [
        "rearDerailleur.bodyAngleScrew",
        "rearDerailleur.leastGap",
        "rearDerailleur.leastMargin",
        "rearDerailleur.cage.spring",
    ];

    private readonly string[] paths =
    [
        .. assumptions
            .Select(assumption => assumption.Path)
            .Where(path => !NoGeometry.Any(prefix => IsAt(path, prefix))),
    ];

    /// <summary>Whether anything that the cage's pose is made from was assumed.</summary>
    internal bool Pose => On("frame", "hanger", "rings", "cogs", "chain", "rearDerailleur");

    /// <summary>Whether anything that the path straight round ring and cog is made from was assumed.</summary>
    internal bool DirectPath =>
        paths.Any(path =>
            path is "frame" or "rings" or "cogs" or "chain"
            || IsAt(path, "frame.chainstay")
            || IsAt(path, "cogs.teeth")
            || IsAt(path, "chain.elongation")
            || (IsAt(path, "rings") && path.EndsWith(".teeth", StringComparison.Ordinal))
        );

    /// <summary>Whether anything that says where ring and cog stand sideways was assumed.</summary>
    internal bool Lateral =>
        paths.Any(path =>
            path is "frame" or "rings" or "cogs"
            || IsAt(path, "frame.chainstay")
            || IsAt(path, "cogs.smallestLateral")
            || IsAt(path, "cogs.spacing")
            || (IsAt(path, "rings") && path.EndsWith(".lateral", StringComparison.Ordinal))
        );

    /// <summary>Whether anything that the chain's room in the front cage is made from was assumed.</summary>
    internal bool FrontCage => Lateral || On("frontDerailleur");

    /// <summary>Whether the front cage's height was assumed.</summary>
    internal bool FrontHeight => On("frontDerailleur.height");

    /// <summary>Whether what the screw does was assumed.</summary>
    internal static bool Screw(IEnumerable<Assumption> assumptions) =>
        assumptions.Any(a => IsAt(a.Path, "rearDerailleur.bodyAngleScrew"));

    private bool On(params string[] prefixes) =>
        paths.Any(path => prefixes.Any(prefix => IsAt(path, prefix)));

    private static bool IsAt(string path, string prefix) =>
        path.StartsWith(prefix, StringComparison.Ordinal)
        && (path.Length == prefix.Length || path[prefix.Length] is '.' or '[');
}
