using System.Globalization;
using System.Text;
using Cogwright.Fastening;
using Cogwright.Files.Classes;
using Cogwright.Files.Fields;

namespace Cogwright.Files.Tests;

/// <summary>The guide names every field and every class; its tables are made from the field tables.</summary>
public sealed class GuideTests
{
    private const string Guide = "docs/how-to/spec-file.md";
    internal const string Begin = "<!-- made from the field table: begin -->\n";
    internal const string End = "<!-- made from the field table: end -->\n";

    [Fact]
    public void Guide_Tables_AreThoseOfTheFieldTables()
    {
        var text = Repository.Text(Guide);
        var begin = text.IndexOf(Begin, StringComparison.Ordinal) + Begin.Length;
        var end = text.IndexOf(End, StringComparison.Ordinal);

        Stored.AssertEqual(Guide, text[..begin] + Tables() + text[end..]);
    }

    [Fact]
    public void EveryField_InTheGuide_IsNamed()
    {
        var text = Repository.Text(Guide);

        Assert.All(
            FieldTable.Walk(SpecFields.Spec).Concat(FieldTable.Walk(ReadingsFields.Readings)),
            row => Assert.Contains($"`{Shown(row.Path)}`", text, StringComparison.Ordinal)
        );
    }

    private static string Tables()
    {
        var text = new StringBuilder();
        text.Append("\n### Fields of a spec\n\n");
        Table(text, SpecFields.Spec);
        text.Append("\nFasteners: ")
            .AppendJoin(", ", Fasteners.All.Select(f => $"`{f}`"))
            .Append(".\n\n### Classes\n\n");
        foreach (var kind in Enum.GetValues<ClassKind>())
        {
            text.Append(CultureInfo.InvariantCulture, $"- `{ClassLibrary.GroupPath(kind)}.class`: ")
                .AppendJoin(", ", ClassLibrary.Names(kind).Select(n => $"`{n}`"))
                .Append('\n');
        }
        text.Append("\n### Fields of a readings file\n\n");
        Table(text, ReadingsFields.Readings);
        return text.Append('\n').ToString();
    }

    internal static void Table(StringBuilder text, GroupShape whole)
    {
        text.Append("| Field | Needed | What it is | Written as |\n|---|---|---|---|\n");
        foreach (var row in FieldTable.Walk(whole).DistinctBy(r => Shown(r.Path)))
        {
            var need = row.Field.Need switch
            {
                Need.Required => "yes",
                Need.OrClass => "or class",
                Need.OrPart => "or part",
                _ => "",
            };
            var written =
                row.Field.Shape is GroupShape ? "a group" : Expectations.Of(row.Field.Shape);
            text.Append(
                CultureInfo.InvariantCulture,
                $"| `{Shown(row.Path)}` | {need} | {FieldTable.About(row.Path)} | {written} |\n"
            );
        }
    }

    /// <summary>All fasteners have the same fields: they are shown once.</summary>
    private static string Shown(string path)
    {
        var parts = path.Split('.');
        if (parts is ["work", "torques", _, ..])
        {
            parts[2] = "FASTENER";
        }
        return string.Join('.', parts);
    }
}
