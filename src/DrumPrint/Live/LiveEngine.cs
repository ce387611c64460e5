using System.Diagnostics;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Files;
using DrumPrint.Session;

namespace DrumPrint.Live;

/// <summary>Plays a chain while it is being changed.</summary>
/// <remarks>One thread takes blocks with <see cref="Next"/>. Another changes chain, place and stretch; what that takes is computed on its own
/// thread, and the change comes in over one block.</remarks>
public sealed partial class LiveEngine
{
    // Longer than most changes take.
    private static readonly TimeSpan Moment = TimeSpan.FromSeconds(0.4);

    // Somebody waits for a number, but not so that the sound should suffer.
    private static readonly TimeSpan LongestMatching = TimeSpan.FromMinutes(1);

    private readonly Lock _control = new();
    private readonly Lock _play = new();
    private readonly ReadPolicy _reading;
    private readonly BlockPool _pool;
    private readonly Strips _strips = new();
    private readonly LiveMeters _before;
    private readonly LiveMeters _after;
    private LiveSession _session;
    private HeardSettings _settings;
    private LiveGraph _now;
    private LiveGraph? _fading;
    private long _changedAt;
    private long _askedAt;
    private double _gain = 1;
    private double _wantedGain = 1;

    /// <summary>Opens a chain at its start.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="trimDb">Common trim of all prints, the last one known; 0 for none.</param>
    /// <param name="reading">Which files it may name; within the session when left out.</param>
    /// <exception cref="InputException">Files are missing or do not fit.</exception>
    /// <exception cref="ChainException">Settings that are each in range do not go together.</exception>
    public LiveEngine(Chain chain, double trimDb, ReadPolicy? reading = null)
    {
        ArgumentNullException.ThrowIfNull(chain);
        _reading = reading ?? ReadPolicy.Default;
        _session = LiveSession.Of(chain, _reading, null);
        _settings = new HeardSettings(_strips, false, trimDb);
        RateHz = chain.Song.RateHz;
        BlockFrames = RateHz / LiveGraph.BlocksPerSecond;
        _pool = new BlockPool(BlockFrames);
        _past = new PastBlocks(2 * BlockFrames);
        (_before, _after) = (new LiveMeters(RateHz), new LiveMeters(RateHz));
        _now = LiveGraph.Build(_session, _settings, null, 0, _pool);
        Frames = new LiveLength(_session).RawEnd;
    }

    public int RateHz { get; }

    /// <summary>Frames of a block: a hundredth of a second.</summary>
    public int BlockFrames { get; }

    /// <summary>Length of the song without tails.</summary>
    public long Frames { get; private set; }

    /// <summary>The chain that sounds.</summary>
    public Chain Chain => _session.Chain;

    /// <summary>The frame that comes next.</summary>
    public long Frame => _now.Position * BlockFrames;

    /// <summary>Processors that remember longer than they were given, in words; what they give may differ from the print.</summary>
    public IReadOnlyList<string> Forgetting => _now.Forgetting;

    /// <summary>Whether the sum is heard through the drum bus.</summary>
    public bool IsWithBus => _settings.WithBus;

    /// <summary>Whether a change or another place was asked for a moment ago, so that what nobody waits for had better rest.</summary>
    public bool IsAsked => Stopwatch.GetElapsedTime(Volatile.Read(ref _askedAt)) < Moment;

    /// <summary>Tells whether what plays has fewer blocks than it should, so that all else had better rest. Asked from any thread.</summary>
    public Func<bool> IsShort { get; set; } = static () => false;

    /// <summary>Sets the fader of a print, as linear gain. Nothing of the chain changes.</summary>
    public void Fade(int number, double gain) => _strips.Set(number, gain);

    /// <summary>Sets the level at which everything is heard, as linear gain: what matches two states in loudness.</summary>
    public void Match(double gain) => Volatile.Write(ref _wantedGain, gain);

    /// <summary>Hears the sum with or without the drum bus.</summary>
    public void HearBus(bool isWith) => Replace(() => (_session, _settings with { WithBus = isWith }));

    /// <summary>Hears another chain from now on.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="gain">Linear gain at which it is heard, as for <see cref="Match"/>; null leaves it.</param>
    /// <returns>How many of its steps had to begin anew.</returns>
    /// <exception cref="InputException">Files are missing or do not fit; what sounded goes on.</exception>
    /// <exception cref="ChainException">Settings that are each in range do not go together; what sounded goes on.</exception>
    public int Change(Chain chain, double? gain = null)
    {
        ArgumentNullException.ThrowIfNull(chain);
        if (chain.Song.RateHz != RateHz)
        {
            throw new UsageException("The rate of the session changed. End the bench and start it again.");
        }

        return Replace(() => (LiveSession.Of(chain, _reading, _session), _settings), gain);
    }

