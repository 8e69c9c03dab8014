namespace Cogwright.Setup.Tests;

public sealed class SmokeTests
{
    [Fact]
    public void Dump()
    {
        using var w = new StreamWriter("/tmp/smoke/out.txt");
        foreach (var (name, spec, work) in Bikes.All)
        {
            var c = Bikes.Catalogue(spec);
            var content = WorksheetContent.Make(c, work);
            w.WriteLine($"##### {name} {content.Gearing}");
            foreach (var x in content.Cautions)
                w.WriteLine("! " + x);
            foreach (var s in content.Stages)
            {
                w.WriteLine("== " + s.Title);
                foreach (var x in s.Cautions)
                    w.WriteLine("   ! " + x);
                foreach (var t in s.Targets)
                    w.WriteLine(
                        $"   [{t.Id}] {t.Title} | {t.Gear} {t.Lower}..{t.Value}..{t.Upper} {t.Unit} | {t.Source} | conv: {t.Convention} | tool: {t.Tool} | note: {t.Note}"
                    );
            }
            w.WriteLine("-- chain " + content.Chain.Headline);
            foreach (var x in content.Chain.Lines)
                w.WriteLine("   " + x);
            if (content.Turns is { } tt)
            {
                foreach (var n in tt.Notes)
                    w.WriteLine("   n " + n);
                foreach (var r in tt.Rows)
                    w.WriteLine($"   {r}");
            }
            foreach (var g in content.GearsNotToUse)
                w.WriteLine("   no " + g);
            if (spec.RearDerailleur is null)
                continue;
            var targets = TargetList.Make(c, work);
            foreach (
                var r in ReadingReview.Judge(
                    c,
                    targets,
                    [
                        new("gap", (34, 34), new(9.2, 0.05)),
                        new("gap", (50, 17), new(25, 0.05)),
                        new("gap", (34, 34), new(7.45, 0.05)),
                        new("gap", (34, 34), new(7.1, 0.05)),
                        new("gap", null, new(7.1, 0.05)),
                        new("gap", (40, 34), new(9.1, 0.05)),
                        new("chain-pitches", null, new(109, 0)),
                        new("nix", null, new(109, 0)),
                        new("hanger-straight", null, new(3, 0.3)),
                        new("tight-margin", (50, 34), new(3, 0.3)),
                    ]
                )
            )
            {
                w.WriteLine(
                    $"-> {r.Taken.Quantity} {r.Taken.Gear} {r.Taken.Reading.Value} {r.Status}"
                );
                foreach (var x in r.Sentences)
                    w.WriteLine("     " + x);
                foreach (var x in r.Questions)
                    w.WriteLine("     ? " + x);
                foreach (var x in r.ToDo)
                    w.WriteLine("     > " + x);
                foreach (var x in r.After.Take(3))
                    w.WriteLine("       . " + x);
            }
        }
    }
}
