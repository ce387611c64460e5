using DrumPrint.Files;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Tests.Support;

/// <summary>Does every step, but waits for no disk: for tests that take thousands of steps and are not about a loss of power.</summary>
/// <param name="before">Told what is about to be done.</param>
internal sealed class QuickFiles(Action<string>? before = null) : FileSteps(before)
{
    public override void Flush(SafeFileHandle file) => Before("flush a file");

    public override void FlushFolder(string folder) => Before($"flush {Path.GetFileName(folder)}");
}
