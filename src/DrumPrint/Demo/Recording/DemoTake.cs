using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Spaces;

namespace DrumPrint.Demo.Recording;

/// <summary>What is recorded for a session: the demo's own, or a small part of it.</summary>
/// <param name="Frames">Length of every track.</param>
/// <param name="Microphones">One track each.</param>
/// <param name="Impulses">Impulse responses by file name.</param>
internal sealed record DemoTake(long Frames, IReadOnlyList<KitMicrophone> Microphones, IReadOnlyList<(string Name, double[][] Channels)> Impulses)
{
    private const double WholeS = 200;
    private const double CutS = 24;

    /// <summary>All that belongs to the demo.</summary>
    /// <param name="full">The whole song, or the cut.</param>
    public static DemoTake All(bool full) => new(
        (long)((full ? WholeS : CutS) * SongForm.SampleRate),
        Kit.Microphones.All,
        [("chamber_4ch.wav", Chamber.Make()), ("small_space.wav", SmallSpace.Make())]);
}
