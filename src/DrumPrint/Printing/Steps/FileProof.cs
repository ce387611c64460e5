using DrumPrint.Audio;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Rendering;

namespace DrumPrint.Printing.Steps;

/// <summary>Proves from finished files, not all of one run, that the prints add up to the rough.</summary>
internal static class FileProof
{
    /// <summary>Largest difference of the sum of the prints to the rough.</summary>
    /// <param name="prints">Playing prints, by number.</param>
    /// <param name="rough">The rough.</param>
    /// <param name="panLawDb">Level of a centred mono print on each side.</param>
    /// <param name="blockFrames">Frames in a block.</param>
    /// <param name="threads">Number of threads.</param>
    /// <param name="cancel">Stops it.</param>
    public static double Peak(IReadOnlyList<string> prints, string rough, double panLawDb, int blockFrames, int threads, CancellationToken cancel)
    {
        var readers = new List<AudioReader>();
        try
        {
            foreach (var path in prints.Append(rough))
            {
                readers.Add(AudioReader.Open(path, AudioHashes.None));
            }

            var info = readers[^1].Info;
            var (left, right) = PanLaw.Mono(0, panLawDb);
            var files = readers.Select(r => new PrintFileNode(r) { Name = "read", Channels = r.Info.Channels }).ToList();
            var feeds = files.Take(prints.Count).Select(f => new Feeding(f, 0, f.Channels == 1 ? [[left], [right]] : [[1, 0], [0, 1]], null)).ToList();
            var proof = new NullNode(feeds, files[^1], new WrittenStretch(0, info.Frames, info.Frames, info.Frames), info.SampleRate) { Name = "null", Channels = 2 };
            List<Node> nodes = [.. files, proof];
            nodes.ForEach(n => n.Prepare(blockFrames));
            BlockScheduler.Run(nodes, (info.Frames + blockFrames - 1) / blockFrames, threads, null, cancel);
            return proof.PeakBefore(info.Frames);
        }
        finally
        {
            readers.ForEach(r => r.Dispose());
        }
    }
}
