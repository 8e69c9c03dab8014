namespace Cogwright.Storage;

/// <summary>Makes a folder that is there only when everything in it is.</summary>
internal static class WholeFolder
{
    internal static async Task<(string Folder, T Made)> MakeAsync<T>(
        ShopDatabase database,
        string targetFolder,
        Func<string, Task<T>> fill
    )
    {
        var target = Path.TrimEndingDirectorySeparator(Path.GetFullPath(targetFolder));
        if (Path.Exists(target))
        {
            throw StoreFaultException.Of(
                StoreFaultKind.WouldReplace,
                Texts.Get("backup.targetExists", target)
            );
        }
        var part = target + ".part-" + Guid.NewGuid().ToString("N");
        try
        {
            FolderSync.Make(part);
            var made = await fill(part).ConfigureAwait(false);
            FolderSync.All(part);
            Directory.Move(part, target);
            FolderSync.Folder(Path.GetDirectoryName(target)!);
            return (target, made);
        }
        catch (Exception e) when (database.FaultOf(e) is { } fault)
        {
            throw fault;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw StoreFaultException.Of(
                StoreFaultKind.Inaccessible,
                Texts.Get("folder.inaccessible", target, e.Message),
                e
            );
        }
        finally
        {
            if (Directory.Exists(part))
            {
                Directory.Delete(part, recursive: true);
            }
        }
    }
}
