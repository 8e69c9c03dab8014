using System.Text.Json;

namespace Cogwright.Cli.Tests;

/// <summary>Torques from the command line: where they come from, the order of the walk, tools, adapters, what bolts bear.</summary>
public class TorqueTests
{
    private static readonly string Touring = CommandLine.Spec("touring-3x9-cable");

    private static List<JsonElement> Stops(JsonElement json) =>
        [.. json.GetProperty("walkRound").EnumerateArray()];

    private static JsonElement Stop(JsonElement json, string fastener) =>
        Stops(json).First(stop => stop.GetProperty("fastener").GetString() == fastener);

    private static (int Exit, JsonElement Json) Mount(params string[] args) =>
        CommandLine.RunJson(["torque", Touring, "--only", "rearMount", .. args]);

    [Theory]
    [MemberData(nameof(CommandLine.DemoSpecs), MemberType = typeof(CommandLine))]
    public void Torque_EveryDemoBike_ListsWhatItsTargetsAskFor(string name)
    {
        var spec = CommandLine.Spec(name);
        var (_, torque) = CommandLine.RunJson("torque", spec);
        var (_, targets) = CommandLine.RunJson("targets", spec);
        var asked = targets
            .GetProperty("targets")
            .EnumerateArray()
            .Where(target => target.GetProperty("stage").GetString() == "torque")
            .ToDictionary(target => target.GetProperty("id").GetString()!);

        Assert.Equal(
            asked.Keys.Order(StringComparer.Ordinal),
            Stops(torque)
                .Select(stop => "torque-" + stop.GetProperty("fastener").GetString())
                .Distinct()
                .Order(StringComparer.Ordinal)
        );
        Assert.All(
            Stops(torque),
            stop =>
            {
                var target = asked["torque-" + stop.GetProperty("fastener").GetString()];
                Assert.Equal(
                    target.GetProperty("upper").GetRawText(),
                    stop.GetProperty("upper").GetRawText()
                );
                Assert.Equal(
                    target.GetProperty("source").GetString() == "spec" ? "part"
                        : target.GetProperty("upper").ValueKind == JsonValueKind.Null ? "none"
                        : "tradeRange",
                    stop.GetProperty("source").GetString()
                );
            }
        );
    }

    [Fact]
    public void Torque_InOrder_FollowsTheBikeFromRearAxleToTheOtherCrank()
    {
        var (_, json) = CommandLine.RunJson("torque", Touring);
        var names = Stops(json).Select(stop => stop.GetProperty("fastener").GetString()).ToList();
        Assert.Equal("rearAxle", names[0]);
        Assert.Equal("pedals", names[^1]);
        Assert.Equal(2, names.Count(name => name == "pedals"));
        Assert.True(names.IndexOf("ringBolts") < names.IndexOf("shifterClamp"));
    }

