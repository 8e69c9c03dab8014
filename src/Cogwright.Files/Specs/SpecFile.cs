using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Parts;
using Cogwright.Setup;

namespace Cogwright.Files;

/// <summary>What one spec file says: the mechanism and the work on it. Immutable.</summary>
/// <param name="Drivetrain">The drivetrain; <see cref="SpecCheck"/> has no problem with it.</param>
/// <param name="Work">How it is shifted, its torques and the gap asked for.</param>
public sealed record SpecFile(DrivetrainSpec Drivetrain, WorkSpec Work)
{
    /// <summary>
    /// The parts that the spec names, with the values that the spec gives itself in the place of theirs; empty when it names
    /// none.
    /// </summary>
    public Build Parts { get; init; } = new([]);

    /// <summary>What a head mechanic answers for although a rule says no, the oldest first.</summary>
    public ImmutableArray<Deviation> Deviations { get; init; } = [];

    /// <summary>The values that these parts gave to the spec, in the order of the fields; such a value is not assumed.</summary>
    public ImmutableArray<PartSupplied> FromParts { get; init; } = [];
}

/// <summary>A value of a spec that one of its parts gives. Immutable.</summary>
/// <param name="Path">The field, such as <c>cogs.spacing</c>.</param>
/// <param name="Value">The value with its unit, as people write it.</param>
/// <param name="PartId">The id of the part.</param>
public sealed record PartSupplied(string Path, string Value, string PartId);

/// <summary>The outcome of reading a spec file. Immutable.</summary>
/// <param name="Spec">The spec, or null when any problem is an error.</param>
/// <param name="Problems">The problems in the order of the file; remarks may stand beside a spec.</param>
public sealed record SpecReading(SpecFile? Spec, ImmutableArray<FileProblem> Problems);
