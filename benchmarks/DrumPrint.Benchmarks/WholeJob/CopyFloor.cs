using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Dsp.WordLength;
using DrumPrint.Printing.Reports;

namespace DrumPrint.Benchmarks.WholeJob;

/// <summary>
/// What printing costs when nothing is processed. Every raw track is read, decoded and hashed. Every print is rounded,
/// encoded, hashed and written, at the lengths and channels of a real run.
/// </summary>
internal static class CopyFloor
{
    private const int BlockFrames = 4096;

    public static void Run(Chain chain, PrintReport report, string folder, int threads)
    {
        Directory.CreateDirectory(folder);
        var options = new ParallelOptions { MaxDegreeOfParallelism = threads };
        Parallel.ForEach(chain.Tracks, options, track => Read(Path.Combine(chain.Folder, track.File)));
        Parallel.ForEach(report.Prints, options, print => Write(Path.Combine(folder, print.FileName), print, report, chain.Song.RateHz));
    }

    private static void Read(string path)
    {
        using var reader = AudioReader.Open(path);
        var block = Buffer(reader.Info.Channels);
        while (reader.Read(new AudioBlock(block, 0, BlockFrames)) > 0)
        {
        }

        GC.KeepAlive(reader.AudioSha256);
    }

    private static void Write(string path, PrintedFile print, PrintReport report, int rateHz)
    {
        using var writer = WaveWriter.Create(path, new AudioFormat(rateHz, print.Channels), report.Encoding, null, report.Frames);
        var quantizer = new Quantizer(24, Dither.None, default, print.Channels);
        var block = Buffer(print.Channels);
        for (var done = 0L; done < report.Frames; done += BlockFrames)
        {
            foreach (var channel in block)
            {
                channel.AsSpan().Fill(0.1 + (done * 1e-9));
            }

            var part = new AudioBlock(block, 0, (int)Math.Min(BlockFrames, report.Frames - done));
            quantizer.Process(part);
            writer.Write(part);
        }

        writer.Finish(report.Frames);
        GC.KeepAlive(writer.FileSha256);
        writer.Publish();
    }

    private static double[][] Buffer(int channels) => [.. Enumerable.Range(0, channels).Select(_ => new double[BlockFrames])];
}
