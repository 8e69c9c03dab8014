using Cogwright.Drivetrain;
using Cogwright.Setup;
using Cogwright.Setup.Catalogue;
using Cogwright.Setup.Procedures;

namespace Cogwright.Files.Tests;

/// <summary>The demo workshop's procedures, and the bikes that they are written for.</summary>
internal static class DemoProcedures
{
    internal static IReadOnlyList<string> Names { get; } =
    [
        .. Directory
            .EnumerateFiles(Repository.PathOf("demo/procedures"), "*.yaml")
            .Select(file => Path.GetFileNameWithoutExtension(file))
            .Order(StringComparer.Ordinal),
    ];

    internal static IReadOnlyList<string> WalkRounds { get; } =
    [.. Names.Where(name => name.StartsWith("torque-walk-round", StringComparison.Ordinal))];

    /// <summary>Every procedure with the demo bikes that it is for.</summary>
    internal static IReadOnlyDictionary<string, string[]> Bikes => DemoPairs.Bikes;

    internal static Procedure Of(string name) =>
        ProcedureReader
            .Read(Repository.Text($"demo/procedures/{name}.yaml"), $"{name}.yaml")
            .Procedure!;

    internal static ProcedureStep Step(string name, string id) =>
        Of(name).Steps.Single(step => step.Id == id);

    internal static (QuantityCatalogue Catalogue, WorkSpec Work) Bike(string name)
    {
        var spec = DemoSpecTests.Read(name + ".yaml");
        var choice = ChainChooser.Choose(spec.Drivetrain);
        return (
            QuantityCatalogue.Of(
                spec.Drivetrain,
                choice,
                GearTableSolver.Solve(
                    spec.Drivetrain,
                    ChainChooser.PitchesFor(spec.Drivetrain, choice)
                )
            ),
            spec.Work
        );
    }
}
