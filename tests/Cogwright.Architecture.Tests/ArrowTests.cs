namespace Cogwright.Architecture.Tests;

/// <summary>Holds the arrows between the rooms: in the projects, in the assemblies and type by type.</summary>
public sealed class ArrowTests
{
    private const string Catalogue = "Cogwright.Setup.Catalogue";

    [Fact]
    public void Rooms_InSources_AreTheRoomsListed()
    {
        var folders = Directory
            .EnumerateDirectories(Path.Combine(SourceTree.Root, "src"))
            .Select(Path.GetFileName);

        Assert.Equal(
            Room.All.Select(room => room.Name).Order(StringComparer.Ordinal),
            folders.Order(StringComparer.Ordinal)
        );
    }

    [Theory]
    [MemberData(nameof(Room.Names), MemberType = typeof(Room))]
    public void Room_HasTests_InAProjectOfItsName(string name) =>
        Assert.Contains(
            Path.Combine("tests", $"{name}.Tests", $"{name}.Tests.csproj"),
            SourceTree.ProjectFiles
        );

    [Fact]
    public void Solution_HoldsEveryProject()
    {
        var listed = SourceTree
            .Xml("Cogwright.slnx")
            .Descendants("Project")
            .Select(project => project.Attribute("Path")!.Value);

        Assert.Empty(SourceTree.ProjectFiles.Except(listed));
    }

    [Fact]
    public void Arrows_HaveNoCycle()
    {
        // Listed in the order in which they can be built, every room sees earlier ones only.
        var earlier = new HashSet<string>();
        foreach (var room in Room.All)
        {
            Assert.Empty(room.MaySee.Except(earlier));
            earlier.Add(room.Name);
        }
    }

    [Theory]
    [MemberData(nameof(Room.PureNames), MemberType = typeof(Room))]
    public void PureRoom_SeesPureRoomsOnly(string name) =>
        Assert.All(Room.Named(name).MaySee, seen => Assert.True(Room.Named(seen).IsPure));

    [Theory]
    [MemberData(nameof(Room.Names), MemberType = typeof(Room))]
    public void Project_RefersTo_WhatTheRoomMaySee(string name)
    {
        var room = Room.Named(name);
        var referred = SourceTree
            .Xml($"src/{name}/{name}.csproj")
            .Descendants("ProjectReference")
            .Select(reference =>
                Path.GetFileNameWithoutExtension(reference.Attribute("Include")!.Value)
            );

        Assert.Empty(referred.Except(room.MaySee));
    }

    [Theory]
    [MemberData(nameof(Room.Names), MemberType = typeof(Room))]
    public void Assembly_RefersTo_WhatTheRoomMaySeeAndUse(string name)
    {
        var room = Room.Named(name);
        var referred = UseScan
            .AssembliesSeenBy(room)
            .Where(assembly => !assembly.StartsWith("System.", StringComparison.Ordinal));

        Assert.Empty(referred.Except([.. room.MaySee, .. room.MayUse]));
    }

    [Theory]
    [MemberData(nameof(Room.Names), MemberType = typeof(Room))]
    public void Types_ReferTo_WhatTheRoomMaySee(string name)
    {
        var room = Room.Named(name);
        var beyond = Room
            .All.Where(other => other != room && !room.MaySee.Contains(other.Name))
            .Select(other => other.AssemblyName)
            .ToHashSet();

        Assert.DoesNotContain(UseScan.Of(room), use => beyond.Contains(use.ToAssembly));
    }

    [Fact]
    public void Setup_OutsideItsCatalogue_KnowsNoDrivetrain()
    {
        var outside = UseScan.Of(Room.Named("Cogwright.Setup")).Where(IsOutsideCatalogue);

        Assert.DoesNotContain(outside, use => use.ToAssembly == "Cogwright.Drivetrain");
    }

    private static bool IsOutsideCatalogue(Use use) =>
        use.FromNamespace != Catalogue
        && !use.FromNamespace.StartsWith(Catalogue + ".", StringComparison.Ordinal);
}
