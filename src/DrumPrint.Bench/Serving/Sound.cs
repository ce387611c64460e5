using System.Buffers.Binary;
using System.Diagnostics;
using System.Net.WebSockets;
using System.Runtime.InteropServices;
using DrumPrint.Live;

namespace DrumPrint.Bench.Serving;

/// <summary>Gives the page its sound, a hundredth of a second at a time, as far as it has room.</summary>
/// <remarks>A message holds, lowest byte first: the number of the run it belongs to, the number of the last change in it, its frame of the song,
/// how many peaks there are, that of each print and last that of the song's own mix, and the samples of both sides in turn. A message with the frame
/// of one that has not begun to sound takes its place.</remarks>
internal sealed class Sound
{
    private const int HeadBytes = 16;
    private const int BlocksPerReading = 10;

    // The one that sounds, and one that may begin before the other comes.
    private const int TooLate = 2;

    // Of the six that the page holds.
    private const int Enough = 4;

    // A page tells every 10 to 13 ms.
    private static readonly TimeSpan Silence = TimeSpan.FromMilliseconds(25);

    private readonly LiveEngine _engine;
    private readonly SilentPartner _partner;

    // Held while a block is made; the other only for a moment.
    private readonly Lock _gate = new();
    private readonly object _roomGate = new();
    private int _room;
    private int _again;
    private int _run;
    private int _version;
    private bool _isPlaying;
    private int _sinceReading;
    private int _held;
    private long _toldAt;
    private long _made = -1;

    public Sound(LiveEngine engine, SilentPartner partner)
    {
        (_engine, _partner) = (engine, partner);
        engine.Unheard = () => IsPlaying ? Volatile.Read(ref _held) - TooLate : 0;
        engine.Joined = Joined;
        engine.IsShort = () => IsPlaying && IsShort;
    }

    /// <summary>Number of the last change that is heard in what is made from now on.</summary>
    public int Version => Volatile.Read(ref _version);

    /// <summary>Whether it plays.</summary>
    public bool IsPlaying => Volatile.Read(ref _isPlaying);

    /// <summary>The frame that is made next.</summary>
    public long Frame => _engine.Frame;

    // Too few wait in the page, or it has not told for a while how far it is: then its own threads lack a core.
    private bool IsShort => Volatile.Read(ref _held) < Enough || Stopwatch.GetElapsedTime(Volatile.Read(ref _toldAt)) > Silence;

    /// <summary>Told when the song has ended.</summary>
    public Action Over { get; set; } = () => { };

    /// <summary>Told how loud it is, ten times a second.</summary>
    public Action<LiveReading, LiveReading?> Metered { get; set; } = (_, _) => { };

    /// <summary>Told, in words, when a file can no longer be read; nothing plays then.</summary>
    public Action<string> Broken { get; set; } = _ => { };

    /// <summary>Plays from a frame on; what was made before is no longer meant.</summary>
    public void Play(long? frame, long? run)
    {
        Stop();
        try
        {
            Go(frame);
        }
        catch (Exception e) when (e is DrumPrintException or IOException or UnauthorizedAccessException)
        {
            // The page plays already, and would wait for ever.
            Broken(Reasons.Of(e));
            return;
        }

        lock (_gate)
        {
            _run = (int)(run ?? (_run + 1));
            _made = -1;
            _isPlaying = true;
        }

        Wake(0);
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

        Go(frame);
    }

    private void Go(long? frame)
    {
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

        // What was to be made again is not; the page still has what it would have replaced.
        lock (_roomGate)
        {
            Interlocked.Add(ref _held, _again);
            _again = 0;
        }
    }

    /// <summary>Sends until the page goes.</summary>
    public async Task Send(WebSocket socket, CancellationToken cancel)
    {
        using var gone = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        lock (_roomGate)
        {
            // Room that an earlier page gave.
            (_room, _again) = (0, 0);
        }

        Volatile.Write(ref _held, 0);
        await using var wakes = gone.Token.Register(() => Wake(0)).ConfigureAwait(false);
        var reading = Read(socket, gone);
        await SideThread.Run(() => SendAll(socket, gone.Token), givesWay: false).ConfigureAwait(false);
        await gone.CancelAsync().ConfigureAwait(false);
        await reading.ConfigureAwait(false);
    }

    // On a thread of its own, which sleeps at once when it has nothing to do. The shared ones ask again and again before they sleep; some systems
    // then put them behind all others for longer than the sound can wait.
    private void SendAll(WebSocket socket, CancellationToken gone)
    {
        var samples = new float[2 * _engine.BlockFrames];
        List<float> peaks = [];
        var bytes = Array.Empty<byte>();
        try
        {
            while (TakeRoom(gone, out var isAgain))
            {
                int length;
                lock (_gate)
                {
                    length = _isPlaying ? Make(samples, peaks, ref bytes) : 0;
                }

                if (length == 0)
                {
                    GiveBack(isAgain);
                    continue;
                }

                var sent = socket.SendAsync(bytes.AsMemory(0, length), WebSocketMessageType.Binary, WebSocketMessageFlags.EndOfMessage | WebSocketMessageFlags.DisableCompression, gone);
                if (!sent.IsCompletedSuccessfully)
                {
                    sent.AsTask().GetAwaiter().GetResult();
                }
            }
        }
        catch (Exception e) when (e is OperationCanceledException or WebSocketException or IOException or ObjectDisposedException)
        {
            // The page is gone, as below.
        }

        Stop();
    }

    private bool TakeRoom(CancellationToken gone, out bool isAgain)
    {
        lock (_roomGate)
        {
            while (!gone.IsCancellationRequested && !(_room + _again > 0 && IsPlaying))
            {
                Monitor.Wait(_roomGate);
            }

            isAgain = _again > 0;
            if (gone.IsCancellationRequested)
            {
                return false;
            }

            _again -= isAgain ? 1 : 0;
            _room -= isAgain ? 0 : 1;
            return true;
        }
    }

    // Nothing was made for it.
    private void GiveBack(bool isAgain)
    {
        if (isAgain)
        {
            Interlocked.Increment(ref _held);
        }
        else
        {
            Wake(1);
        }
    }

    private void Wake(int room)
    {
        lock (_roomGate)
        {
            _room += room;
            Monitor.PulseAll(_roomGate);
        }
    }

    // What is made again takes the place of what was sent, so that no room is needed for it.
    private void Joined(int back)
    {
        Interlocked.Increment(ref _version);
        if (back > 0)
        {
            Interlocked.Add(ref _held, -back);
            lock (_roomGate)
            {
                _again += back;
                Monitor.PulseAll(_roomGate);
            }
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
                    Volatile.Write(ref _toldAt, Stopwatch.GetTimestamp());
                    Wake(more);
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