    [Fact]
    public void Torque_ForPeople_HasTheCautionBeforeTheFigure()
    {
        var (_, output) = CommandLine.Run("torque", Touring);
        var caution = output.IndexOf("A loose axle", StringComparison.Ordinal);
        var figure = output.IndexOf("9 – 15 N·m", StringComparison.Ordinal);
        Assert.InRange(caution, 0, figure);
        Assert.Contains("part", output, StringComparison.Ordinal);
        Assert.Contains("trade's range", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Torque_WithAToolAndAnAdapter_SaysTheSettingAndWhatTheBoltGets()
    {
        // The part asks for 70 to 90 lbf·in, 9.04 N·m in the middle. M = T·L/(L + E): 9.04·250/295 = 7.66, on the scale 7.7.
        var (_, json) = Mount(
            "--tool",
            "4-20",
            "--step",
            "0.1",
            "--arm",
            "250",
            "--adapter",
            "45",
            "--calibrated",
            "2026-03-02",
            "--date",
            "2026-06-01"
        );
        var tool = Assert.Single(Stop(json, "rearMount").GetProperty("tools").EnumerateArray());
        Assert.Equal(7.7, tool.GetProperty("setting").GetDouble(), 1e-9);
        Assert.Equal("suits", tool.GetProperty("suitability").GetString());
        Assert.Contains(
            tool.GetProperty("reasons").EnumerateArray(),
            reason => reason.GetProperty("kind").GetString() == "handPlace"
        );

        var (_, sideways) = Mount("--tool", "4-20", "--step", "0.1", "--adapter", "45@90deg");
        Assert.Equal(
            9,
            Stop(sideways, "rearMount").GetProperty("tools")[0].GetProperty("setting").GetDouble(),
            1e-9
        );
    }

    [Theory]
    [InlineData("2027-03-01", "suits")]
    [InlineData("2027-03-02", "doesNotSuit")]
    public void Torque_ToolWithItsCalibration_IsHeldToTheDayOfTheWork(string date, string answer)
    {
        var (exit, json) = Mount("--tool", "4-20", "--calibrated", "2026-03-02", "--date", date);
        Assert.Equal(
            answer,
            Stop(json, "rearMount").GetProperty("tools")[0].GetProperty("suitability").GetString()
        );
        Assert.True(answer == "suits" || exit == 1);
    }

    [Fact]
    public void Torque_InPoundForceInches_IsTheSameTorque()
    {
        var (_, metric) = Mount();
        var (_, inch) = Mount("--unit", "in-lbs");
        Assert.Equal("lbf·in", inch.GetProperty("unit").GetString());
        Assert.Equal(
            Stop(metric, "rearMount").GetProperty("upper").GetDouble() / 0.1129848,
            Stop(inch, "rearMount").GetProperty("upper").GetDouble(),
            1e-3
        );
        var (_, output) = CommandLine.Run(
            "torque",
            Touring,
            "--only",
            "rearMount",
            "--unit",
            "lbf·in"
        );
        Assert.Contains("lbf·in", output, StringComparison.Ordinal);
    }

    // VDI 2230: an M5 of class 8.8 bears less than the 7 N·m of the trade's range when it is greased, one of 12.9 bears it.
    [Theory]
    [InlineData("8.8", true)]
    [InlineData("12.9", false)]
    public void Torque_WithTheBoltsNamed_WarnsOfWhatTheyDoNotBear(string material, bool warns)
    {
        var (exit, json) = CommandLine.RunJson(
            "torque",
            Touring,
            "--only",
            "rearCable",
            "--bolt",
            material
        );
        var preload = Stop(json, "rearCable").GetProperty("preload");
        Assert.Equal(warns, preload.GetProperty("warnings").GetArrayLength() > 0);
        Assert.True(!warns || exit == 1);
        Assert.True(
            preload.GetProperty("leastN").GetDouble() < preload.GetProperty("greatestN").GetDouble()
        );
    }

    [Theory]
    [InlineData("--only", "flange", "rearMount")]
    [InlineData("--only", ",", "rearMount")]
    [InlineData("--unit", "furlong", "lbf·in")]
    [InlineData("--tool", "big", "4-20")]
    [InlineData("--tool", "20-4", "--tool")]
    [InlineData("--tool", "0-20", "--tool")]
    [InlineData("--bolt", "9.9", "10.9")]
    [InlineData("--date", "tomorrow", "2026-03-02")]
    [InlineData("--adapter", "45", "--tool")]
    [InlineData("--arm", "250", "--tool")]
    public void Torque_OptionThatCannotBe_SaysWhatWasExpected(
        string option,
        string value,
        string expected
    )
    {
        var (exit, output) = CommandLine.Run("torque", Touring, option, value);
        Assert.Equal(2, exit);
        Assert.Contains(option, output, StringComparison.Ordinal);
        Assert.Contains(expected, output, StringComparison.Ordinal);
        Assert.DoesNotContain("Parameter", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--class", "IIX", "IIA")]
    [InlineData("--step", "30", "--step")]
    [InlineData("--arm", "3", "--arm")]
    [InlineData("--calibrated", "9999-12-31", "--calibrated")]
    [InlineData("--adapter", "x", "45@90deg")]
    [InlineData("--adapter", "45@400", "--adapter")]
    [InlineData("--adapter", "9000", "--adapter")]
    public void Torque_ToolOptionThatCannotBe_SaysWhatWasExpected(
        string option,
        string value,
        string expected
    )
    {
        var (exit, output) = CommandLine.Run("torque", Touring, "--tool", "4-20", option, value);
        Assert.Equal(2, exit);
        Assert.Contains(option, output, StringComparison.Ordinal);
        Assert.Contains(expected, output, StringComparison.Ordinal);
        Assert.DoesNotContain("Parameter", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Torque_FastenerThatTheBikeHasNot_SaysWhichItHas()
    {
        var (exit, output) = CommandLine.Run(
            "torque",
            CommandLine.Spec("single-speed"),
            "--only",
            "rearMount"
        );
        Assert.Equal(2, exit);
        Assert.Contains("pedals", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Torque_AdapterTurnedBackOverAShortWrench_IsAnAnswerAndNoFault()
    {
        var (exit, json) = Mount("--tool", "4-20", "--arm", "200", "--adapter", "200@180deg");
        Assert.Equal(1, exit);
        Assert.Equal(
            "doesNotSuit",
            Stop(json, "rearMount").GetProperty("tools")[0].GetProperty("suitability").GetString()
        );
    }

    private static readonly string[] Shop =
    [
        "--tools",
        CommandLine.InRepository("demo/tools/torque-tools.yaml"),
        "--date",
        "2026-11-30",
    ];

    /// <summary>The demo workshop has a tool for every fastener of every bike, in date, and each says why.</summary>
    [Theory]
    [MemberData(nameof(CommandLine.DemoSpecs), MemberType = typeof(CommandLine))]
    public void Torque_DemoBikeInTheDemoWorkshop_HasAToolForEveryFastener(string name)
    {
        var (_, json) = CommandLine.RunJson(["torque", CommandLine.Spec(name), .. Shop]);
        Assert.All(
            Stops(json).Where(stop => stop.GetProperty("source").GetString() != "none"),
            stop =>
            {
                var best = stop.GetProperty("tools")[0];
                Assert.Equal("suits", best.GetProperty("suitability").GetString());
                Assert.Equal(
                    "setting",
                    best.GetProperty("reasons")[0].GetProperty("kind").GetString()
                );
                Assert.Equal(5, stop.GetProperty("tools").GetArrayLength());
            }
        );
    }

    [Fact]
    public void Torque_InAShopWhoseCalibrationsAreOver_SaysSoForEveryFastener()
    {
        var (exit, json) = CommandLine.RunJson([
            "torque",
            Touring,
            .. Shop[..2],
            "--date",
            "2028-01-01",
        ]);
        Assert.Equal(1, exit);
        Assert.All(
            Stops(json),
            stop =>
                Assert.NotEqual(
                    "suits",
                    stop.GetProperty("tools")[0].GetProperty("suitability").GetString()
                )
        );
    }

    [Fact]
    public void Torque_ToolsFileWithAFault_NamesFileLineAndField()
    {
        using var scratch = new Scratch();
        var file = scratch.File("tools.yaml", "torqueTools:\n  - name: A\n    class: IIA\n");
        var (exit, output) = CommandLine.Run("torque", Touring, "--tools", file);
        Assert.Equal(2, exit);
        Assert.Contains("max", output, StringComparison.Ordinal);
        Assert.Contains(
            "tools.yaml:2:5",
            output.Replace("\n", "", StringComparison.Ordinal),
            StringComparison.Ordinal
        );
    }

    /// <summary>A procedure's own figure counts where no part gives one, and is marked; a part's that it contradicts is told.</summary>
    [Fact]
    public void Torque_WithAProcedure_MarksWhatComesFromItAndWhatContradicts()
    {
        using var scratch = new Scratch();
        var file = scratch.File(
            "p.yaml",
            """
            title: Tighten
            steps:
              - id: a
                action: Tighten the front cable anchor
                part: cable
                torque: {fastener: frontCable, least: 4 N·m, most: 5 N·m, toolClass: indicating-wrench, thread: oiled}
              - id: b
                action: Tighten the mounting bolt
                part: rearDerailleur
                torque: {fastener: rearMount, least: 12 N·m, most: 14 N·m}
            """
        );
        var (exit, json) = CommandLine.RunJson(
            "torque",
            Touring,
            "--procedure",
            file,
            "--tool",
            "2-15"
        );
        Assert.Equal(1, exit);
        var anchor = Stop(json, "frontCable");
        Assert.Equal("procedure", anchor.GetProperty("source").GetString());
        Assert.Equal(5, anchor.GetProperty("upper").GetDouble());
        Assert.Equal("oiled", anchor.GetProperty("treatment").GetString());
        Assert.Contains(
            anchor.GetProperty("tools")[0].GetProperty("reasons").EnumerateArray(),
            reason => reason.GetProperty("kind").GetString() == "lessSureThanAsked"
        );
        var mount = Stop(json, "rearMount");
        Assert.Equal("part", mount.GetProperty("source").GetString());
        Assert.Contains(
            "12 to 14",
            mount.GetProperty("conflict").GetString(),
            StringComparison.Ordinal
        );
        Assert.Equal("tradeRange", Stop(json, "pulleys").GetProperty("source").GetString());
    }

    [Theory]
    [InlineData("9", null, "within", 0)]
    [InlineData("11", null, "outside", 1)]
    [InlineData("9.9", null, "tooCloseToCall", 1)]
    [InlineData("9", "unmoved", "tooCloseToCall", 1)]
    public void Torque_WithAReading_SaysWhatItComesTo(
        string read,
        string? way,
        string verdict,
        int code
    )
    {
        string[] more = way is null ? [] : ["--way", way];
        var (exit, json) = Mount([
            "--tool",
            "4-20",
            "--calibrated",
            "2026-03-02",
            "--date",
            "2026-06-01",
            "--read",
            read,
            .. more,
        ]);
        Assert.Equal(code, exit);
        var reading = Stop(json, "rearMount").GetProperty("reading");
        Assert.Equal(verdict, reading.GetProperty("verdict").GetString());
        Assert.Equal(way is not null, reading.GetProperty("showsLeastOnly").GetBoolean());
    }

    [Theory]
    [InlineData("90", "--tool", "4-20", "--only", "rearMount")]
    [InlineData("9", "--tool", "4-20")]
    [InlineData("9", "--only", "rearMount")]
    [InlineData("x", "--tool", "4-20", "--only", "rearMount")]
    [InlineData("9", "--tool", "4-20", "--only", "rearMount", "--way", "shaken")]
    public void Torque_ReadingThatCannotBe_SaysWhatWasExpected(string read, params string[] rest)
    {
        var (exit, output) = CommandLine.Run(["torque", Touring, "--read", read, .. rest]);
        Assert.Equal(2, exit);
        Assert.Contains("--", output, StringComparison.Ordinal);
        Assert.DoesNotContain("Parameter", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Torque_WithAnInchWrench_IsSetAndReadOnItsOwnScale()
    {
        var (_, json) = Mount(
            "--tool",
            "30-200 lbf·in",
            "--step",
            "5 in-lbs",
            "--read",
            "80 lbf·in"
        );
        var mount = Stop(json, "rearMount");
        Assert.Contains(
            "Set it to 80 lbf·in (9.04 N·m)",
            mount.GetProperty("tools")[0].GetProperty("reasons")[0].GetProperty("what").GetString(),
            StringComparison.Ordinal
        );
        Assert.Equal(
            80 * 0.1129848,
            mount.GetProperty("reading").GetProperty("torque").GetDouble(),
            1e-4
        );
    }

    /// <summary>The trade's range is that of one kind; the other kinds stand beside it.</summary>
    [Theory]
    [InlineData("shifterClamp", "drop-bar")]
    [InlineData("brakeRotor", "rotor lockring 40 N·m")]
    public void Torque_RangeOfTheTrade_NamesTheOtherKinds(string fastener, string kind)
    {
        var (_, output) = CommandLine.Run("torque", Touring, "--only", fastener);
        Assert.Contains(kind, output, StringComparison.Ordinal);
    }

    [Fact]
    public void Torque_LeftPedalWithAToolThatWorksOneWay_IsRefusedForThatSideOnly()
    {
        var (_, json) = CommandLine.RunJson(
            "torque",
            Touring,
            "--only",
            "pedals",
            "--tool",
            "10-60",
            "--calibrated",
            "2026-03-02",
            "--date",
            "2026-06-01"
        );
        Assert.Equal(
            ["suits", "doesNotSuit"],
            Stops(json)
                .Select(stop => stop.GetProperty("tools")[0].GetProperty("suitability").GetString())
        );
    }

    [Fact]
    public void Torque_OfAFastenerThatNoSetUpTightens_IsTheTrades()
    {
        var (_, json) = CommandLine.RunJson("torque", Touring, "--only", "brakeRotor,crankBolt");
        Assert.Equal(
            ["brakeRotor", "crankBolt", "brakeRotor", "crankBolt"],
            Stops(json).Select(stop => stop.GetProperty("fastener").GetString())
        );
        var rotor = Stop(json, "brakeRotor");
        Assert.Equal(6, rotor.GetProperty("upper").GetDouble());
        Assert.StartsWith(
            "WARNING",
            rotor.GetProperty("caution").GetString(),
            StringComparison.Ordinal
        );
    }

    /// <summary>What the thread is cut into, what the head presses on and what is printed on the clamp each have a warning.</summary>
    [Theory]
    [InlineData("rearMount", "threadStrips", "--into", "aluminium-6061", "--engaged", "2.5")]
    [InlineData("rearMount", "noThreadInMaterial", "--into", "carbon")]
    [InlineData("shifterClamp", "headPressure", "--under", "carbon")]
    [InlineData("shifterClamp", "printedMaximum", "--max", "4")]
    [InlineData("rearMount", "boltYields", "--bolt", "aluminium", "--thread", "M6")]
    public void Torque_JointThatWouldNotBearIt_IsWarnedOf(
        string fastener,
        string kind,
        params string[] joint
    )
    {
        var (exit, json) = CommandLine.RunJson(["torque", Touring, "--only", fastener, .. joint]);
        Assert.Equal(1, exit);
        Assert.Contains(
            Stop(json, fastener).GetProperty("preload").GetProperty("warnings").EnumerateArray(),
            warning => warning.GetProperty("kind").GetString() == kind
        );
    }

    /// <summary>What was asked and cannot be answered is said, not left out.</summary>
    [Theory]
    [InlineData("rearMount", "--thread", "M60x5")]
    [InlineData("pedals")]
    [InlineData("lockring")]
    public void Torque_JointThatIsNotKnown_IsSaid(string fastener, params string[] thread)
    {
        var (_, output) = CommandLine.Run([
            "torque",
            Touring,
            "--only",
            fastener,
            "--bolt",
            "8.8",
            .. thread,
        ]);
        Assert.Contains("cannot be said", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Torque_GreasedInsteadOfDry_PullsHarder()
    {
        static double Greatest(string treatment) =>
            Stop(
                    CommandLine
                        .RunJson(
                            "torque",
                            Touring,
                            "--only",
                            "shifterClamp",
                            "--bolt",
                            "8.8",
                            "--treatment",
                            treatment
                        )
                        .Json,
                    "shifterClamp"
                )
                .GetProperty("preload")
                .GetProperty("greatestN")
                .GetDouble();
        Assert.True(Greatest("greased") > 1.4 * Greatest("dry"));
    }

    [Theory]
    [InlineData("--only", "--max", "4")]
    [InlineData("M", "--only", "rearMount", "--thread", "7/16")]
    [InlineData("aluminium-6061", "--only", "rearMount", "--into", "cheese")]
    [InlineData("carbon", "--only", "rearMount", "--under", "cheese")]
    [InlineData("greased", "--treatment", "spat")]
    [InlineData("100 mm", "--only", "rearMount", "--into", "steel", "--engaged", "-4")]
    [InlineData("500 N·m", "--only", "rearMount", "--max", "0")]
    public void Torque_JointThatCannotBe_SaysWhatWasExpected(string expected, params string[] joint)
    {
        var (exit, output) = CommandLine.Run(["torque", Touring, .. joint]);
        Assert.Equal(2, exit);
        Assert.Contains(expected, output, StringComparison.Ordinal);
    }

    /// <summary>The demo walk round names the bike's own figures: they stay marked as what they are.</summary>
    [Fact]
    public void Torque_WithAProcedureThatNamesTheBikesFigures_MarksNoneAsItsOwn()
    {
        var (_, json) = CommandLine.RunJson(
            "torque",
            Touring,
            "--procedure",
            CommandLine.InRepository("demo/procedures/torque-walk-round-cable-front.yaml")
        );
        Assert.DoesNotContain(
            Stops(json),
            stop => stop.GetProperty("source").GetString() == "procedure"
        );
        Assert.Equal("part", Stop(json, "rearMount").GetProperty("source").GetString());
    }

    [Fact]
    public void Torque_ProcedureWithATorqueThatCannotBe_IsRefusedWithTheFastener()
    {
        using var scratch = new Scratch();
        var file = scratch.File(
            "p.yaml",
            """
            title: Tighten
            steps:
              - id: a
                action: Tighten the front cable anchor
                part: cable
                torque: {fastener: frontCable, least: 400 N·m, most: 600 N·m}
            """
        );
        var (exit, output) = CommandLine.Run("torque", Touring, "--procedure", file);
        Assert.Equal(2, exit);
        Assert.Contains("frontCable", output, StringComparison.Ordinal);
    }
}
