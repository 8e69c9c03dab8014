namespace Cogwright.Drivetrain.Tests;

/// <summary>Finds the folder testdata/ from wherever the tests run.</summary>
internal static class TestData
{
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
