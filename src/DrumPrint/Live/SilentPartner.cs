using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Files;

namespace DrumPrint.Live;

/// <summary>Lets the song's own mix be heard beside the chain, in step with it. Nothing of the chain's sound depends on it.</summary>
/// <remarks>One thread takes sound with <see cref="Add"/>; another follows the chain. Files are opened on a thread of their own. It starts
/// silent, and it never comes in at once.</remarks>
/// <param name="rateHz">Rate of the session.</param>
/// <param name="blockFrames">Frames of a block.</param>
/// <param name="reading">Which files a chain may name.</param>
public sealed class SilentPartner(int rateHz, int blockFrames, ReadPolicy reading) : IDisposable
{
    private const double InSeconds = 0.25;
    private const double OutSeconds = 0.03;
    private const int Columns = 1200;

    private readonly Lock _gate = new();
    private readonly float[] _left = new float[blockFrames];
    private readonly float[] _right = new float[blockFrames];
    private CancellationTokenSource _opening = new();
    private (Track Reference, string Path, long Bytes, DateTime Written)? _key;
    private PartnerSound? _wanted;
    private PartnerSound? _heard;
    private long _next = -1;
    private double _gain;
    private readonly double[] _gains = new double[PastBlocks.Most];
    private double _wantedGain;

    /// <summary>Told, from any thread, when what is said of it has changed.</summary>
    public Action Changed { get; set; } = () => { };

    /// <summary>The file as the chain names it; null when it names none.</summary>
    public string? File { get; private set; }

    /// <summary>Why it cannot be heard, in a sentence; null when it can.</summary>
    public string? Problem { get; private set; }

    /// <summary>Whether it is being opened.</summary>
    public bool IsOpening { get; private set; }

    /// <summary>Its peaks over the song; null until they are known.</summary>
    public IReadOnlyList<float>? Outline { get; private set; }

    /// <summary>Opens what a chain names, when that is not open yet or was written anew.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="songFrames">Length of the song.</param>
    public void Follow(Chain chain, long songFrames)
    {
        ArgumentNullException.ThrowIfNull(chain);
        var key = KeyOf(chain);
        if (key == _key)
        {
            return;
        }

        lock (_gate)
        {
            _opening.Cancel();
            _opening.Dispose();
            _opening = new CancellationTokenSource();
            _key = key;
            Let(null);
            (File, Problem, Outline, IsOpening) = (chain.Reference?.File, null, null, key is not null);
            if (key is not null)
            {
                var cancel = _opening.Token;
                SideThread.RunLast("reference", () => Open(chain, songFrames, cancel));
            }
        }

        Changed();
    }

    /// <summary>Sets how loud it is heard, as linear gain from 0 to 1. It comes in over a quarter of a second.</summary>
    public void Fade(double gain) => Volatile.Write(ref _wantedGain, Math.Clamp(gain, 0, 1));

    /// <summary>Adds a block of it to what is heard.</summary>
    /// <param name="frame">Frame of the song at which the block begins. Where it does not go on from the block before, one fades into the other.</param>
    /// <param name="stereo">Two channels, one after the other in each frame.</param>
    /// <returns>The peak of what was added.</returns>
    public float Add(long frame, Span<float> stereo)
    {
        lock (_gate)
        {
            var wanted = ReferenceEquals(_heard, _wanted) ? Volatile.Read(ref _wantedGain) : 0;
            if (_gain == 0 && !ReferenceEquals(_heard, _wanted))
            {
                _heard?.Dispose();
                _heard = _wanted;
                wanted = Volatile.Read(ref _wantedGain);
            }

            if (_heard is null || (_gain == 0 && wanted == 0))
            {
                (_gain, _next) = (0, -1);
                return 0;
            }

            _gains[frame / blockFrames % _gains.Length] = _gain;
            try
            {
                Read(frame);
            }
            catch (Exception e) when (e is DrumPrintException or IOException or UnauthorizedAccessException)
            {
                Lose(e);
                return 0;
            }

            return AddRead(stereo, wanted);
        }
    }

