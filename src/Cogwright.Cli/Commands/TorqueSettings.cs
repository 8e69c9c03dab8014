using System.Collections.Immutable;
using System.ComponentModel;
using Cogwright.Fastening;
using Cogwright.Setup;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>torque</c> takes.</summary>
internal sealed class TorqueSettings : SpecSettings
{
    /// <summary>The fasteners to list, by name.</summary>
    [CommandOption("--only <NAMES>")]
    [Description(
        "Only these fasteners, those that were disturbed, one behind the other with commas: rearMount,rearCable."
    )]
    public string? OnlyText { get; init; }

    /// <summary>The unit to tell torques in.</summary>
    [CommandOption("--unit <UNIT>")]
    [Description("The unit of the figures: N·m, lbf·in, lbf·ft or kgf·cm.")]
    public string? UnitText { get; init; }

    /// <summary>The procedure that the work follows.</summary>
    [CommandOption("--procedure <FILE>")]
    [Description(
        "The procedure that the work follows (YAML or JSON): its torques, where no part gives one."
    )]
    public string? ProcedurePath { get; init; }

    /// <summary>The shop's torque tools.</summary>
    [CommandOption("--tools <FILE>")]
    [Description("The shop's torque tools (YAML or JSON): which suits which fastener, and why.")]
    public string? ToolsPath { get; init; }

    /// <summary>The scale of a torque tool.</summary>
    [CommandOption("--tool <SCALE>")]
    [Description(
        "The scale of the torque tool at hand in N·m, such as 4-20; 5 for one fixed setting. Another unit stands behind it: 30-200 lbf·in."
    )]
    public string? ToolText { get; init; }

    /// <summary>Its type and class.</summary>
    [CommandOption("--class <CLASS>")]
    [Description(
        "Its type and class by ISO 6789, such as IIA (a click wrench with a scale, unless told)."
    )]
    public string? ClassText { get; init; }

    /// <summary>The step of its scale.</summary>
    [CommandOption("--step <NM>")]
    [Description("The step of its scale in N·m.")]
    public string? StepText { get; init; }

    /// <summary>Its arm.</summary>
    [CommandOption("--arm <MM>")]
    [Description("Its arm: middle of the drive to middle of the hand, in mm.")]
    public string? ArmText { get; init; }

    /// <summary>Whether it works both ways.</summary>
    [CommandOption("--both-ways")]
    [Description("It also clicks or tells when turned anticlockwise, for left-hand threads.")]
    public bool BothWays { get; init; }

    /// <summary>The day of its calibration.</summary>
    [CommandOption("--calibrated <DATE>")]
    [Description("The day of its calibration, such as 2026-03-02.")]
    public string? CalibratedText { get; init; }

    /// <summary>What stands between tool and bolt.</summary>
    [CommandOption("--adapter <MM>")]
    [Description(
        "An adapter between tool and bolt: its length in mm, and its angle to the wrench's line where it is not in line: 45, 45@90deg."
    )]
    public string? AdapterText { get; init; }

    /// <summary>A torque that was reached or read.</summary>
    [CommandOption("--read <NM>")]
    [Description(
        "What --tool was set to or told at the one fastener of --only, in N·m: what it comes to."
    )]
    public string? ReadText { get; init; }

    /// <summary>How it was reached.</summary>
    [CommandOption("--way <WAY>")]
    [Description(
        "How it was reached: clicked, told, or unmoved (it clicked without turning); clicked unless told, of a tool without a click told."
    )]
    public string? WayText { get; init; }

    /// <summary>The day of the work.</summary>
    [CommandOption("--date <DATE>")]
    [Description("The day of the work, for the calibration; today unless told.")]
    public string? DateText { get; init; }

    /// <summary>What the bolts are made of.</summary>
    [CommandOption("--bolt <MATERIAL>")]
    [Description(
        "What the bolts are made of: 5.8, 8.8, 10.9, 12.9, A2-70, titanium or aluminium; then also what they bear."
    )]
    public string? BoltText { get; init; }

    /// <summary>The thread.</summary>
    [CommandOption("--thread <THREAD>")]
    [Description(
        "The thread of the one fastener of --only, where it is not the usual one: M5, M10x1."
    )]
    public string? ThreadText { get; init; }

    /// <summary>How the thread is treated.</summary>
    [CommandOption("--treatment <NAME>")]
    [Description(
        "How threads are treated: dry, greased, oiled, assembly-paste, threadlocker or as-supplied."
    )]
    public string? TreatmentText { get; init; }

