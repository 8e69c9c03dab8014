using System.Collections.Concurrent;
using System.Collections.Immutable;
using Cogwright.Drawing;
using Cogwright.Setup;

namespace Cogwright.Paper.Tests;

/// <summary>Every worksheet that the layout is held against, by name; set once each.</summary>
internal static class SheetCases
{
    private static readonly Dictionary<
        string,
        Lazy<(WorksheetContent Content, ImmutableArray<Scene> Drawings)>
    > Contents = Make();

    private static readonly ConcurrentDictionary<
        (string Name, PaperSize Size),
        Lazy<(byte[] Pdf, WorksheetLayout Layout)>
    > Sheets = new();

    /// <summary>Names of the cases with both sizes of paper.</summary>
    internal static IEnumerable<TheoryDataRow<string, PaperSize>> All =>
        from name in Contents.Keys
        from size in Enum.GetValues<PaperSize>()
        select new TheoryDataRow<string, PaperSize>(name, size);

    internal static WorksheetContent Content(string name) => Contents[name].Value.Content;

    internal static (WorksheetContent Content, ImmutableArray<Scene> Drawings) Sheet(string name) =>
        Contents[name].Value;

    internal static (byte[] Pdf, WorksheetLayout Layout) Set(string name, PaperSize size) =>
        Sheets.GetOrAdd((name, size), of => new(() => Print(of.Name, of.Size))).Value;

    private static (byte[] Pdf, WorksheetLayout Layout) Print(string name, PaperSize size)
    {
        var (content, drawings) = Contents[name].Value;
        return Worksheet.Set(content, drawings, size, new DateOnly(2026, 3, 14));
    }

    private static Dictionary<string, Lazy<(WorksheetContent, ImmutableArray<Scene>)>> Make()
    {
        var cases = new Dictionary<string, Lazy<(WorksheetContent, ImmutableArray<Scene>)>>
        {
            ["fixture: one ring"] = new(() => (WorksheetFixtures.OneRing(), [])),
            ["fixture: two rings"] = new(() => (WorksheetFixtures.TwoRings(), [])),
            ["fixture: three rings"] = new(() => (WorksheetFixtures.ThreeRings(), [])),
            ["fixture: single-speed"] = new(() => (WorksheetFixtures.SingleSpeed(), [])),
            ["fixture: long names"] = new(() => (WorksheetFixtures.LongNames(), [])),
        };
        foreach (var (name, spec, work) in ModelBikes.All)
        {
            cases["model: " + name] = new(() => ModelBikes.Sheet(spec, work));
        }
        foreach (var (name, spec, work) in DemoBikes.All)
        {
            cases["demo: " + name] = new(() => ModelBikes.Sheet(spec, work));
        }
        return cases;
    }
}
