using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Care;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>Builds what a file of wear says from its values and tells what in them does not go together.</summary>
internal sealed class WearBinder(Leaves leaves, ProblemList problems)
{
    private static readonly ImmutableArray<string> Lists =
    [
        .. WearFields.Ways.Select(WearFields.ListOf).Distinct(),
    ];

    internal WearFile Bind() =>
        new(
            leaves.Text("code"),
            new()
            {
                Cogs = Cogs("cogCount"),
                Unit = Named("counter", Enum.GetValues<UsageUnit>()) ?? UsageUnit.Km,
                Chains = BindChains(),
                // The last one counts: by its day, wherever it stands in the file.
                Parts = [.. Each("care").Select(BindPart).OrderBy(part => part.On)],
            },
            BindTable()
        );

    private ImmutableArray<FittedChain> BindChains()
    {
        var (chains, day, usage) = (
            ImmutableArray.CreateBuilder<FittedChain>(),
            (DateOnly?)null,
            (double?)null
        );
        foreach (var path in Each("chains"))
        {
            var chain = BindChain(path);
            if (chain.On < day)
            {
                Tell($"{path}.on", Texts.Get("wear.chainOrder", Written(day)));
            }
            if (chain.Usage < usage)
            {
                Tell($"{path}.at", Texts.Get("wear.chainOrder", usage));
            }
            (day, usage) = (chain.On ?? day, chain.Usage ?? usage);
            chains.Add(chain);
        }
        return chains.ToImmutable();
    }

    private FittedChain BindChain(string path)
    {
        var chain = new FittedChain(Date($"{path}.on"), Usage($"{path}.at"))
        {
            Id = path,
            WithNewCogs = leaves.Flag($"{path}.withNewCogs") ?? false,
            WasNew = leaves.Flag($"{path}.wasNew") ?? true,
        };
        var readings = ImmutableArray.CreateBuilder<WearReading>();
        var (day, usage) = (chain.On, chain.Usage);
        foreach (var inner in Each($"{path}.readings"))
        {
            if (BindReading(inner) is not { } reading)
            {
                continue;
            }
            var key = readings.Count == 0 ? "wear.beforeFitted" : "wear.beforeLast";
            if (reading.On < day)
            {
                Tell($"{inner}.on", Texts.Get(key, Written(day)));
            }
            if (reading.Usage < usage)
            {
                Tell($"{inner}.at", Texts.Get(key, usage));
            }
            (day, usage) = (reading.On, reading.Usage ?? usage);
            readings.Add(reading);
        }
        return chain with { Readings = readings.ToImmutable() };
    }

    private WearReading? BindReading(string path)
    {
        var way = Named($"{path}.way", WearFields.Ways)!.Value;
        var list = WearFields.ListOf(way);
        var others = Lists
            .Where(name => name != list && leaves.HasGroup($"{path}.{name}"))
            .ToList();
        var count = leaves.Count($"{path}.{list}");
        if (count == 0 || others.Count > 0)
        {
            Tell(
                others.Count > 0 ? $"{path}.{others[0]}" : path,
                Texts.Get("wear.wayNeeds", WearFields.NameOf(way), list)
            );
            return null;
        }
        var reading = new WearReading(
            Date($"{path}.on")!.Value,
            Usage($"{path}.at"),
            way,
            leaves.Whole($"{path}.pitches"),
            [.. Each($"{path}.{list}").Select(spot => BindSpot(spot, way))]
        )
        {
            Id = path,
            StandardUncertainty = Uncertainty($"{path}.uncertainty"),
            Play = BindPlay(path, way),
        };
        if (reading.Usage is null)
        {
            problems.Remark(leaves.NearestPlace(path), path, Texts.Get("wear.noCounter"));
        }
        return Check(reading, path, list) ? reading : null;
    }

    // Each spot by itself first, so that the wrong one is named.
    private bool Check(WearReading reading, string path, string list)
    {
        for (var i = 0; i < reading.Spots.Length; i++)
        {
            try
            {
                _ = (reading with { Spots = [reading.Spots[i]] }).Elongation();
            }
            catch (ArgumentException refused)
            {
                Tell(
                    refused.ParamName == "pitches" ? $"{path}.pitches"
                        : refused.ParamName == "ownUncertainty" ? $"{path}.uncertainty"
                        : string.Create(CultureInfo.InvariantCulture, $"{path}.{list}[{i}]"),
                    Sentence(refused)
                );
                return false;
            }
        }
        return true;
    }

    private WearSpot BindSpot(string path, WearWay way) =>
        WearFields.ListOf(way) switch
        {
            "lengths" => new() { LengthMm = leaves.Number(path) },
            "percents" => new() { Percent = leaves.Number(path) },
            _ => new()
            {
                GoesPercent = leaves.NumberOrNull($"{path}.goes"),
                StopsPercent = leaves.NumberOrNull($"{path}.stops"),
            },
        };

