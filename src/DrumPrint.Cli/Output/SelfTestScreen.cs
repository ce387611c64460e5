using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using DrumPrint.SelfTest;

namespace DrumPrint.Cli.Output;

/// <summary>Tells how the self-test went.</summary>
internal static class SelfTestScreen
{
    /// <param name="report">What came out.</param>
    /// <param name="isQuiet">Whether only trouble is told.</param>
    public static void Write(SelfTestReport report, bool isQuiet)
    {
        if (!isQuiet)
        {
            Terminal.Tell($"{RuntimeInformation.OSDescription.Trim()}, {RuntimeInformation.ProcessArchitecture}, vectors of {VectorBits()} bits, {report.Threads} threads");
        }

        foreach (var sound in report.Sounds.Where(s => !s.IsSame))
        {
            var through = sound.Processors.Count == 0 ? "" : $" ({string.Join(", ", sound.Processors)})";
            Terminal.Say($"{sound.FileName}{through}: {Difference(sound)}");
        }

        if (!report.ReprintsIdentical)
        {
            Terminal.Say("The prints did not come out the same when they were made again.");
        }

        if (!report.IsSame)
        {
            Terminal.Say("Prints from this machine may differ from those of others. Please report it, with the lines above and the output of: drumprint --version");
        }
        else if (!isQuiet)
        {
            Terminal.Tell($"All {report.Sounds.Count} prints hold the same samples as on every other machine, on one thread and on all, and made again.");
        }
    }

    private static string Difference(SelfTestSound sound) => (sound.IsAsEverywhere, sound.IsAsOnOneThread) switch
    {
        (false, true) => $"other samples than elsewhere, SHA-256 {sound.AudioSha256}",
        (true, false) => "one thread makes other samples than all of them",
        _ => $"other samples than elsewhere, and one thread makes others again, SHA-256 {sound.AudioSha256}",
    };

    private static int VectorBits() =>
        Vector512.IsHardwareAccelerated ? 512
        : Vector256.IsHardwareAccelerated ? 256
        : Vector128.IsHardwareAccelerated ? 128
        : 64;
}
