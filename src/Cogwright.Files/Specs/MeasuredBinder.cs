using System.Collections.Immutable;
using Cogwright.Drivetrain.Bench;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>Builds the measurements from the values of a file, and takes them apart again.</summary>
internal static class MeasuredBinder
{
    internal static BenchMeasurements? Bind(Leaves leaves)
    {
        if (!leaves.HasGroup(MeasuredFields.Group))
        {
            return null;
        }
        var readings = ImmutableArray.CreateBuilder<BenchReading>();
        var usual = leaves.NumberOrNull("measured.uncertainty") ?? BenchReading.UsualUncertaintyMm;
        foreach (var distance in MeasuredFields.Single)
        {
            Add($"measured.{BenchNames.Path(distance)}", new(distance));
        }
        for (var i = 0; i < leaves.Count("measured.positions"); i++)
        {
            var path = $"measured.positions[{i}]";
            foreach (var distance in MeasuredFields.Position)
            {
                Add($"{path}.{Last(distance)}", new(distance, leaves.Whole(path + ".cog")));
            }
        }
        if (leaves.WholeOrNull("measured.afterScrew.cog") is { } cog)
        {
            var turns = leaves.NumberOrNull("measured.afterScrew.turns");
            Add(
                "measured.afterScrew.pivotToAxle",
                new(
                    BenchDistance.PivotToAxleAfterScrew,
                    cog,
                    0,
                    turns ?? BenchMeasurements.ScrewTurns
                )
            );
        }
        for (var i = 0; i < leaves.Count("measured.gaps"); i++)
        {
            var path = $"measured.gaps[{i}]";
            Add(
                path + ".gap",
                new(BenchDistance.Gap, leaves.Whole(path + ".cog"), leaves.Whole(path + ".ring"))
            );
        }
        return new(readings.ToImmutable());

        void Add(string path, BenchPlace place)
        {
            if (leaves.NumberOrNull(path + ".value") is { } value)
            {
                readings.Add(
                    new(place, value, leaves.NumberOrNull(path + ".uncertainty") ?? usual)
                );
            }
        }
    }

    /// <summary>Takes measurements apart; <paramref name="set"/> keeps a value under its path.</summary>
    internal static void Set(Leaves leaves, BenchMeasurements measured, Action<string, object> set)
    {
        // The file has room for one reading of a distance; more of them are their mean.
        var readings = measured
            .Readings.GroupBy(r => r.Place)
            .Select(group => new BenchReading(
                group.Key,
                group.Average(r => r.ValueMm),
                Math.Sqrt(group.Sum(r => r.UncertaintyMm * r.UncertaintyMm)) / group.Count()
            ))
            .ToList();
        foreach (
            var reading in readings.Where(r => MeasuredFields.Single.Contains(r.Place.Distance))
        )
        {
            Put($"measured.{BenchNames.Path(reading.Place.Distance)}", reading);
        }
        var positions = readings
            .Where(r => MeasuredFields.Position.Contains(r.Place.Distance))
            .GroupBy(r => r.Place.CogTeeth)
            .ToList();
        leaves.SetCount("measured.positions", positions.Count);
        for (var i = 0; i < positions.Count; i++)
        {
            var path = $"measured.positions[{i}]";
            set(path + ".cog", positions[i].Key);
            foreach (var reading in positions[i])
            {
                Put($"{path}.{Last(reading.Place.Distance)}", reading);
            }
        }
        foreach (
            var reading in readings
                .Where(r => r.Place.Distance == BenchDistance.PivotToAxleAfterScrew)
                .Take(1)
        )
        {
            set("measured.afterScrew.cog", reading.Place.CogTeeth);
            set("measured.afterScrew.turns", reading.Place.Turns);
            Put("measured.afterScrew.pivotToAxle", reading);
        }
        var gaps = readings.Where(r => r.Place.Distance == BenchDistance.Gap).ToList();
        leaves.SetCount("measured.gaps", gaps.Count);
        for (var i = 0; i < gaps.Count; i++)
        {
            var path = $"measured.gaps[{i}]";
            set(path + ".ring", gaps[i].Place.RingTeeth);
            set(path + ".cog", gaps[i].Place.CogTeeth);
            Put(path + ".gap", gaps[i]);
        }

        void Put(string path, BenchReading reading)
        {
            set(path + ".value", reading.ValueMm);
            if (reading.UncertaintyMm != BenchReading.UsualUncertaintyMm)
            {
                set(path + ".uncertainty", reading.UncertaintyMm);
            }
        }
    }

    private static string Last(BenchDistance distance)
    {
        var path = BenchNames.Path(distance);
        return path[(path.LastIndexOf('.') + 1)..];
    }
}