    private RollerPlay? BindPlay(string path, WearWay way)
    {
        if (leaves.NumberOrNull($"{path}.play.mm") is not { } mm)
        {
            return null;
        }
        if (way == WearWay.Ruler)
        {
            Tell($"{path}.play", Texts.Get("wear.playUnused"));
            return null;
        }
        try
        {
            return new(mm, leaves.Number($"{path}.play.uncertainty"));
        }
        catch (ArgumentException refused)
        {
            Tell(
                refused.ParamName == "mm" ? $"{path}.play.mm" : $"{path}.play.uncertainty",
                Sentence(refused)
            );
            return null;
        }
    }

    private CarePart BindPart(string path)
    {
        var part = new CarePart(
            Named($"{path}.kind", WearFields.Kinds)!.Value,
            Named($"{path}.place", Enum.GetValues<CarePlace>()) ?? CarePlace.Bike,
            Date($"{path}.on")!.Value
        )
        {
            Usage = leaves.NumberOrNull($"{path}.at"),
            Value = leaves.NumberOrNull($"{path}.value"),
            StandardUncertainty = leaves.NumberOrNull($"{path}.uncertainty"),
            StampedMm = leaves.NumberOrNull($"{path}.stamped"),
            Count = leaves.WholeOrNull($"{path}.count"),
            MakersCount = leaves.WholeOrNull($"{path}.makersCount"),
            IsNew = leaves.Flag($"{path}.isNew") ?? false,
        };
        foreach (var problem in part.Problems())
        {
            Tell($"{path}.{problem.Field}", problem.Message);
        }
        return part;
    }

    private CareTable BindTable()
    {
        var own = ImmutableSortedDictionary<string, double>.Empty;
        foreach (var term in CareTerm.All)
        {
            if (leaves.NumberOrNull($"limits.{term.Name}") is not { } value)
            {
                continue;
            }
            if (term.Problem(value) is { } wrong)
            {
                Tell($"limits.{term.Name}", wrong);
            }
            own = own.Add(term.Name, value);
        }
        var chain = ImmutableSortedDictionary<int, double>.Empty;
        foreach (var path in Each("limits.chain"))
        {
            var (cogs, percent) = (leaves.Whole($"{path}.cogs"), leaves.Number($"{path}.percent"));
            if (WearLimits.Problem(cogs, percent) is { } wrong)
            {
                Tell(path, wrong);
            }
            if (chain.ContainsKey(cogs))
            {
                Tell($"{path}.cogs", Texts.Get("wear.limitTwice", cogs));
            }
            chain = chain.SetItem(cogs, percent);
        }
        var cogsToo = leaves.NumberOrNull("limits.cogsToo");
        if (
            cogsToo is { } limit
            && WearLimits.Problem(WearLimits.FewestCogs, limit) is { } outOfRange
        )
        {
            Tell("limits.cogsToo", outOfRange);
        }
        return new()
        {
            Own = own,
            Chain = new() { Own = chain, CogsTooPercent = cogsToo ?? WearLimits.UsualCogsToo },
        };
    }

    private int? Cogs(string path)
    {
        var cogs = leaves.WholeOrNull(path);
        if (cogs is { } count && WearLimits.Problem(count, WearLimits.UsualCogsToo) is { } wrong)
        {
            Tell(path, wrong);
        }
        return cogs;
    }

    private double? Usage(string path)
    {
        var usage = leaves.NumberOrNull(path);
        if (usage is { } value && !(value is >= 0 and <= CareFacts.MostUsage))
        {
            Tell(path, Texts.Get("wear.range", value, 0, CareFacts.MostUsage));
        }
        return usage;
    }

    private double? Uncertainty(string path)
    {
        var value = leaves.NumberOrNull(path);
        if (value is { } u && !(u is >= 0 and <= 1))
        {
            Tell(path, Texts.Get("wear.range", u, 0, 1));
            return null;
        }
        return value;
    }

    private DateOnly? Date(string path) => leaves.Find(path)?.Value as DateOnly?;

    private static string? Written(DateOnly? day) =>
        day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private T? Named<T>(string path, IEnumerable<T> all)
        where T : struct, Enum =>
        leaves.Text(path) is { } name ? all.First(each => WearFields.NameOf(each) == name) : null;

    private IEnumerable<string> Each(string path) =>
        Enumerable
            .Range(0, leaves.Count(path))
            .Select(i => string.Create(CultureInfo.InvariantCulture, $"{path}[{i}]"));

    // Without the name of the parameter that .NET puts behind it.
    private static string Sentence(ArgumentException refused) =>
        refused.Message.Split(" (Parameter")[0];

    private void Tell(string path, string message) =>
        problems.Error(leaves.NearestPlace(path), path, message);
}
