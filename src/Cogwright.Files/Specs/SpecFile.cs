using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Setup;

namespace Cogwright.Files;

/// <summary>What one spec file says: the mechanism and the work on it. Immutable.</summary>
/// <param name="Drivetrain">The drivetrain; <see cref="SpecCheck"/> has no problem with it.</param>
/// <param name="Work">How it is shifted, its torques and the gap asked for.</param>
public sealed record SpecFile(DrivetrainSpec Drivetrain, WorkSpec Work);

/// <summary>The outcome of reading a spec file. Immutable.</summary>
/// <param name="Spec">The spec, or null when any problem is an error.</param>
/// <param name="Problems">The problems in the order of the file; remarks may stand beside a spec.</param>
public sealed record SpecReading(SpecFile? Spec, ImmutableArray<FileProblem> Problems);
