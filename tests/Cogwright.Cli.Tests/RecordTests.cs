using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Cogwright.Facts;
using Cogwright.Facts.Records;
using Cogwright.Log;
using Cogwright.Paper;

namespace Cogwright.Cli.Tests;

/// <summary><c>record print</c> and <c>record verify</c>: what is printed, and what a check tells apart and never claims.</summary>
public sealed class RecordTests
{
    [Fact]
    public void Print_DeviceFile_SaysWhatWasDoneAndHowItStands()
    {
        using var logs = RecordLogs.Closed();
        using var scratch = new Scratch();

        var (exit, json) = CommandLine.RunJson(
            "record",
            "print",
            logs.DeviceFile(scratch),
            "--out",
            scratch.PathOf("r.pdf"),
            "--address",
            "https://shop.example:8443"
        );
        var text = Poppler.Text(scratch.PathOf("r.pdf"));

        Assert.Equal(0, exit);
        Assert.Equal(logs.Job, json.GetProperty("job").GetString());
        Assert.Equal(logs.Log.Count, json.GetProperty("notCountersigned").GetInt32());
        foreach (
            var part in new[]
            {
                "Grey tourer",
                "New cassette",
                "the customer waits",
                "Click wrench 1",
                "8 to 10 N·m",
                "5 to 7, aim 6 mm",
                "6.1 mm, within",
                "Not countersigned yet",
                "First check",
                "On 2026-04-20, or after 100 to 300 km",
                "https://shop.example:8443",
            }
        )
        {
            Assert.Contains(part, text, StringComparison.Ordinal);
        }
        // The reading of an older entry, on a bike whose spec cannot be worked out.
        var file = RecordFile.Read(
            PdfAttachment.Find(
                File.ReadAllBytes(scratch.PathOf("r.pdf")),
                RecordFile.AttachmentName
            )
        );
        Assert.Contains(
            file!.Printed,
            line =>
                line.Place == "readings"
                && line.Text.Contains("was not kept", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Verify_WholeRecord_HoldsAndSaysWhatItDoesNotProve()
    {
        using var logs = RecordLogs.Closed();
        logs.Countersign();
        using var scratch = new Scratch();

        var (exit, json) = Verify(Printed(logs, scratch));

        Assert.Equal(0, exit);
        Assert.Empty(json.GetProperty("findings").EnumerateArray());
        Assert.Contains("9 of 9 entries are covered", All(json, "holds"), StringComparison.Ordinal);
        Assert.Contains("byte for byte", All(json, "holds"), StringComparison.Ordinal);
        foreach (
            var not in new[]
            {
                "who was at a device",
                "clock was right",
                "reading was really taken",
                "is the shop's",
                "the shop's own log",
                "personal words",
            }
        )
        {
            Assert.Contains(not, All(json, "notProven"), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Verify_NotCountersigned_NeverSaysThatItIs()
    {
        using var logs = RecordLogs.Closed();
        using var scratch = new Scratch();

        var (exit, json) = Verify(Printed(logs, scratch));

        Assert.Equal(0, exit);
        Assert.DoesNotContain("covered", All(json, "holds"), StringComparison.Ordinal);
        Assert.Contains(
            "9 entries which no server has countersigned",
            All(json, "notProven"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Verify_EntriesAfterTheStatement_AreCountedAsNotCountersigned()
    {
        using var logs = RecordLogs.Closed();
        logs.Countersign();
        logs.Add(JobEntry.Amend(logs.Job, "CD", "The serial number was misread."));
        using var scratch = new Scratch();

        var (_, json) = Verify(Printed(logs, scratch));

        Assert.Contains(
            "9 of 10 entries are covered",
            All(json, "holds"),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "the 1 entries which no statement with the key",
            All(json, "notProven"),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData(3)]
    [InlineData(8)]
    public void Verify_OneByteOfAnEntryChanged_IsFound(int index)
    {
        using var logs = RecordLogs.Closed();
        logs.Countersign();
        using var scratch = new Scratch();
        var file = Changed(
            Printed(logs, scratch, "r.json"),
            record =>
            {
                var entries = record["entries"]!.AsArray();
                var bytes = Convert.FromBase64String(entries[index]!.GetValue<string>());
                // In the body: the last letter of a text.
                var at = bytes.AsSpan().LastIndexOf("\"}"u8) - 1;
                bytes[at] ^= 1;
                entries[index] = Convert.ToBase64String(bytes);
            }
        );

        var (exit, json) = Verify(file);

        Assert.Equal(1, exit);
        Assert.Contains(
            index == 8 ? nameof(RecordFault.StatementDiffers) : nameof(RecordFault.ChainBroken),
            Faults(json)
        );
        AssertWhatWhereNext(json);
    }

    [Fact]
    public void Verify_TailCut_IsFoundByTheStatement()
    {
        using var logs = RecordLogs.Closed();
        logs.Countersign();
        using var scratch = new Scratch();
        var file = Changed(
            Printed(logs, scratch, "r.json"),
            record =>
            {
                record["entries"]!.AsArray().RemoveAt(8);
                // Whoever cuts it prints what then follows, too.
                record["printed"] = new JsonArray();
            }
        );

        var (exit, json) = Verify(file);

        Assert.Equal(1, exit);
        Assert.Contains(nameof(RecordFault.StatementDiffers), Faults(json));
        AssertWhatWhereNext(json);
    }

    [Fact]
    public void Verify_EntryOutOfTheMiddle_IsFoundAsAGap()
    {
        using var logs = RecordLogs.Closed();
        using var scratch = new Scratch();
        var file = Changed(
            Printed(logs, scratch, "r.json"),
            record => record["entries"]!.AsArray().RemoveAt(5)
        );

        var (exit, json) = Verify(file);

        Assert.Equal(1, exit);
        Assert.Contains(nameof(RecordFault.ChainBroken), Faults(json));
    }

    [Fact]
    public void Verify_StatementOfAnotherLog_IsFoundAsSwapped()
    {
        using var logs = RecordLogs.Closed();
        logs.Countersign();
        using var scratch = new Scratch();
        var other = new EntryLog(new(new("0195a1f0-0000-7000-8000-000000000009")));
        var entry = other
            .Prepare(
                logs.Stand,
                EntryStamp.Next(null, 1, new byte[EntryId.RandomBytes]),
                new("device:1", "job.begin", 1, "{\"title\":\"x\"}"u8.ToArray())
            )
            .Value!;
        other.Add(entry);
        var stated = logs.Countersign(other);
        var file = Changed(
            Printed(logs, scratch, "r.json"),
            record => record["statements"] = new JsonArray(Stated(stated))
        );

        var (exit, json) = Verify(file);

        Assert.Equal(1, exit);
        Assert.Equal(nameof(RecordFault.StatementUnreadable), Faults(json)[0]);
        Assert.DoesNotContain("covered", All(json, "holds"), StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_StatementChangedByAByte_IsFoundByItsSignature()
    {
        using var logs = RecordLogs.Closed();
        logs.Countersign();
        using var scratch = new Scratch();
        var file = Changed(
            Printed(logs, scratch, "r.json"),
            record =>
            {
                var signature = record["statements"]![0]!["signature"]!;
                var bytes = Convert.FromBase64String(signature.GetValue<string>());
                bytes[^1] ^= 1;
                record["statements"]![0]!["signature"] = Convert.ToBase64String(bytes);
            }
        );

        var (exit, json) = Verify(file);

        Assert.Equal(1, exit);
        Assert.Equal([nameof(RecordFault.SignatureWrong)], Faults(json));
        AssertWhatWhereNext(json);
        Assert.DoesNotContain("covered", All(json, "holds"), StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_KeyOfAnotherServer_IsFoundWhenTheShopsIsNamed()
    {
        using var logs = RecordLogs.Closed();
        logs.Countersign();
        using var scratch = new Scratch();
        var file = Printed(logs, scratch);

        var (good, mine) = CommandLine.RunJson("record", "verify", file, "--key", logs.KeyName);
        var (bad, other) = CommandLine.RunJson("record", "verify", file, "--key", "p256:00");

        Assert.Equal((0, 1), (good, bad));
        Assert.DoesNotContain("is the shop's", All(mine, "notProven"), StringComparison.Ordinal);
        Assert.Equal([nameof(RecordFault.SignatureWrong)], Faults(other));
    }

    [Fact]
    public void Verify_StatementOfAnotherServerAdded_CoversNothingForTheShopsKey()
    {
        using var logs = RecordLogs.Closed();
        logs.Countersign();
        logs.Add(JobEntry.Amend(logs.Job, "CD", "Put in by somebody."));
        using var scratch = new Scratch();
        using var others = RecordLogs.Closed();
        var added = others.Countersign(logs.Log);
        var file = Changed(
            Printed(logs, scratch, "r.json"),
            record =>
            {
                record["statements"]!.AsArray().Insert(0, Stated(added));
                record["keys"]![others.KeyName] = Convert.ToBase64String(others.PublicKey);
            }
        );

        var (_, json) = Verify(file);

        Assert.Contains(
            "9 of 10 entries are covered by a statement signed with the key " + logs.KeyName,
            All(json, "holds"),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "the 1 entries which no statement with the key " + logs.KeyName,
            All(json, "notProven"),
            StringComparison.Ordinal
        );
        Assert.Contains(
            others.KeyName + " is the shop's",
            All(json, "notProven"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Print_StatementWhoseSignatureDoesNotHold_IsNotPrintedAndTold()
    {
        using var logs = RecordLogs.Closed();
        logs.Countersign();
        using var scratch = new Scratch();
        var export = logs.Export(scratch);
        var statements = Directory
            .EnumerateFiles(export, "statements.jsonl", SearchOption.AllDirectories)
            .Single();
        var line = JsonNode.Parse(File.ReadAllText(statements))!;
        var signature = Convert.FromBase64String(line["signatureBase64"]!.GetValue<string>());
        signature[^1] ^= 1;
        line["signatureBase64"] = Convert.ToBase64String(signature);
        File.WriteAllText(statements, line.ToJsonString());

        var (exit, json) = CommandLine.RunJson(
            "record",
            "print",
            export,
            "--out",
            scratch.PathOf("r.json")
        );

        Assert.Equal(1, exit);
        Assert.Equal(9, json.GetProperty("notCountersigned").GetInt32());
        Assert.Contains(
            "Statement 1 is not printed",
            All(json, "problems"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Print_SeveralJobsByThatName_IsBadInputThatListsThem()
    {
        using var logs = RecordLogs.Closed();
        var second = logs.Add(JobEntry.Begin("Second job")).Id.ToString();
        using var scratch = new Scratch();

        var (exit, output) = CommandLine.Run(
            "record",
            "print",
            logs.DeviceFile(scratch),
            "--job",
            ""
        );

        Assert.Equal(2, exit);
        Assert.Contains(second, output, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_PrintedFigureChangedInTheJson_IsFoundWithWhatFollows()
    {
        using var logs = RecordLogs.Closed();
        using var scratch = new Scratch();
        var file = Printed(logs, scratch, "r.json");
        File.WriteAllText(
            file,
            File.ReadAllText(file)
                .Replace("| 6.1 mm, within", "| 6.7 mm, within", StringComparison.Ordinal)
        );

        var (exit, json) = Verify(file);

        Assert.Equal(1, exit);
        Assert.Equal([nameof(RecordFault.PrintedDiffers)], Faults(json));
        var text = json.GetProperty("findings")[0].GetProperty("text").GetString()!;
        Assert.Contains("6.7 mm", text, StringComparison.Ordinal);
        Assert.Contains("6.1 mm", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_PrintedFigureChangedOnThePage_IsFoundWithPageAndWhatFollows()
    {
        using var logs = RecordLogs.Closed();
        using var scratch = new Scratch();
        var path = Printed(logs, scratch);
        var data = PdfAttachment.Find(File.ReadAllBytes(path), RecordFile.AttachmentName)!;
        var record = RecordCheck.Remade(RecordFile.Read(data)!)!;
        var lie = record.Content with
        {
            Readings =
            [
                .. record.Content.Readings.Select(row =>
                    row with
                    {
                        Came = row.Came.Replace("6.1", "6.7", StringComparison.Ordinal),
                    }
                ),
            ],
        };
        File.WriteAllBytes(
            path,
            PrintedRecord.Write(lie, record.Code, PaperSize.A4, (RecordFile.AttachmentName, data))
        );

        var (exit, json) = Verify(path);

        Assert.Equal(1, exit);
        Assert.Equal([nameof(RecordFault.PagesDiffer)], Faults(json));
        var finding = json.GetProperty("findings")[0];
        Assert.Equal("page 2", finding.GetProperty("where").GetString());
        Assert.Contains("6.7", finding.GetProperty("text").GetString()!, StringComparison.Ordinal);
        Assert.Contains("6.1", finding.GetProperty("text").GetString()!, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_AgainstTheLog_WholeAndGrown_Holds()
    {
        using var logs = RecordLogs.Closed();
        using var scratch = new Scratch();
        var file = Printed(logs, scratch);
        logs.Add(JobEntry.Amend(logs.Job, "CD", "Later."));

        var (exit, json) = Verify(file, "--log", logs.Export(scratch, "later"));

        Assert.Equal(0, exit);
        Assert.Contains("and 1 more", All(json, "holds"), StringComparison.Ordinal);
        Assert.DoesNotContain("own log", All(json, "notProven"), StringComparison.Ordinal);
        Assert.Contains(
            "came after the record was made",
            All(json, "notProven"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Verify_AgainstALogWithItsTailCut_IsFound()
    {
        using var logs = RecordLogs.Closed();
        using var scratch = new Scratch();
        var file = Printed(logs, scratch);
        var cut = logs.Export(scratch, "cut", logs.Log.Ordered.Take(8));

        var (exit, json) = Verify(file, "--log", cut);

        Assert.Equal(1, exit);
        Assert.Equal([nameof(RecordFault.LogDiffers)], Faults(json));
        Assert.Contains("lacks", json.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_AgainstALogOfAnotherPast_IsFound()
    {
        using var logs = RecordLogs.Closed();
        using var scratch = new Scratch();
        var file = Printed(logs, scratch);
        using var others = RecordLogs.Closed();

        var (exit, json) = Verify(file, "--log", others.Export(scratch, "other"));

        Assert.Equal(1, exit);
        Assert.All(Faults(json), fault => Assert.Equal(nameof(RecordFault.LogDiffers), fault));
        Assert.Contains("is not in the record", json.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Print_AmendedAfterClosing_ChangesNothingOfTheClosedRecord()
    {
        using var logs = RecordLogs.Closed();
        using var scratch = new Scratch();
        var before = RecordFile.Read(File.ReadAllBytes(Printed(logs, scratch, "a.json")))!;
        logs.Add(JobEntry.Amend(logs.Job, "CD", "The serial number was misread."));
        // A step that somebody does all the same, and the job's own reading taken back.
        logs.Add(logs.Done("gap", done => done with { Value = 9, Unit = "mm" }));
        var gap = logs.Log.Ordered.First(entry =>
            JobEntry.Read(entry) is Setup.Jobs.StepDone { Step: "gap" }
        );
        logs.Add(JobEntry.TakeBack(gap.Id, "wrong caliper"));

        var after = RecordFile.Read(File.ReadAllBytes(Printed(logs, scratch, "b.json")))!;

        Assert.Equal(
            before.Printed,
            after.Printed.Where(line => line.Place is not ("amendments" or "late"))
        );
        Assert.Contains(
            "CD: The serial number was misread.",
            Assert.Single(after.Printed, line => line.Place == "amendments").Text,
            StringComparison.Ordinal
        );
        Assert.Equal(2, after.Printed.Count(line => line.Place == "late"));
    }

    [Fact]
    public void Print_NoPersonalWords_AreInTheFile()
    {
        using var logs = RecordLogs.Closed();
        var datum = new PersonalDatum(new byte[32], Encoding.UTF8.GetBytes("Jo Example"));
        logs.Add(JobEntry.Words(logs.Job, "customer", datum.Digest));
        using var scratch = new Scratch();

        var file = Printed(logs, scratch, "r.json");

        Assert.DoesNotContain("Jo Example", File.ReadAllText(file), StringComparison.Ordinal);
        Assert.Equal(0, Verify(file).Exit);
    }

    [Fact]
    public void Verify_NotARecord_IsBadInput()
    {
        using var scratch = new Scratch();
        var file = scratch.File("x.json", "{}");

        Assert.Equal(2, CommandLine.Run("record", "verify", file).Exit);
        Assert.Equal(2, CommandLine.Run("record", "verify", scratch.PathOf("none.pdf")).Exit);
        Assert.Equal(2, CommandLine.Run("record", "print", file).Exit);
    }

    [Fact]
    public void Print_OpenJob_SaysSoAndEndsWithAFinding()
    {
        using var logs = RecordLogs.Closed();
        var job = logs.Add(JobEntry.Begin("Second job")).Id.ToString();
        using var scratch = new Scratch();
        var path = scratch.PathOf("r.pdf");

        var (exit, _) = CommandLine.Run(
            "record",
            "print",
            logs.DeviceFile(scratch),
            "--job",
            job,
            "--out",
            path
        );

        Assert.Equal(1, exit);
        Assert.Contains("THE WORK IS NOT OVER", Poppler.Text(path), StringComparison.Ordinal);
    }

    private static string Printed(RecordLogs logs, Scratch scratch, string name = "r.pdf")
    {
        var path = scratch.PathOf(name);
        var (exit, output) = CommandLine.Run(
            "record",
            "print",
            logs.Export(scratch),
            "--out",
            path
        );
        Assert.True(exit == 0, output);
        return path;
    }

    private static string Changed(string path, Action<JsonObject> change)
    {
        var json = JsonNode.Parse(File.ReadAllText(path))!.AsObject();
        change(json);
        File.WriteAllText(path, json.ToJsonString());
        return path;
    }

    private static JsonObject Stated(CountersignedHeads stated) =>
        new()
        {
            ["encoded"] = Convert.ToBase64String(stated.Statement.Encoded.Span),
            ["signature"] = Convert.ToBase64String(stated.Signature.Span),
        };

    private static (int Exit, JsonElement Json) Verify(string path, params string[] more) =>
        CommandLine.RunJson(["record", "verify", path, .. more]);

    private static List<string> Faults(JsonElement json) =>
        [
            .. json.GetProperty("findings")
                .EnumerateArray()
                .Select(each => each.GetProperty("fault").GetString()!),
        ];

    private static string All(JsonElement json, string name) =>
        string.Join('\n', json.GetProperty(name).EnumerateArray().Select(each => each.GetString()));

    private static void AssertWhatWhereNext(JsonElement json)
    {
        var finding = json.GetProperty("findings")[0];
        Assert.NotEqual("", finding.GetProperty("where").GetString());
        Assert.Contains(
            "from the shop again",
            finding.GetProperty("text").GetString()!,
            StringComparison.Ordinal
        );
    }
}
