using System.Text;
using DrumPrint.Audio;
using DrumPrint.Files;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Delivering;

/// <summary>A folder in the making. It lies beside the folder it becomes, under a <see cref="TemporaryName"/>. It takes its name
/// in one step when it is whole. Disposed before that, it is gone.</summary>
/// <remarks>The place is locked while it is made, so what lies there under such a name otherwise was left by a killed run.</remarks>
internal sealed class StagedFolder : IDisposable
{
    private readonly FileSteps _steps;
    private bool _isPublished;

    /// <param name="place">The folder that it will lie in.</param>
    /// <param name="steps">Does it.</param>
    public StagedFolder(string place, FileSteps steps)
    {
        _steps = steps;
        Place = place;
        Folder = Path.Combine(place, TemporaryName.New());
        steps.MakeFolder(Folder);
    }

    /// <summary>Where it will lie.</summary>
    public string Place { get; }

    /// <summary>Where its files lie until then.</summary>
    public string Folder { get; }

    /// <summary>Copies a file; gives the hash of what was copied.</summary>
    public void Copy(string from, string name, CancellationToken cancel) => _steps.Do($"copy {name}", () =>
    {
        using var source = new FileStream(RegularFile.Open(from), FileAccess.Read, 1);
        using var target = Create(name);
        var buffer = new byte[1 << 20];
        var at = 0L;
        for (int count; (count = source.Read(buffer)) > 0; at += count)
        {
            cancel.ThrowIfCancellationRequested();
            Put(target, name, buffer.AsSpan(0, count), at);
        }

        _steps.Flush(target);
    });

    /// <summary>Writes a text, in UTF-8 without a mark.</summary>
    public void Write(string name, string text) => Write(name, Encoding.UTF8.GetBytes(text));

    public void Write(string name, byte[] bytes) => _steps.Do($"write {name}", () =>
    {
        using var target = Create(name);
        Put(target, name, bytes, 0);
        _steps.Flush(target);
    });

    public string PathOf(string name) => Path.Combine(Folder, name);

    /// <summary>Adds the manifest, and the sums of all that is there.</summary>
    public void Seal(DeliveryManifest manifest)
    {
        Write(manifest.FileName, manifest.ToText());
        Write(SumsFile.Name, SumsFile.Text([.. manifest.Files.Select(f => (f.Name, f.FileSha256)), (manifest.FileName, FileHash.Sha256(PathOf(manifest.FileName)))]));
    }

    /// <summary>Gives the folder its name.</summary>
    /// <exception cref="IOException">Something of that name is there.</exception>
    public void Publish(string name)
    {
        _steps.FlushFolder(Folder);
        _steps.Do($"move the folder to {name}", () => Directory.Move(Folder, Path.Combine(Place, name)));
        _isPublished = true;
        _steps.FlushFolder(Place);
    }

    public void Dispose()
    {
        if (!_isPublished)
        {
            _steps.TryDeleteFolder(Folder);
        }
    }

    // A refused write may not say of which file.
    private void Put(SafeFileHandle target, string name, ReadOnlySpan<byte> bytes, long at)
    {
        try
        {
            _steps.Write(target, bytes, at);
        }
        catch (IOException e) when (FileReason.PathOf(e) is null)
        {
            throw new IOException($"{e.Message} '{Path.Combine(Place, name)}'", e.HResult);
        }
    }

    private SafeFileHandle Create(string name) => File.OpenHandle(PathOf(name), FileMode.CreateNew, FileAccess.Write, FileShare.Read);
}
