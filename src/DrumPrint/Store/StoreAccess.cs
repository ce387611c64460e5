using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Store;

/// <summary>A store that this user made: its folder and what its entries are summed with.</summary>
/// <param name="Folder">Where it is.</param>
/// <param name="Sums">What its entries are summed with.</param>
internal sealed record StoreAccess(string Folder, StoreSums Sums)
{
    /// <summary>Where a folder goes that lies in a store's place and is none.</summary>
    public const string AsideName = "drumprint-store-set-aside";

    /// <summary>Opens a store for a run, and makes one where none is. A folder in its place that this user's DrumPrint did not
    /// make is moved aside whole. What somebody else wrote is not believed, and what is not ours is not deleted.</summary>
    /// <returns>The store and what to know of it; or no store, and why.</returns>
    public static (StoreAccess? Store, string? Note) OpenOrMake(string folder, FileSteps steps)
    {
        try
        {
            if (StoreLinks.In(folder) is { } link)
            {
                return (null, $"{StoreLinks.Trouble(link)}, and everything was rendered.");
            }

            if (UserSecret.DefaultPath is not { } path)
            {
                return (null, "You have no folder for settings, where the key of your stores would lie, so nothing is kept and everything was rendered.");
            }

            var secret = UserSecret.ReadOrMake(path, steps);
            if (StoreMark.Read(folder, secret) is { } known)
            {
                return (new StoreAccess(folder, known), null);
            }

            var note = SetAside(folder, steps);
            steps.MakeFolder(folder);
            StoreMark.Write(folder, secret, steps);
            return StoreMark.Read(folder, secret) is { } made
                ? (new StoreAccess(folder, made), note)
                : (null, $"The store {folder} could not be used, so everything was rendered: its mark is not yours.");
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            return (null, $"The store {folder} could not be used, so everything was rendered: {FileReason.Of(e)}.");
        }
    }

    /// <summary>Opens a store to look into it; null where there is none.</summary>
    /// <exception cref="UsageException">What is there is a link, or was not made by this user's DrumPrint.</exception>
    public static StoreAccess? Find(string folder)
    {
        StoreLinks.Refuse(folder);
        if (!Directory.Exists(folder))
        {
            return null;
        }

        try
        {
            return UserSecret.DefaultPath is { } path && Path.Exists(path) && StoreMark.Read(folder, UserSecret.ReadOrMake(path, FileSteps.Plain)) is { } sums
                ? new StoreAccess(folder, sums)
                : throw new UsageException($"{folder} is no store that your DrumPrint made on this machine, so nothing in it is looked at or deleted. The next print moves it aside and begins a new one.");
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw new UsageException($"{folder}: this store cannot be opened: {FileReason.Of(e)}.");
        }
    }

    // Null when there was nothing to move.
    private static string? SetAside(string folder, FileSteps steps)
    {
        if (!Directory.Exists(folder) || !HoldsAnything(folder))
        {
            return null;
        }

        var full = Path.GetFullPath(folder);
        var aside = FreeName.In(Path.GetDirectoryName(full)!, AsideName);
        steps.Do("move the store aside", () => Directory.Move(full, aside));
        return $"{folder} was not made by your DrumPrint on this machine, or by an earlier version, so nothing in it was used. It is now {aside}; delete it when you do not need it.";
    }

    // What a run leaves that ends before its store has a mark is nothing.
    private static bool HoldsAnything(string folder) => Directory.EnumerateFileSystemEntries(folder).Any(path =>
        Path.GetFileName(path) is var name
        && name != StoreFiles.TagName
        && !TemporaryName.Is(name)
        && !(StoreFiles.Folders.Contains(name) && Directory.Exists(path) && !Directory.EnumerateFileSystemEntries(path).Any()));
}
