using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Files.Tests;
using Cogwright.Setup;
using Cogwright.Setup.Catalogue;
using Cogwright.Setup.Procedures;

namespace Cogwright.Paper.Tests;

/// <summary>Every demo procedure on every demo bike that it is for, set once on each paper.</summary>
internal static class BookletCases
{
    private static readonly Dictionary<
        string,
        Lazy<(QuantityCatalogue, WorkSpec, GearTable)>
    > Bikes = DemoBikes.All.ToDictionary(
        bike => bike.Name,
        bike => new Lazy<(QuantityCatalogue, WorkSpec, GearTable)>(() =>
        {
            var choice = ChainChooser.Choose(bike.Spec);
            var table = GearTableSolver.Solve(
                bike.Spec,
                ChainChooser.PitchesFor(bike.Spec, choice)
            );
            return (QuantityCatalogue.Of(bike.Spec, choice, table), bike.Work, table);
        })
    );

    private static readonly Dictionary<
        (string, string, PaperSize),
        Lazy<(byte[] Pdf, WorksheetLayout Layout)>
    > Booklets = Pairs()
        .SelectMany(
            pair => Enum.GetValues<PaperSize>(),
            (pair, size) => (pair.Procedure, pair.Bike, size)
        )
        .ToDictionary(
            key => key,
            key => new Lazy<(byte[] Pdf, WorksheetLayout Layout)>(() =>
                Set(Of(key.Procedure), key.Bike, key.size)
            )
        );

    /// <summary>The cases.</summary>
    internal static IEnumerable<TheoryDataRow<string, string, PaperSize>> All =>
        Booklets.Keys.Select(key => new TheoryDataRow<string, string, PaperSize>(
            key.Item1,
            key.Item2,
            key.Item3
        ));

    internal static (byte[] Pdf, WorksheetLayout Layout) Of(
        string procedure,
        string bike,
        PaperSize size
    ) => Booklets[(procedure, bike, size)].Value;

    internal static Procedure Of(string procedure)
    {
        var path = Path.Combine(AppContext.BaseDirectory, "procedures", procedure + ".yaml");
        using var stream = File.OpenRead(path);
        return ProcedureReader.Read(stream, path).Procedure!;
    }

    internal static BookletContent Content(Procedure procedure, string bike)
    {
        var (catalogue, work, _) = Bikes[bike].Value;
        return BookletContent.Make(procedure, catalogue, work);
    }

    internal static (byte[] Pdf, WorksheetLayout Layout) Set(
        Procedure procedure,
        string bike,
        PaperSize size
    ) => Booklet.Set(Content(procedure, bike), Bikes[bike].Value.Item3, size);

    private static IEnumerable<(string Procedure, string Bike)> Pairs() =>
        DemoPairs.Bikes.SelectMany(pair => pair.Value, (pair, bike) => (pair.Key, bike));
}
