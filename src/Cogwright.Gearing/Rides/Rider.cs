namespace Cogwright.Gearing;

/// <summary>A rider on a bike: what has to be moved, how hard, and how fast the cranks are to turn. Immutable.</summary>
public sealed record Rider
{
    /// <summary>Bike, rider and air.</summary>
    public required RoadLoad Load { get; init; }

    /// <summary>How hard the rider pedals.</summary>
    public required PowerPlan Power { get; init; }

    /// <summary>Slowest cadence that is ridden willingly (rpm, 20 to 200); 60 unless told.</summary>
    public double LowRpm { get; init; } = 60;

    /// <summary>Fastest cadence that is ridden willingly (rpm, above the slowest, at most 250); 100 unless told.</summary>
    public double HighRpm { get; init; } = 100;

    /// <summary>Cadence that a gear is chosen for (rpm, between the two), or null for their middle.</summary>
    public double? WantedRpm { get; init; }

    /// <summary>Speed above which the rider coasts and brakes (m/s, 3 to 40); 60 km/h unless told.</summary>
    public double TopSpeedMs { get; init; } = 60 / 3.6;

    /// <summary>
    /// Whether a gear across is left for another ring although it would serve. False unless told: most riders shift in front only
    /// when the ring no longer serves.
    /// </summary>
    public bool AvoidsAcross { get; init; }

    /// <summary>The cadence that a gear is chosen for (rpm).</summary>
    public double AimRpm => WantedRpm ?? (0.5 * (LowRpm + HighRpm));

    /// <summary>This rider, when every number is in its range.</summary>
    /// <exception cref="ImpossibleInputException">A number is out of its range; the message says which.</exception>
    public Rider Checked()
    {
        Load.Checked();
        Demand.Between(LowRpm, 20, 200, "cadence", "ride.lowRpm");
        Demand.Between(HighRpm, 20, 250, "cadence", "ride.highRpm");
        if (!(HighRpm > LowRpm))
        {
            throw new ImpossibleInputException(
                "cadence",
                Texts.Get("ride.rpmOrder", LowRpm, HighRpm)
            );
        }
        Demand.Between(AimRpm, LowRpm, HighRpm, "cadence", "ride.wantedRpm");
        Demand.Between(TopSpeedMs, 3, 40, "topSpeed", "ride.topSpeed");
        return this;
    }
}
