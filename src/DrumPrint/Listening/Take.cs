using System.Runtime.ExceptionServices;
using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Filters;

namespace DrumPrint.Listening;

/// <summary>What the microphones of one take heard. The files are read twice at most: once for the hits of all, once for the
/// stretches around those that are looked at closer.</summary>
internal sealed class Take
{
    private const int BlockFrames = 1 << 14;
    private const double LowHz = 120;
    private const int LowOrder = 2;

    private Take(IReadOnlyList<Microphone> microphones, int rateHz, HitFinder[] finders, HitFinder[] lows)
    {
        (Microphones, RateHz, Finders, Lows) = (microphones, rateHz, finders, lows);
        Kit = KitHits.Of(finders, rateHz);
    }

    public IReadOnlyList<Microphone> Microphones { get; }

    public int RateHz { get; }

    public IReadOnlyList<HitFinder> Finders { get; }

    /// <summary>The same of what lies below 120 Hz.</summary>
    public IReadOnlyList<HitFinder> Lows { get; }

    /// <summary>Everything that is hit.</summary>
    public KitHits Kit { get; }

    public static Take Hear(IReadOnlyList<Microphone> microphones, int rateHz, Action<string, double> progress, CancellationToken cancel)
    {
        HitFinder[] finders = [.. microphones.Select(_ => new HitFinder(rateHz))];
        HitFinder[] lows = [.. microphones.Select(_ => new HitFinder(rateHz, hearsBright: false))];
        FilterCascade[] filters = [.. microphones.Select(_ => new FilterCascade(BiquadDesign.LowPass(LowHz, LowOrder, rateHz)))];
        double[][] low = [.. microphones.Select(_ => new double[BlockFrames])];
        ReadAll(
            microphones,
            m => true,
            "Listening",
            (m, _, samples) =>
            {
                finders[m].Add(samples);
                var copy = low[m].AsSpan(0, samples.Length);
                samples.CopyTo(copy);
                filters[m].Process(copy);
                lows[m].Add(copy);
            },
            starts: true,
            progress,
            cancel);
        return new Take(microphones, rateHz, finders, lows);
    }

    /// <summary>Reads stretches of several microphones.</summary>
    /// <param name="wanted">For each microphone the stretches it is to give, in order of time.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops between blocks.</param>
    public Stretches[] Read(IReadOnlyList<IReadOnlyList<(long From, int Frames)>> wanted, Action<string, double> progress, CancellationToken cancel)
    {
        Stretches[] read = [.. wanted.Select(w => new Stretches(w))];
        ReadAll(Microphones, m => wanted[m].Count > 0, "Looking closer", (m, frame, samples) => read[m].Add(frame, samples), starts: false, progress, cancel);
        return read;
    }

    private static void ReadAll(
        IReadOnlyList<Microphone> microphones, Func<int, bool> isWanted, string activity, HeardFrames heard, bool starts, Action<string, double> progress, CancellationToken cancel)
    {
        var files = Enumerable.Range(0, microphones.Count).GroupBy(m => microphones[m].Input.Recording).Where(f => f.Any(isWanted)).ToArray();
        var all = (double)Math.Max(1, files.Sum(f => microphones[f.First()].Input.Frames));
        var done = 0L;
        try
        {
            Parallel.ForEach(files, new ParallelOptions { CancellationToken = cancel, MaxDegreeOfParallelism = Environment.ProcessorCount }, file =>
            {
                List<int> used = [.. file.Select(m => microphones[m].FileChannel).Distinct()];
                using var source = microphones[file.First()].Input.Open(AudioHashes.None, used);
                double[][] channels = [.. Enumerable.Range(0, source.Channels).Select(_ => new double[BlockFrames])];
                foreach (var m in starts ? file : Enumerable.Empty<int>())
                {
                    Silence(microphones[m].StartFrame, frames => heard(m, 0, channels[0].AsSpan(0, frames)));
                }

                for (long frame = 0; frame < source.Frames; frame += BlockFrames)
                {
                    cancel.ThrowIfCancellationRequested();
                    var frames = (int)Math.Min(BlockFrames, source.Frames - frame);
                    source.Read(new AudioBlock(channels, 0, frames));
                    foreach (var m in file)
                    {
                        heard(m, microphones[m].StartFrame + frame, channels[used.IndexOf(microphones[m].FileChannel)].AsSpan(0, frames));
                    }

                    progress(activity, Interlocked.Add(ref done, frames) / all);
                }
            });
        }
        catch (AggregateException e) when (e.InnerExceptions.All(x => x is OperationCanceledException))
        {
            throw new OperationCanceledException(cancel);
        }
        catch (AggregateException e) when (e.InnerExceptions[0] is AudioFileException)
        {
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }

        // The blocks are all silence still.
        static void Silence(long left, Action<int> add)
        {
            for (; left > 0; left -= BlockFrames)
            {
                add((int)Math.Min(BlockFrames, left));
            }
        }
    }

    private delegate void HeardFrames(int microphone, long frame, ReadOnlySpan<double> samples);
}
