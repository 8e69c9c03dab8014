namespace Cogwright.Web.Tests.Device;

using Cogwright.Web.Parts;

/// <summary>The demo workshop's parts as a device has them that never reached a shop.</summary>
internal static class DemoLibrary
{
    internal static PartShelf Shelf() => new(new PretendKeep(), new PretendParts());
}