    /// <summary>What it is screwed into.</summary>
    [CommandOption("--into <MATERIAL>")]
    [Description(
        "What the one fastener of --only is screwed into, with --engaged: steel, aluminium-6061, aluminium-7075 or titanium."
    )]
    public string? IntoText { get; init; }

    /// <summary>How far.</summary>
    [CommandOption("--engaged <MM>")]
    [Description("How long the threads engage, in mm.")]
    public string? EngagedText { get; init; }

    /// <summary>What its head presses on.</summary>
    [CommandOption("--under <MATERIAL>")]
    [Description(
        "What the head presses on: steel, aluminium-6061, aluminium-7075, titanium or carbon."
    )]
    public string? UnderText { get; init; }

    /// <summary>The maximum printed on what is clamped.</summary>
    [CommandOption("--max <NM>")]
    [Description("Greatest torque printed on what is clamped, in N·m.")]
    public string? MaxText { get; init; }

    /// <summary>The fasteners named, or null for all.</summary>
    /// <exception cref="BadInputException">There is no such fastener.</exception>
    internal ImmutableArray<string>? Only
    {
        get
        {
            if (OnlyText is null)
            {
                return null;
            }
            var names = OnlyText.Split(
                ',',
                StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries
            );
            // A list that names nothing would be answered by an empty walk.
            return names.Length == 0 ? throw NoFastener(OnlyText) : [.. names.Select(IdOf)];
        }
    }

    /// <summary>The unit of the figures.</summary>
    /// <exception cref="BadInputException">There is no such unit.</exception>
    internal TorqueUnit Unit =>
        UnitText is null
            ? TorqueUnit.NewtonMetre
            : TorqueUnit.Find(UnitText)
                ?? throw new BadInputException(
                    Texts.Get(
                        "torque.unit",
                        UnitText,
                        string.Join(", ", TorqueUnit.All.Select(unit => unit.Symbol))
                    )
                );

    /// <summary>What bolts and joints are said to be.</summary>
    /// <exception cref="BadInputException">Something is not known, or cannot be.</exception>
    internal JointAsk Joint =>
        new(
            Named("--bolt", BoltText, BoltMaterial.All, each => each.Id),
            ThreadText is null
                ? null
                : ScrewThread.Parse(ThreadText)
                    ?? throw new BadInputException(Texts.Get("torque.thread", ThreadText)),
            Named("--treatment", TreatmentText, ThreadTreatment.All, each => each.Id),
            Named("--into", IntoText, NutMaterial.All, each => each.Id),
            Within("--engaged", EngagedText, Texts.Get("expected.engaged"), 100),
            Named("--under", UnderText, NutMaterial.All, each => each.Id),
            TorqueText.Nm("--max", MaxText, Texts.Get("expected.max"))
        );

    /// <summary>The day of the work.</summary>
    internal DateOnly Today =>
        DateOption.Parse("--date", DateText)
        ?? DateOnly.FromDateTime(TimeProvider.System.GetLocalNow().Date);

    /// <summary>The adapter, or none.</summary>
    /// <exception cref="BadInputException">It is not written as expected, or cannot be.</exception>
    internal WrenchAdapter Adapter
    {
        get
        {
            if (AdapterText is not { } text)
            {
                return WrenchAdapter.None;
            }
            var parts = text.Split('@');
            var angle = 0.0;
            if (
                parts.Length > 2
                || !NumberOption.TryParse(parts[0], out var length)
                || (
                    parts.Length == 2
                    && !NumberOption.TryParse(
                        parts[1].Replace("deg", "", StringComparison.Ordinal).TrimEnd('°'),
                        out angle
                    )
                )
            )
            {
                throw new BadInputException(Texts.Get("torque.adapter", text));
            }
            return Checked("--adapter", () => WrenchAdapter.Angled(length, angle * Math.PI / 180));
        }
    }

