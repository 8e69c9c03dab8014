using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Gearing;
using Cogwright.Parts;

namespace Cogwright.Web.Parts;

/// <summary>Rings and cassettes of the library as sets of gears to be ridden.</summary>
internal static class RideSets
{
    /// <summary>The kinds of part that make the gears.</summary>
    internal static ImmutableArray<PartKind> Kinds { get; } = [PartKind.Rings, PartKind.Cassette];

    /// <summary>
    /// The sets that belong together with the bike, those it has now left out. What cannot be said to belong together is not
    /// ridden: nobody would buy it by that answer.
    /// </summary>
    /// <param name="found">What the search for parts found.</param>
    /// <param name="specOf">Makes the mechanism of a build, or null when its figures make none.</param>
    internal static ImmutableArray<RideCandidate> Of(
        OptionResult found,
        Func<Build, DrivetrainSpec?> specOf
    ) =>
        [
            .. found
                .Options.Where(option =>
                    option is { Changes: > 0, Answer: Compatibility.Yes or Compatibility.YesWith }
                )
                .Select(option => (option.Build, Spec: specOf(option.Build)))
                .Where(each => each.Spec is not null)
                .Select(each => new RideCandidate(
                    string.Join(
                        " + ",
                        Kinds.Select(kind => each.Build[kind]?.Name).OfType<string>()
                    ),
                    SpecGears.Of(each.Spec!)
                )),
        ];
}
