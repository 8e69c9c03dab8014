namespace Cogwright.Drivetrain;

/// <summary>A place of the rear axle with what goes with it: the pose of its member and where the idler then stands.</summary>
internal readonly record struct RearPlace
{
    internal RearPlace(in RearEnd rearEnd, in AxlePose pose, Idler? idler)
        : this(pose, idler?.At(rearEnd, pose)) { }

    internal RearPlace(in AxlePose pose, OrientedSprocket? idler)
    {
        Pose = pose;
        Idler = idler;
    }

    internal AxlePose Pose { get; }

    internal OrientedSprocket? Idler { get; }

    /// <summary>With the suspension fully extended, where no linkage need be walked.</summary>
    internal static RearPlace Extended(DrivetrainSpec spec) =>
        new(new AxlePose(spec.Frame.Axle, 0), spec.Idler?.Extended);

    internal static RearPlace At(DrivetrainSpec spec, in RearEnd rearEnd, double travelMm) =>
        new(rearEnd, rearEnd.At(travelMm), spec.Idler);
}
