namespace Cogwright.Drivetrain;

/// <summary>What a hanger is made of.</summary>
public enum HangerMaterial
{
    /// <summary>Nobody knows; treated as aluminium.</summary>
    Unknown,

    /// <summary>Aluminium: breaks after a few bends.</summary>
    Aluminium,

    /// <summary>Steel: can be bent repeatedly.</summary>
    Steel,

    /// <summary>Titanium: springs back and resists.</summary>
    Titanium,
}

/// <summary>Whether a hanger may be bent back.</summary>
public enum BendAdvice
{
    /// <summary>It may.</summary>
    Bend,

    /// <summary>It may, slowly, once more; count it.</summary>
    BendWithCare,

    /// <summary>It has been bent often enough: replace it.</summary>
    Replace,

    /// <summary>It springs back: expect to go well past, or replace it.</summary>
    SpringsBack,
}

/// <summary>How often a hanger may be bent.</summary>
public static class HangerBends
{
    /// <summary>Bends after which an aluminium hanger is replaced. Common practice: "a few times at most".</summary>
    public const int MostOfAluminium = 3;

    /// <summary>Whether a hanger may be bent once more. Common practice; a crack always means a new one.</summary>
    public static BendAdvice Advice(Hanger hanger)
    {
        ArgumentNullException.ThrowIfNull(hanger);
        return hanger.Material switch
        {
            HangerMaterial.Steel => BendAdvice.Bend,
            HangerMaterial.Titanium => BendAdvice.SpringsBack,
            _ when hanger.Bends >= MostOfAluminium => BendAdvice.Replace,
            _ => BendAdvice.BendWithCare,
        };
    }
}
