using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Demo.Playing;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Files;

namespace DrumPrint.Demo.Faults;

/// <summary>Damages the printed files.</summary>
/// <param name="prints">Their folder.</param>
/// <param name="map">The bars of the session.</param>
/// <param name="steps">Writes.</param>
/// <param name="cancel">Stops the work.</param>
internal sealed class PrintFaults(string prints, TempoMap map, FileSteps steps, CancellationToken cancel)
{
    private const int LateFrames = 64;
    private const double NormalisedDb = -0.1;
    private const double TailS = 0.4;
    private const string StrangeName = "10 Snare Rasp (final).wav";

    private readonly SpoiledFile _files = new(steps, cancel);

    public IEnumerable<DemoFault> All()
    {
        var end = ((double)Score.Of(map)[^1].Frame / SongForm.SampleRate) + TailS;
        var stairwell = Print("13_Stairwell");
        _files.Write(stairwell, frames: (long)(end * SongForm.SampleRate));
        yield return Fault("P1", stairwell, $"The file ends {TailS:0.0} s after the last hit.", new FaultSign("B1", "13 Stairwell"), new FaultSign("G2", "13 Stairwell")) with { PlacesS = [end] };

        var impact = Print("12_Impact");
        _files.Write(impact, lateFrames: LateFrames);
        yield return Fault("P2", impact, $"The file is {LateFrames} frames late.", new FaultSign("B3", "12 Impact"), new FaultSign("F3", "12 Impact"));

        var overheads = Print("06_OH");
        var raiseDb = NormalisedDb - Decibels.FromGain(Peak(overheads));
        _files.Write(overheads, (block, _) => Raise(block, Decibels.ToGain(raiseDb)));
        yield return Fault("P3", overheads, FormattableString.Invariant($"The file was normalised to {NormalisedDb:0.0} dBFS, {raiseDb:0.0} dB louder than it was printed.").Replace("-", "−", StringComparison.Ordinal), new FaultSign("C6", "06 OH"), new FaultSign("H1", ""));

        var crushed = Print("09_CrushedRoom");
        steps.Delete(crushed);
        yield return Fault("P4", crushed, "The file is missing.", new FaultSign("A11", "09 CrushedRoom"), new FaultSign("D4", "09 CrushedRoom"));

        var near = Print("07_RoomNear");
        _files.Write(near, (block, _) => (block[0], block[1]) = (block[1], block[0]));
        yield return Fault("P6", near, "Left and right are swapped.", new FaultSign("E3", "07 RoomNear"));

        var hat = Print("05_Hat");
        _files.Write(hat, (block, _) => block[0].AsSpan().Clear());
        yield return Fault("P7", hat, "The file is silent.", new FaultSign("D1", "05 Hat"));

        var rasp = Print("10_SnareRasp");
        steps.Move(rasp, Path.Combine(prints, StrangeName));
        yield return new("P9", $"prints/{StrangeName}", $"The file is called so instead of {Path.GetFileName(rasp)}.", new FaultSign("A10", StrangeName));

        var rough = Print("90_RoughPreBus");
        var look = new LossyLook(SongForm.SampleRate);
        _files.Write(rough, (block, _) => look.Process(block), lateFrames: LossyLook.LateFrames - LossyLook.OwnLateFrames);
        yield return Fault("P11", rough, FormattableString.Invariant($"The rough has been through a lossy format: nothing above 16 kHz, and {LossyLook.LateFrames} frames late."), new FaultSign("A9", "90 RoughPreBus"));
    }

    private static DemoFault Fault(string id, string path, string what, params IReadOnlyList<FaultSign> signs) => new(id, $"prints/{Path.GetFileName(path)}", what, signs);

    private static double Peak(string path)
    {
        using var reader = AudioReader.Open(path, AudioHashes.None);
        var channels = Enumerable.Range(0, reader.Info.Channels).Select(_ => new double[SpoiledFile.BlockFrames]).ToArray();
        var peak = 0.0;
        while (reader.Read(new AudioBlock(channels, 0, SpoiledFile.BlockFrames)) is var frames and > 0)
        {
            peak = Math.Max(peak, channels.Max(c => c.Take(frames).Max(Math.Abs)));
        }

        return peak;
    }

    private static void Raise(double[][] block, double gain)
    {
        foreach (var channel in block)
        {
            for (var n = 0; n < channel.Length; n++)
            {
                channel[n] *= gain;
            }
        }
    }

    private string Print(string name) => Path.Combine(prints, $"{name}_SlowFerry_v1.wav");
}
