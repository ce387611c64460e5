using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Audio;

/// <summary>Brings a file's bytes to the disk now and then while more are made, so that little is left to wait for at the
/// end.</summary>
/// <remarks>Only a head start: the flush at the end is the one that counts, and tells of trouble.</remarks>
internal sealed class EarlyFlush(SafeFileHandle handle) : IThreadPoolWorkItem, IDisposable
{
    private const long BytesBetween = 16 << 20;

    private readonly ManualResetEventSlim _isIdle = new(initialState: true);
    private long _bytesOffered;
    private bool _isDisposed;

    /// <summary>Flushes on a pool thread when enough has been stored and no flush is under way.</summary>
    /// <param name="bytesStored">Bytes stored so far.</param>
    public void Offer(long bytesStored)
    {
        if (!_isDisposed && bytesStored - _bytesOffered >= BytesBetween && _isIdle.IsSet)
        {
            _bytesOffered = bytesStored;
            _isIdle.Reset();
            ThreadPool.UnsafeQueueUserWorkItem(this, preferLocal: false);
        }
    }

    public void Execute()
    {
        try
        {
            RandomAccess.FlushToDisk(handle);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e) || e is ObjectDisposedException)
        {
            // The flush at the end meets the same trouble.
        }
        finally
        {
            _isIdle.Set();
        }
    }

    /// <summary>Waits for a flush under way; until then the file stays open, and nobody else can read it.</summary>
    public void Dispose()
    {
        if (_isDisposed)
        {
            return;
        }

        _isDisposed = true;
        _isIdle.Wait();
        _isIdle.Dispose();
    }
}
