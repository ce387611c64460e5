using System.Collections.Concurrent;
using System.Runtime.ExceptionServices;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Synthesis;
using DrumPrint.Dsp;
using DrumPrint.Dsp.WordLength;
using DrumPrint.Files;

namespace DrumPrint.Demo.Recording;

/// <summary>Plays a stretch of the song and writes what every microphone hears.</summary>
/// <param name="folder">Where the raw tracks go.</param>
/// <param name="map">The bars to play.</param>
/// <param name="frames">Length of every track.</param>
/// <param name="earlier">Gives the tracks their names.</param>
/// <param name="steps">Writes them.</param>
/// <param name="progress">Told how far the work has come.</param>
/// <param name="cancel">Stops the work.</param>
internal sealed class Recorder(string folder, TempoMap map, long frames, EarlierFiles earlier, FileSteps steps, IProgress<DemoProgress>? progress, CancellationToken cancel)
{
    private const string Maker = "DrumPrint demo";
    private const int BlockFrames = 16384;
    private const int Bits = 24;

    private readonly ConcurrentBag<SoundMemory> _memories = [];
    private long _framesDone;
    private long _framesInAll;

    /// <summary>Records what some microphones hear; returns the files in their order.</summary>
    public IReadOnlyList<string> Record(IReadOnlyList<KitMicrophone> microphones)
    {
        IReadOnlyList<PlayedHit> hits = [.. Score.Of(map).Where(h => h.Frame < frames)];
        var bank = new SoundBank(hits, cancel);
        var writers = new Dictionary<KitMicrophone, WaveWriter>();
        try
        {
            foreach (var microphone in microphones)
            {
                writers.Add(microphone, Create(microphone));
            }

            _framesInAll = frames * microphones.Count;
            InParallel(microphones.Count, i => Record(microphones[i], hits, bank, writers[microphones[i]]));
            foreach (var writer in microphones.Select(m => writers[m]))
            {
                earlier.Publish(writer);
            }

            return [.. microphones.Select(m => writers[m].Path)];
        }
        finally
        {
            foreach (var writer in writers.Values)
            {
                writer.Dispose();
            }
        }
    }

    private void Record(KitMicrophone microphone, IReadOnlyList<PlayedHit> hits, SoundBank bank, WaveWriter writer)
    {
        var memory = _memories.TryTake(out var used) ? used : new SoundMemory();
        var track = new MicrophoneTrack(microphone, hits, bank, memory, BlockFrames);
        var quantizer = new Quantizer(Bits, Dither.None, default, 1);
        for (var start = 0L; start < frames; start += BlockFrames)
        {
            cancel.ThrowIfCancellationRequested();
            track.Next();
            var block = new AudioBlock(track.Block, 0, (int)Math.Min(BlockFrames, frames - start));
            quantizer.Process(block);
            writer.Write(block);
            var done = Interlocked.Add(ref _framesDone, block.Frames);
            progress?.Report(new DemoProgress("Recording the kit", done / (double)_framesInAll));
        }

        writer.Finish(frames);
        memory.Reset();
        _memories.Add(memory);
    }

    private WaveWriter Create(KitMicrophone microphone)
    {
        var broadcast = new BroadcastExtension
        {
            Description = $"Slow Ferry to Marrow Point, raw track {microphone.Number:00} {microphone.Name}, an invented session",
            Originator = Maker,
            TimeReference = (long)Math.Round(SongForm.Whole.SecondsAtBar(map.FirstBar) * SongForm.SampleRate),
            CodingHistory = FormattableString.Invariant($"A=PCM,F={SongForm.SampleRate},W={Bits},M=mono,T=synthesised\r\n"),
        };
        return WaveWriter.Create(steps, Path.Combine(folder, microphone.FileName), new AudioFormat(SongForm.SampleRate, 1), SampleEncoding.Pcm24, broadcast, frames);
    }

    private void InParallel(int count, Action<int> work)
    {
        try
        {
            Parallel.For(0, count, new ParallelOptions { CancellationToken = cancel, MaxDegreeOfParallelism = Environment.ProcessorCount }, work);
        }
        catch (AggregateException e) when (e.InnerExceptions.Count > 0)
        {
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }
    }
}
