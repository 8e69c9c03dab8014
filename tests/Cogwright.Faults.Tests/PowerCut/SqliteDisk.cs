using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Cogwright.Faults.Tests;

/// <summary>
/// A layer between SQLite and the disk (a "VFS", sqlite.org/vfs.html): the default one with writing, cutting short, syncing,
/// opening and deleting passed through a <see cref="RecordingDisk"/>, for files in its folder. The layouts are those of
/// sqlite3.h on 64 bits, which have not changed since version 3.7.6.
/// </summary>
internal static unsafe partial class SqliteDisk
{
    private const int VfsBytes = 40 + (16 * 8);
    private const int MethodsBytes = 8 + (18 * 8);
    private const int Ok = 0;

    private sealed record OpenFile(RecordingDisk Disk, string Path, nint Methods);

    private static readonly Dictionary<string, RecordingDisk> Disks = [];
    private static readonly Dictionary<nint, OpenFile> OpenFiles = [];
    private static readonly Lock Gate = new();
    private static byte* original;

    // A database file and a journal have different methods: one table of ours for each of theirs.
    private static readonly Dictionary<nint, nint> OwnMethods = [];

    /// <summary>Records what SQLite does to files in a folder.</summary>
    internal static void Attach(RecordingDisk disk)
    {
        lock (Gate)
        {
            if (original == null)
            {
                Register();
            }
            Disks[disk.Folder] = disk;
        }
    }

    private static void Register()
    {
        original = (byte*)FindVfs(0);
        var own = (byte*)NativeMemory.AllocZeroed(VfsBytes);
        Buffer.MemoryCopy(original, own, VfsBytes, VfsBytes);
        *(nint*)(own + 16) = 0;
        *(nint*)(own + 24) = Marshal.StringToCoTaskMemUTF8("recording");
        *(delegate* unmanaged<byte*, byte*, byte*, int, int*, int>*)(own + 40) = &Open;
        *(delegate* unmanaged<byte*, byte*, int, int>*)(own + 48) = &Delete;
        Assert.Equal(Ok, RegisterVfs((nint)own, 1));
    }

    [UnmanagedCallersOnly]
    private static int Open(byte* vfs, byte* name, byte* file, int flags, int* outFlags)
    {
        var result = (
            (delegate* unmanaged<byte*, byte*, byte*, int, int*, int>)*(nint*)(original + 40)
        )(original, name, file, flags, outFlags);
        if (result != Ok || DiskOf(name) is not { } recorded)
        {
            return result;
        }
        lock (Gate)
        {
            var methods = *(nint*)file;
            OpenFiles[(nint)file] = new OpenFile(recorded.Disk, recorded.Path, methods);
            if (!OwnMethods.TryGetValue(methods, out var own))
            {
                own = MethodsLike(methods);
                OwnMethods.Add(methods, own);
            }
            *(nint*)file = own;
        }
        recorded.Disk.Opened(recorded.Path);
        return Ok;
    }

    private static nint MethodsLike(nint methods)
    {
        var own = (byte*)NativeMemory.Alloc(MethodsBytes);
        Buffer.MemoryCopy((byte*)methods, own, MethodsBytes, MethodsBytes);
        *(delegate* unmanaged<byte*, int>*)(own + 8) = &Close;
        *(delegate* unmanaged<byte*, byte*, int, long, int>*)(own + 24) = &Write;
        *(delegate* unmanaged<byte*, long, int>*)(own + 32) = &Truncate;
        *(delegate* unmanaged<byte*, int, int>*)(own + 40) = &Sync;
        return (nint)own;
    }

    [UnmanagedCallersOnly]
    private static int Delete(byte* vfs, byte* name, int syncsFolder)
    {
        var recorded = DiskOf(name);
        recorded?.Disk.Deleting(recorded.Value.Path, syncsFolder != 0);
        return ((delegate* unmanaged<byte*, byte*, int, int>)*(nint*)(original + 48))(
            original,
            name,
            syncsFolder
        );
    }

    [UnmanagedCallersOnly]
    private static int Close(byte* file)
    {
        var open = Of(file);
        lock (Gate)
        {
            OpenFiles.Remove((nint)file);
        }
        return ((delegate* unmanaged<byte*, int>)*(nint*)(open.Methods + 8))(file);
    }

    [UnmanagedCallersOnly]
    private static int Write(byte* file, byte* data, int count, long offset)
    {
        var open = Of(file);
        open.Disk.Writing(open.Path, new ReadOnlySpan<byte>(data, count), offset);
        return ((delegate* unmanaged<byte*, byte*, int, long, int>)*(nint*)(open.Methods + 24))(
            file,
            data,
            count,
            offset
        );
    }

    [UnmanagedCallersOnly]
    private static int Truncate(byte* file, long length)
    {
        var open = Of(file);
        open.Disk.Truncating(open.Path, length);
        return ((delegate* unmanaged<byte*, long, int>)*(nint*)(open.Methods + 32))(file, length);
    }

    [UnmanagedCallersOnly]
    private static int Sync(byte* file, int flags)
    {
        var open = Of(file);
        // The disk itself need not be waited for: what counts here is what the recording says is on it.
        open.Disk.Synced(open.Path);
        return Ok;
    }

    private static OpenFile Of(byte* file)
    {
        lock (Gate)
        {
            return OpenFiles[(nint)file];
        }
    }

    private static (RecordingDisk Disk, string Path)? DiskOf(byte* name)
    {
        if (name == null)
        {
            return null;
        }
        var path = Marshal.PtrToStringUTF8((nint)name)!;
        lock (Gate)
        {
            return Disks.TryGetValue(Path.GetDirectoryName(path)!, out var disk)
                ? (disk, path)
                : null;
        }
    }

    [LibraryImport("e_sqlite3", EntryPoint = "sqlite3_vfs_find")]
    private static partial nint FindVfs(nint name);

    [LibraryImport("e_sqlite3", EntryPoint = "sqlite3_vfs_register")]
    private static partial int RegisterVfs(nint vfs, int makeDefault);

    [ModuleInitializer]
    internal static void UseSqlite() => SQLitePCL.Batteries_V2.Init();
}