    /// <summary>What was added from a frame on is asked for again, and takes the place of what it gave before.</summary>
    public void GoBack(long frame)
    {
        lock (_gate)
        {
            if (_next >= 0)
            {
                _gain = _gains[frame / blockFrames % _gains.Length];
                _next = frame;
            }
        }
    }

    public void Dispose()
    {
        lock (_gate)
        {
            _opening.Cancel();
            _opening.Dispose();
            Let(null);
            _heard?.Dispose();
            _heard = null;
        }
    }

    private void Read(long frame)
    {
        // What sounded goes on for one block, in which the new place comes in.
        var isJump = _next >= 0 && _next != frame && _gain > 0;
        if (isJump)
        {
            Copy(_heard!.Read(_next));
        }

        var block = _heard!.Read(frame);
        for (var n = 0; n < blockFrames; n++)
        {
            var part = isJump ? (n + 1f) / (blockFrames + 1) : 1;
            _left[n] += part * ((float)block[0][n] - _left[n]);
            _right[n] += part * ((float)block[1][n] - _right[n]);
        }

        _next = frame + blockFrames;
    }

    private void Copy(AudioBlock block)
    {
        for (var n = 0; n < blockFrames; n++)
        {
            (_left[n], _right[n]) = ((float)block[0][n], (float)block[1][n]);
        }
    }

    private float AddRead(Span<float> stereo, double wanted)
    {
        var (up, down) = (1 / (InSeconds * rateHz), 1 / (OutSeconds * rateHz));
        var peak = 0f;
        for (var n = 0; n < blockFrames; n++)
        {
            _gain = wanted > _gain ? Math.Min(wanted, _gain + up) : Math.Max(wanted, _gain - down);
            var (left, right) = ((float)_gain * _left[n], (float)_gain * _right[n]);
            stereo[2 * n] += left;
            stereo[(2 * n) + 1] += right;
            peak = Math.Max(peak, Math.Max(Math.Abs(left), Math.Abs(right)));
        }

        return peak;
    }

    private void Open(Chain chain, long songFrames, CancellationToken cancel)
    {
        try
        {
            var sound = PartnerSound.Open(chain, reading, blockFrames, cancel);
            lock (_gate)
            {
                if (cancel.IsCancellationRequested)
                {
                    sound.Dispose();
                    return;
                }

                Let(sound);
                IsOpening = false;
            }

            Changed();
            var outline = sound.Outline(songFrames, Columns, cancel);
            lock (_gate)
            {
                Outline = cancel.IsCancellationRequested ? Outline : outline;
            }

            Changed();
        }
        catch (Exception e) when (e is OperationCanceledException or ObjectDisposedException)
        {
            return; // another one is wanted by now
        }
        catch (Exception e) when (e is DrumPrintException or IOException or UnauthorizedAccessException)
        {
            lock (_gate)
            {
                if (!cancel.IsCancellationRequested)
                {
                    Lose(e);
                }
            }
        }
    }

    private void Lose(Exception e)
    {
        Problem = e is DrumPrintException ? e.Message : $"{File}: this cannot be read: {FileReason.Of(e)}.";
        (IsOpening, _gain, _next) = (false, 0, -1);
        Let(null);
        Changed();
    }

    // What is heard fades out first; only what was never heard goes at once.
    private void Let(PartnerSound? sound)
    {
        if (!ReferenceEquals(_wanted, _heard))
        {
            _wanted?.Dispose();
        }

        _wanted = sound;
    }

    // Of what may not be read nothing is looked at.
    private (Track Reference, string Path, long Bytes, DateTime Written)? KeyOf(Chain chain)
    {
        if (chain.Reference is not { } reference)
        {
            return null;
        }

        var file = new FileInfo(Path.Combine(chain.Folder, reference.File));
        return new SessionReach(reading, chain.Folder).Outside(reference.File) is null && file.Exists ? (reference with { Line = 0 }, file.FullName, file.Length, file.LastWriteTimeUtc) : (reference with { Line = 0 }, file.FullName, 0, default);
    }
}
