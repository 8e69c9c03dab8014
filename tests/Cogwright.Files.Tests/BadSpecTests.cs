namespace Cogwright.Files.Tests;

/// <summary>
/// One case per bad spec in testdata/cases/bad-specs: beside each stand the place and the field of the error, and a
/// piece of its message.
/// </summary>
public sealed class BadSpecTests
{
    private const string Folder = "testdata/cases/bad-specs";

    public static TheoryData<string> Cases =>
        [
            .. Directory
                .EnumerateFiles(Repository.PathOf(Folder), "*.yaml")
                .Select(f => Path.GetFileNameWithoutExtension(f)!)
                .Order(StringComparer.Ordinal),
        ];

    [Theory]
    [MemberData(nameof(Cases))]
    public void BadSpec_Read_TellsPlaceFieldAndWhatWasExpected(string name)
    {
        var expected = Repository.Text($"{Folder}/{name}.expected").Split('\n');
        var text = Repository.Text($"{Folder}/{name}.yaml");

        var reading = SpecReader.Read(text, name);

        Assert.Null(reading.Spec);
        var told = reading.Problems.Where(p => p.IsError).ToList();
        Assert.Contains(told, p => $"{p.Line}:{p.Column} {p.Field}" == expected[0]);
        Assert.Contains(told, p => p.Message.Contains(expected[1], StringComparison.Ordinal));
        // One mistake gives one error; only what cannot be placed at all may draw others after it.
        Assert.True(told.Count <= 2, string.Join('\n', told));
    }
}
