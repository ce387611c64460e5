using System.Text;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Files;

/// <summary>A file in the making. It lies in the folder of the file it becomes, under a <see cref="TemporaryName"/>. It takes its
/// own name only when it is whole. Disposed before that, it is gone.</summary>
/// <remarks>
/// The temporary file is always a new one: nothing that lies there already is opened, and no link is followed. It stays open
/// until it has its name or is gone. So <see cref="Leftovers"/> can tell what a killed run left from what another run is making.
/// Others may read it. A set of files is made one after the other, completed, and then committed in one go, with one
/// <see cref="FolderEntries.Flush"/>.
/// </remarks>
internal sealed class StagedFile : IDisposable
{
    private const int StreamBytes = 1 << 16;

    private readonly FileSteps _steps;
    private SafeFileHandle _handle;
    private State _state;
    private long _appended;

    private StagedFile(string path, string temporaryPath, SafeFileHandle handle, FileSteps steps)
    {
        _steps = steps;
        Path = path;
        TemporaryPath = temporaryPath;
        _handle = handle;
    }

    private enum State
    {
        Open,
        Whole,
        Committed,
        Gone,
    }

    /// <summary>The file it becomes, as it was named.</summary>
    public string Path { get; }

    /// <summary>Where it lies until then.</summary>
    public string TemporaryPath { get; }

    /// <summary>The open file, for writing until it is complete.</summary>
    public SafeFileHandle Handle => _handle;

    /// <summary>Begins a file.</summary>
    /// <param name="path">The file it becomes; its folder must be there.</param>
    /// <param name="expectedBytes">Its length as far as known; the disk must have this much room.</param>
    /// <param name="steps">Writes it; null for the plain one.</param>
    /// <exception cref="IOException">It cannot be made; a folder is in the way of its name.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be made.</exception>
    /// <exception cref="ArgumentException">This is no name of a file.</exception>
    public static StagedFile Create(string path, long expectedBytes = 0, FileSteps? steps = null)
    {
        steps ??= FileSteps.Plain;
        var full = System.IO.Path.GetFullPath(path);
        if (System.IO.Path.GetFileName(full).Length == 0)
        {
            throw new ArgumentException("A folder's name ends like this.", nameof(path));
        }

        if (Directory.Exists(full))
        {
            throw new IOException();
        }

        var temporary = System.IO.Path.Combine(System.IO.Path.GetDirectoryName(full)!, TemporaryName.New());
        var handle = steps.Do("begin a file", () => RefusedLength.Told(() => Begin(temporary, expectedBytes)));
        return new StagedFile(path, temporary, handle, steps);
    }

    private static SafeFileHandle Begin(string path, long bytes)
    {
        try
        {
            return File.OpenHandle(path, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.Read | FileShare.Delete, FileOptions.None, bytes);
        }
        catch (IOException e) when (bytes > 0 && e.HResult == FileReason.RuntimeGeneral)
        {
            // On Unix the runtime keeps the system's number to itself when the room cannot be had.
            throw new IOException(e.Message, FileReason.UnixNoSpace);
        }
    }

    /// <summary>Makes a whole file of a text, in UTF-8 without a mark, and brings it and its name to the disk.</summary>
    /// <param name="path">The file.</param>
    /// <param name="text">What it holds.</param>
    /// <param name="replaces">Whether it may take the place of a file.</param>
    /// <param name="isPrivate">Whether no other user may read it, where the system knows users.</param>
    /// <param name="steps">Writes it; null for the plain one.</param>
    /// <exception cref="IOException">It cannot be written, or a file is there that may not be replaced.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public static void Write(string path, string text, bool replaces = true, bool isPrivate = false, FileSteps? steps = null)
    {
        steps ??= FileSteps.Plain;
        using var file = Create(path, steps: steps);
        if (isPrivate && !OperatingSystem.IsWindows())
        {
            // On Windows the folder of a user's settings lets nobody else in.
            File.SetUnixFileMode(file.Handle, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        file.Append(Encoding.UTF8.GetBytes(text));
        file.Complete();
        file.Commit(replaces);
        file.FlushName();
    }

    /// <summary>Puts bytes after those put before.</summary>
    public void Append(ReadOnlySpan<byte> bytes)
    {
        WriteAt(_appended, bytes);
        _appended += bytes.Length;
    }

    /// <summary>Puts bytes at a place.</summary>
    public void WriteAt(long at, ReadOnlySpan<byte> bytes) => _steps.Write(_handle, bytes, at);

    /// <summary>Cuts the file to a length, or makes it longer.</summary>
    public void SetLength(long length) => _steps.Do("set a length", () => RefusedLength.Told(() => RandomAccess.SetLength(_handle, length)));

    /// <summary>A stream that writes the file from its start; closing it leaves the file open.</summary>
    public Stream OpenStream() => new BufferedStream(new StagedStream(this), StreamBytes);

    /// <summary>Ends the writing. The file keeps its temporary name.</summary>
    /// <param name="flush">Whether its bytes are brought to the disk now; not for what is looked through before it is used again.</param>
    public void Complete(bool flush = true)
    {
        if (_state != State.Open)
        {
            throw new InvalidOperationException($"{Path} is complete.");
        }

        if (flush)
        {
            _steps.Flush(_handle);
        }

        // What holds it from here on is open for reading only, so that other readers come in on every system; without a gap between.
        var reading = File.OpenHandle(TemporaryPath, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        _handle.Dispose();
        _handle = reading;
        _state = State.Whole;
    }

    /// <summary>Gives the file its name.</summary>
    /// <param name="replaces">Whether it may take the place of a file; a link there is replaced, not followed.</param>
    /// <exception cref="IOException">The name cannot be taken; the file keeps its temporary one.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be.</exception>
    public void Commit(bool replaces = true)
    {
        if (_state != State.Whole)
        {
            throw new InvalidOperationException($"{Path} is not complete.");
        }

        _steps.Move(TemporaryPath, System.IO.Path.GetFullPath(Path), replaces);
        _state = State.Committed;
        _handle.Dispose();
    }

    /// <summary>Brings its name to the disk.</summary>
    public void FlushName() => _steps.FlushFolder(System.IO.Path.GetDirectoryName(System.IO.Path.GetFullPath(Path))!);

    /// <summary>Takes the file away, unless it has its name.</summary>
    public void Dispose()
    {
        _handle.Dispose();
        if (_state is State.Committed or State.Gone)
        {
            return;
        }

        _state = State.Gone;
        _steps.TryDelete(TemporaryPath);
    }
}
