using System.Buffers.Binary;
using System.Net.WebSockets;
using System.Runtime.InteropServices;
using DrumPrint.Live;

namespace DrumPrint.Bench.Serving;

/// <summary>Gives the page its sound, a hundredth of a second at a time, as far as it has room.</summary>
/// <remarks>A message holds, lowest byte first: the number of the run it belongs to, the number of the last change in it, its frame of the song,
/// how many peaks there are, that of each print and last that of the song's own mix, and the samples of both sides in turn. A message with the frame
/// of one that has not begun to sound takes its place.</remarks>
internal sealed class Sound : IDisposable
{
    private const int HeadBytes = 16;
    private const int BlocksPerReading = 10;

    // The one that sounds, and one that may begin before the other comes.
    private const int TooLate = 2;

    private readonly LiveEngine _engine;
    private readonly SilentPartner _partner;

    private readonly SemaphoreSlim _room = new(0);
    private readonly SemaphoreSlim _wake = new(0);
    private readonly Lock _gate = new();
    private int _run;
    private int _version;
    private bool _isPlaying;
    private int _sinceReading;
    private int _held;
    private long _made = -1;

    public Sound(LiveEngine engine, SilentPartner partner)
    {
        (_engine, _partner) = (engine, partner);
        engine.Unheard = () => IsPlaying ? Volatile.Read(ref _held) - TooLate : 0;
        engine.Joined = Joined;
    }

    /// <summary>Number of the last change that is heard in what is made from now on.</summary>
    public int Version => Volatile.Read(ref _version);

    /// <summary>Whether it plays.</summary>
    public bool IsPlaying => Volatile.Read(ref _isPlaying);

    /// <summary>The frame that is made next.</summary>
    public long Frame => _engine.Frame;

    /// <summary>Told when the song has ended.</summary>
    public Action Over { get; set; } = () => { };

    /// <summary>Told how loud it is, ten times a second.</summary>
    public Action<LiveReading, LiveReading?> Metered { get; set; } = (_, _) => { };

    /// <summary>Told, in words, when a file can no longer be read; nothing plays then.</summary>
    public Action<string> Broken { get; set; } = _ => { };

    /// <summary>Plays from a frame on; what was made before is no longer meant.</summary>
    public void Play(long? frame, long? run)
    {
        lock (_gate)
        {
            _isPlaying = false;
        }

        if (frame is { } there && there / _engine.BlockFrames != _engine.Frame / _engine.BlockFrames)
        {
            _engine.Seek(there);
        }

        lock (_gate)
        {
            _run = (int)(run ?? (_run + 1));
            _made = -1;
            _isPlaying = true;
        }

        _wake.Release();
    }

    /// <summary>Goes to a frame while nothing plays, so that playing from there begins at once.</summary>
    public void GetReady(long? frame)
    {
        lock (_gate)
        {
            if (_isPlaying)
            {
                return;
            }
        }

        if (frame is { } there && there / _engine.BlockFrames != _engine.Frame / _engine.BlockFrames)
        {
            _engine.Seek(there);
        }
    }

    public void Stop()
    {
        lock (_gate)
        {
            _isPlaying = false;
        }
    }

    /// <summary>Sends until the page goes.</summary>
    public async Task Send(WebSocket socket, CancellationToken cancel)
    {
        using var gone = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        while (_room.CurrentCount > 0 && _room.Wait(0, CancellationToken.None))
        {
            // Room that an earlier page gave.
        }

        Volatile.Write(ref _held, 0);
        var reading = Read(socket, gone);
        var samples = new float[2 * _engine.BlockFrames];
        List<float> peaks = [];
        var bytes = Array.Empty<byte>();
        try
        {
            while (true)
            {
                await _room.WaitAsync(gone.Token).ConfigureAwait(false);
                var length = 0;
                while (length == 0)
                {
                    lock (_gate)
                    {
                        length = _isPlaying ? Make(samples, peaks, ref bytes) : 0;
                    }

                    if (length == 0)
                    {
                        await _wake.WaitAsync(gone.Token).ConfigureAwait(false);
                    }
                }

                await socket.SendAsync(bytes.AsMemory(0, length), WebSocketMessageType.Binary, WebSocketMessageFlags.EndOfMessage | WebSocketMessageFlags.DisableCompression, gone.Token).ConfigureAwait(false);
            }
        }
        catch (Exception e) when (e is OperationCanceledException or WebSocketException or IOException)
        {
            Stop();
        }

        await gone.CancelAsync().ConfigureAwait(false);
        await reading.ConfigureAwait(false);
    }

    public void Dispose()
    {
        _room.Dispose();
        _wake.Dispose();
    }

    // What is made again takes the place of what was sent, so that no room is needed for it.
    private void Joined(int back)
    {
        Interlocked.Increment(ref _version);
        if (back > 0)
        {
            Interlocked.Add(ref _held, -back);
            _room.Release(back);
        }
    }

    private int Make(float[] samples, List<float> peaks, ref byte[] bytes)
    {
        var version = Version;
        long frame;
        try
        {
            frame = _engine.Next(samples, peaks);
        }
        catch (Exception e) when (e is DrumPrintException or IOException or UnauthorizedAccessException)
        {
            _isPlaying = false;
            Broken(Reasons.Of(e));
            return 0;
        }

        if (frame < 0)
        {
            _isPlaying = false;
            Over();
            return 0;
        }

        Interlocked.Increment(ref _held);
        if (frame <= _made && frame > _made - (LiveEngine.MostBack * _engine.BlockFrames))
        {
            _partner.GoBack(frame);
        }

        _made = frame;

        // Beside all that is measured: what is heard of the chain stays what it is.
        peaks.Add(_partner.Add(frame, samples));
        if (++_sinceReading >= BlocksPerReading)
        {
            _sinceReading = 0;
            var (before, after) = _engine.Meters();
            Metered(before, after);
        }

        var length = HeadBytes + (4 * (peaks.Count + samples.Length));
        if (bytes.Length < length)
        {
            bytes = new byte[length];
        }

        BinaryPrimitives.WriteInt32LittleEndian(bytes, _run);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(4), version);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(8), (int)frame);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(12), peaks.Count);
        MemoryMarshal.AsBytes(CollectionsMarshal.AsSpan(peaks)).CopyTo(bytes.AsSpan(HeadBytes));
        MemoryMarshal.AsBytes<float>(samples).CopyTo(bytes.AsSpan(HeadBytes + (4 * peaks.Count)));
        return length;
    }

    // The page says for how many blocks it has room, and then how many it has done with, one byte a message.
    private async Task Read(WebSocket socket, CancellationTokenSource gone)
    {
        var room = new byte[16];
        var isFirst = true;
        try
        {
            while (true)
            {
                var got = await socket.ReceiveAsync(room, gone.Token).ConfigureAwait(false);
                if (got.MessageType == WebSocketMessageType.Close)
                {
                    break;
                }

                if (got.Count == 1 && room[0] is > 0 and <= 64 and var more)
                {
                    Interlocked.Add(ref _held, isFirst ? 0 : -more);
                    isFirst = false;
                    _room.Release(more);
                }
            }
        }
        catch (Exception e) when (e is OperationCanceledException or WebSocketException or IOException)
        {
            // The page is gone, as below.
        }

        await gone.CancelAsync().ConfigureAwait(false);
    }
}
