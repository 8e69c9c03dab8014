using System.Collections.Immutable;
using Cogwright.Cli.Commands;
using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Gearing;
using Cogwright.Parts;

namespace Cogwright.Cli.Output;

/// <summary>A ride with all that is told of it.</summary>
/// <param name="Settings">What was asked.</param>
/// <param name="Spec">The bike.</param>
/// <param name="Question">Road, rider, gears.</param>
/// <param name="Remarks">What the reader of the road remarked.</param>
/// <param name="Result">What came of it.</param>
internal sealed record RideOutput(
    RideSettings Settings,
    DrivetrainSpec Spec,
    RideQuestion Question,
    IReadOnlyList<FileProblem> Remarks,
    RideResult Result
)
{
    /// <summary>The power that the rider holds for the time that the road takes (W), when it was asked for so; else null.</summary>
    internal double? HeldW { get; init; }

    /// <summary>What to know of that power, or null.</summary>
    internal string? HeldNote { get; init; }

    /// <summary>What the library would make of the bike, when that was asked; else null.</summary>
    internal RideSets? Sets { get; init; }

    /// <summary>The kinds of part that the library was asked for.</summary>
    internal ImmutableArray<PartKind> Replaced { get; init; } = [];

    /// <summary>What the reader of the road and the making of it remarked.</summary>
    internal IEnumerable<string> Notes =>
        Remarks
            .Select(remark => remark.Message)
            .Concat(Question.Route.Notes.Select(note => note.Message));

    /// <summary>Other specs, the one that suits best first.</summary>
    internal ImmutableArray<RideComparison> Beside =>
        [.. Result.Candidates.Where(each => !IsFromLibrary(each))];

    /// <summary>Sets of the library, the one that suits best first.</summary>
    internal ImmutableArray<RideComparison> FromLibrary =>
        [.. Result.Candidates.Where(IsFromLibrary)];

    /// <summary>Those of them that are listed.</summary>
    internal ImmutableArray<RideComparison> Listed => [.. FromLibrary.Take(Settings.Most)];

    /// <summary>The set of the library that was ridden there.</summary>
    internal RideSet SetOf(RideComparison ridden) =>
        Sets!.Sets.Single(set => ReferenceEquals(set.Candidate, ridden.Candidate));

    /// <summary>The names of the parts of a set, as far as they may be replaced.</summary>
    internal string NameOf(RideComparison ridden) =>
        string.Join(" + ", Replaced.Select(kind => SetOf(ridden).Option.Build[kind]!.Name));

    private bool IsFromLibrary(RideComparison ridden) =>
        Sets?.Sets.Any(set => ReferenceEquals(set.Candidate, ridden.Candidate)) == true;

    /// <summary>Between what the lowest gear's cadence on the steepest minute lies with what is assumed, or null when it is not pedalled.</summary>
    internal RpmSpread? Spread { get; init; }
}
