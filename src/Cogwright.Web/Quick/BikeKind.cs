using System.Collections.Immutable;
using Cogwright.Files;

namespace Cogwright.Web.Quick;

/// <summary>A kind of bike as somebody names it at a glance, with the classes of mechanism taken for it until somebody measures.</summary>
/// <param name="Id">Its name in texts and addresses.</param>
/// <param name="Frame">Class of the frame.</param>
/// <param name="Hanger">Class of the hanger, or null without rear derailleur.</param>
/// <param name="Derailleur">Usual class of the rear derailleur, or null without.</param>
/// <param name="HubSpacingMm">Usual hub (mm over the locknuts).</param>
internal sealed record BikeKind(
    string Id,
    string Frame,
    string? Hanger,
    string? Derailleur,
    int HubSpacingMm
)
{
    /// <summary>All kinds, in the order in which they are offered.</summary>
    internal static ImmutableArray<BikeKind> All { get; } =
    [
        new("road", "road-endurance", "road", "road-medium", 142),
        new("gravel", "gravel", "interchangeable", "gravel-long", 142),
        new("trail", "trail", "interchangeable", "trail-long", 148),
        new("touring", "touring", "mountain", "touring-long", 135),
        new("city", "city", "mountain", "touring-long", 135),
        new("single", "city", null, null, 135),
    ];

    /// <summary>Classes of rear derailleurs to choose from: those that a spec may name.</summary>
    internal static ImmutableArray<string> Derailleurs { get; } =
        SheetFields.Of(SpecSheet.Empty, isWhole: true).Find("rearDerailleur.class")!.Choices;

    /// <summary>The kind of that name, or null.</summary>
    internal static BikeKind? Find(string id) => All.FirstOrDefault(kind => kind.Id == id);
}
