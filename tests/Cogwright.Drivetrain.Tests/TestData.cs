using System.Globalization;

namespace Cogwright.Drivetrain.Tests;

/// <summary>Finds the folder testdata/ from wherever the tests run, and reads its tables.</summary>
internal static class TestData
{
    /// <summary>Rows of numbers of a table; lines that do not begin with a digit are the source and the header.</summary>
    internal static TheoryData<double[]> Rows(string relative)
    {
        var data = new TheoryData<double[]>();
        foreach (var line in File.ReadLines(Path(relative)))
        {
            if (line.Length > 0 && char.IsDigit(line[0]))
            {
                data.Add([
                    .. line.Split(',')
                        .Select(cell => double.Parse(cell, CultureInfo.InvariantCulture)),
                ]);
            }
        }
        return data;
    }

    internal static string Path(string relative)
    {
        for (
            var folder = new DirectoryInfo(AppContext.BaseDirectory);
            folder is not null;
            folder = folder.Parent
        )
        {
            var file = System.IO.Path.Combine(folder.FullName, "testdata", relative);
            if (File.Exists(file))
            {
                return file;
            }
        }
        throw new FileNotFoundException(relative);
    }
}
