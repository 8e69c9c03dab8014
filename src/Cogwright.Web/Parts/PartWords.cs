using System.Globalization;
using Cogwright.Files;
using Cogwright.Parts;

namespace Cogwright.Web.Parts;

/// <summary>A part in few words.</summary>
internal static class PartWords
{
    private const int MostShown = 3;

    /// <summary>The first things that tell a part from others of its kind.</summary>
    internal static string InShort(Part part) =>
        string.Join(
            " · ",
            PartFields
                .Of(part.Kind)
                .Where(part.Values.ContainsKey)
                .Take(MostShown)
                .Select(field => $"{field.Title} {Value(part, field)}")
                .Append(
                    part.InStock is { } count
                        ? Texts.Get(
                            "parts.stockCount",
                            count.ToString(CultureInfo.InvariantCulture)
                        )
                        : ""
                )
                .Where(text => text.Length > 0)
        );

    /// <summary>The value of a field with its unit.</summary>
    internal static string Value(Part part, PartField field) =>
        $"{PartValueText.Of(part.Values[field])} {field.Unit}".TrimEnd();
}
