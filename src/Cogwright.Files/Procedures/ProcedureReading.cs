using System.Collections.Immutable;
using Cogwright.Setup.Procedures;
using Cogwright.Setup.Procedures.Lint;

namespace Cogwright.Files;

/// <summary>Something found in a procedure, with its place in the file. Immutable.</summary>
/// <param name="Line">Line, counted from 1.</param>
/// <param name="Column">Column, counted from 1; what is missing has the place of the group it is missing from.</param>
/// <param name="Finding">What was found.</param>
public sealed record PlacedFinding(int Line, int Column, LintFinding Finding);

/// <summary>The outcome of reading a procedure file. Immutable.</summary>
/// <param name="Procedure">The procedure, or null when any problem is an error.</param>
/// <param name="Problems">The problems in the order of the file.</param>
public sealed record ProcedureReading(Procedure? Procedure, ImmutableArray<FileProblem> Problems)
{
    /// <summary>Where everything stands, by its path.</summary>
    internal ImmutableDictionary<string, (int Line, int Column)> Places { get; init; } =
        ImmutableDictionary<string, (int Line, int Column)>.Empty;

    /// <summary>Line and column of a field, counted from 1; of the nearest thing around it when it is not in the file.</summary>
    public (int Line, int Column) PlaceOf(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        for (var at = path; at.Length > 0; at = at[..Math.Max(0, at.LastIndexOfAny(['.', '[']))])
        {
            if (Places.TryGetValue(at, out var place))
            {
                return place;
            }
        }
        return Places.GetValueOrDefault("", (1, 1));
    }

    /// <summary>What <see cref="ProcedureLint"/> finds, in the order of the file; empty when there is no procedure.</summary>
    public ImmutableArray<PlacedFinding> Lint() =>
        Procedure is null
            ? []
            :
            [
                .. ProcedureLint
                    .Check(Procedure)
                    .Select(finding => (Place: PlaceOf(finding.Path), Finding: finding))
                    .Select(each => new PlacedFinding(
                        each.Place.Line,
                        each.Place.Column,
                        each.Finding
                    ))
                    .OrderBy(placed => placed.Line)
                    .ThenBy(placed => placed.Column),
            ];
}
