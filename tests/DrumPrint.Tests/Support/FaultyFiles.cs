using System.Globalization;
using DrumPrint.Files;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Tests.Support;

/// <summary>Does what changes the disk, but for one step.</summary>
/// <param name="fault">How that one goes wrong.</param>
/// <param name="at">Which one, counted from 0; of those that write bytes where they are torn.</param>
internal sealed class FaultyFiles(Fault fault, int at) : FileSteps
{
    // What a full disk is on Linux and macOS, and what the runtime gives on Windows.
    private static readonly int NoRoom = OperatingSystem.IsWindows() ? unchecked((int)0x8007_0070) : 28;

    private readonly Lock _gate = new();
    private int _count;

    /// <summary>The step that went wrong; null when none did.</summary>
    public string? Where { get; private set; }

    public override void Write(SafeFileHandle file, ReadOnlySpan<byte> bytes, long at)
    {
        lock (_gate)
        {
            if (IsIt("write bytes", isWrite: true))
            {
                if (fault != Fault.Fails)
                {
                    RandomAccess.Write(file, bytes[..(bytes.Length / 2)], at);
                }

                throw Thrown();
            }
        }

        RandomAccess.Write(file, bytes, at);
    }

    // That a disk is slow is not what is tried here.
    public override void Flush(SafeFileHandle file) => Before("flush a file");

    public override void FlushFolder(string folder) => Before("flush a folder");

    protected override void Before(string what)
    {
        lock (_gate)
        {
            if (IsIt(what, isWrite: false))
            {
                throw Thrown();
            }
        }
    }

    private bool IsIt(string what, bool isWrite)
    {
        if (Where is not null)
        {
            return fault == Fault.Ends;
        }

        if ((fault == Fault.Tears && !isWrite) || _count++ != at)
        {
            return false;
        }

        Where = string.Create(CultureInfo.InvariantCulture, $"{fault}, {at}: {what}");
        return true;
    }

    private Exception Thrown() => fault == Fault.Ends ? new EndedException() : new IOException("it fails", NoRoom);

    // Whoever would put something right after it finds that nothing can be done any more, so the disk stays as it was at the end.
    private sealed class EndedException() : IOException("the process is over", NoRoom);
}