    /// <summary>The tool at hand, or null when none was named.</summary>
    /// <exception cref="BadInputException">It is not written as expected, or cannot be.</exception>
    internal TorqueTool? Tool
    {
        get
        {
            if (ToolText is not { } text)
            {
                foreach (
                    var (option, value) in new[]
                    {
                        ("--class", ClassText),
                        ("--step", StepText),
                        ("--arm", ArmText),
                        ("--calibrated", CalibratedText),
                        ("--both-ways", BothWays ? "" : null),
                    }
                )
                {
                    if (value is not null)
                    {
                        throw new BadInputException(Texts.Get("torque.noTool", option));
                    }
                }
                return null;
            }
            var (scale, unit) = TorqueText.Split(text);
            var bounds = scale.Split('-', '–');
            double? min = null;
            if (
                unit is null
                || bounds.Length > 2
                || !NumberOption.TryParse(bounds[^1], out var max)
                || (bounds.Length == 2 && !TryParse(bounds[0], out min))
            )
            {
                throw new BadInputException(Texts.Get("torque.tool", text));
            }
            var className = ClassText ?? (min is null ? "IIB" : "IIA");
            var tool = new TorqueTool
            {
                Name = Texts.Get("torque.toolName", text),
                Class =
                    ToolClass.Find(className)
                    ?? throw new BadInputException(
                        Texts.Get(
                            "torque.class",
                            className,
                            string.Join(", ", ToolClass.All.Select(each => each.Id))
                        )
                    ),
                Unit = unit,
                MaxNm = unit.ToNm(max),
                MinNm = min is { } least ? unit.ToNm(least) : null,
                GraduationNm = TorqueText.Nm("--step", StepText, Texts.Get("expected.step")),
                ArmMm = NumberOption.Parse("--arm", ArmText, Texts.Get("expected.arm")),
                WorksLeftHand = BothWays,
                Calibration = new(DateOption.Parse("--calibrated", CalibratedText)),
            };
            return TorqueToolCheck.Problems(tool) is [var first, ..]
                ? throw new BadInputException(
                    Texts.Get("torque.toolProblem", OptionOf(first.Field), first.Message)
                )
                : tool;
        }
    }

    /// <summary>What was reached or read with a tool, or null when nothing was.</summary>
    /// <exception cref="BadInputException">It is not written as expected, or cannot be.</exception>
    internal TorqueReading? ReadWith(TorqueTool? tool)
    {
        if (TorqueText.Nm("--read", ReadText, Texts.Get("expected.read")) is not { } told)
        {
            return WayText is null
                ? null
                : throw new BadInputException(Texts.Get("torque.noRead", "--way"));
        }
        if (tool is null)
        {
            throw new BadInputException(Texts.Get("torque.noTool", "--read"));
        }
        var reading = new TorqueReading(
            tool,
            told,
            WayText?.Trim().ToLowerInvariant() switch
            {
                null => tool.Class.IsSetting ? ReadingWay.Clicked : ReadingWay.Told,
                "clicked" => ReadingWay.Clicked,
                "told" => ReadingWay.Told,
                "unmoved" => ReadingWay.ClickedWithoutTurning,
                _ => throw new BadInputException(Texts.Get("torque.way", WayText)),
            }
        )
        {
            Adapter = Adapter,
        };
        // Tried here, so that what cannot be is refused before anything is solved.
        _ = Checked("--read", () => TorqueReview.At(reading));
        return reading;
    }

    private static string IdOf(string name) =>
        FastenerCatalogue
            .All.FirstOrDefault(each => each.Id.Equals(name, StringComparison.OrdinalIgnoreCase))
            ?.Id
        ?? throw NoFastener(name);

    private static BadInputException NoFastener(string name) =>
        new(
            Texts.Get(
                "torque.only",
                name,
                string.Join(", ", FastenerCatalogue.All.Select(each => each.Id))
            )
        );

    private static bool TryParse(string text, out double? value)
    {
        var parsed = NumberOption.TryParse(text, out var number);
        value = number;
        return parsed;
    }

    private static string OptionOf(string field) =>
        field switch
        {
            "graduation" => "--step",
            "arm" => "--arm",
            "calibration.on" => "--calibrated",
            _ => "--tool",
        };

    private static T? Named<T>(
        string option,
        string? text,
        ImmutableArray<T> all,
        Func<T, string> nameOf
    )
        where T : class =>
        text is null
            ? null
            : all.FirstOrDefault(each => nameOf(each) == text.Trim())
                ?? throw new BadInputException(
                    Texts.Get("torque.named", option, text, string.Join(", ", all.Select(nameOf)))
                );

    private static double? Within(string option, string? text, string expected, double most) =>
        NumberOption.Parse(option, text, expected) is not { } value ? null
        : value > 0 && value <= most ? value
        : throw new BadInputException(Texts.Get("option.number", option, text, expected));

    // What the pure room refuses it says in words; the option stands before them.
    private static T Checked<T>(string option, Func<T> make)
    {
        try
        {
            return make();
        }
        catch (ArgumentException refused)
        {
            throw new BadInputException(
                Texts.Get("torque.toolProblem", option, WithoutParameter(refused))
            );
        }
    }

    /// <summary>The sentence of a refusal without the name of the parameter that the framework hangs on it.</summary>
    internal static string WithoutParameter(ArgumentException refused) =>
        refused.Message.Split(" (Parameter '")[0];
}