    /// <summary>Goes to a frame, to the hundredth of a second that holds it.</summary>
    public void Seek(long frame)
    {
        Volatile.Write(ref _askedAt, Stopwatch.GetTimestamp());
        lock (_control)
        {
            var to = LiveGraph.Build(_session, _settings, null, Math.Clamp(frame, 0, Frames) / BlockFrames, _pool);
            to.PreRoll(to.Position, null);
            var other = OtherBeside(to, _otherSession, _settings);
            lock (_play)
            {
                Take(to, other);
                Forget();
            }
        }
    }

    /// <summary>Gives the next block: two channels, one after the other in each frame.</summary>
    /// <param name="stereo">Twice <see cref="BlockFrames"/> samples.</param>
    /// <param name="peaks">Gets the peak of each print, in the order of the chain.</param>
    /// <returns>Frame of the song at which it begins; −1 at the end of the song.</returns>
    public long Next(Span<float> stereo, List<float> peaks)
    {
        ArgumentNullException.ThrowIfNull(peaks);
        lock (_play)
        {
            if (_stretch is { } stretch && _now.Position >= stretch.To && _again is { } again)
            {
                var otherAgain = _otherAgain;
                (_again, _otherAgain) = (null, null);
                Take(again, otherAgain);
                Forget();
            }

            var position = _now.Position;
            if (position * BlockFrames >= Frames && _stretch is null)
            {
                return -1;
            }

            _now.Advance(position);
            _other?.Advance(position);
            Write(stereo);
            _past.Keep(position, stereo[..(2 * BlockFrames)]);
            if (position >= _metered)
            {
                _before.Add(_now.BeforeBus);
                if (_settings.WithBus)
                {
                    _after.Add(_now.Heard);
                }
            }

            peaks.Clear();
            peaks.AddRange(_now.Peaks);
            return position * BlockFrames;
        }
    }

    /// <summary>Measures the sum of the prints before the drum bus, and after it when it is heard. To be asked by the thread that takes blocks.</summary>
    public (LiveReading Before, LiveReading? After) Meters()
    {
        lock (_play)
        {
            return (_before.Read(), _settings.WithBus ? _after.Read() : null);
        }
    }

    /// <summary>How loud a chain is before a frame, at the faders as they are: gated loudness of the seconds before it.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="frame">One past the last frame that counts.</param>
    /// <param name="seconds">How many seconds count.</param>
    /// <param name="cancel">Gives up.</param>
    /// <returns>LUFS; −∞ without a reading.</returns>
    public double Loudness(Chain chain, long frame, double seconds, CancellationToken cancel)
    {
        var session = LiveSession.Of(chain, _reading, _session);
        var from = Math.Max(0, (frame / BlockFrames) - (long)(seconds * LiveGraph.BlocksPerSecond));
        var blocks = (long)(seconds * LiveGraph.BlocksPerSecond);
        var graph = LiveGraph.Build(session, _settings with { KeepsPast = false }, null, from, _pool);
        var way = new GivesWay(IsShort) { LongestRest = LongestMatching, IsOff = () => cancel.IsCancellationRequested };
        var meter = new Dsp.Metering.LoudnessMeter(new AudioFormat(RateHz, 2), blocks * BlockFrames);
        for (var block = from; block < from + blocks; block++)
        {
            if (cancel.IsCancellationRequested)
            {
                graph.Drop();
                cancel.ThrowIfCancellationRequested();
            }

            way.Rest();
            graph.Advance(block);
            meter.Add(graph.Heard);
        }

        graph.Drop();
        return meter.IntegratedLufs;
    }

    private int Replace(Func<(LiveSession Session, HeardSettings Settings)> what, double? gain = null)
    {
        Volatile.Write(ref _askedAt, Stopwatch.GetTimestamp());
        lock (_control)
        {
            var (session, settings) = what();
            return Join(session, settings, Back(), (to, back) =>
            {
                (_session, _settings) = (session, settings);
                _changedAt = Stopwatch.GetTimestamp();
                Frames = new LiveLength(session).RawEnd;
                Take(to, null);
                EndPair();
                _wantedGain = gain ?? _wantedGain;
                GoBack(back);
            }).NewNodes;
        }
    }

    // Makes a graph that has come to where the one heard now stands, or some blocks before, and hands it over before that one goes on.
    private LiveGraph Join(LiveSession session, HeardSettings settings, int back, Action<LiveGraph, int> take)
    {
        while (true)
        {
            var earlier = LendNow();
            LiveGraph? graph = null;
            try
            {
                graph = LiveGraph.Build(session, settings, earlier, earlier.Position - back, _pool);
                graph.PreRoll(earlier.Position - back, new GivesWay(IsShort));

                // What played on meanwhile.
                graph.PreRoll(earlier.Position - back, new GivesWay(IsShort));
            }
            catch
            {
                lock (_play)
                {
                    TakeBack(earlier, graph);
                }

                throw;
            }

            lock (_play)
            {
                back = Math.Min(back, Back());

                // A repeated stretch has begun anew meanwhile.
                if (!ReferenceEquals(earlier, _now))
                {
                    TakeBack(earlier, graph);
                    continue;
                }

                TakeBack(earlier, null);
                graph.MoveTo(earlier.Position - back);
                take(graph, back);
                return graph;
            }
        }
    }
}
