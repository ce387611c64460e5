using System.Collections.Concurrent;
using DrumPrint.Audio;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Alignment;

namespace DrumPrint.Checking.Subjects;

/// <summary>Stretches of files, read when a rule asks for them.</summary>
internal sealed class Windows : IDisposable
{
    private readonly ConcurrentDictionary<string, ISampleWindows> _open = new(StringComparer.Ordinal);

    /// <summary>Reads the mean of all channels of a file.</summary>
    public FrameReader Middle(CheckedTake take) => Channel(take, -1);

    /// <summary>Reads one channel of a file; −1 for the mean of all.</summary>
    public FrameReader Channel(CheckedTake take, int channel)
    {
        var file = _open.GetOrAdd(take.Recording, _ => take.OpenWindows());
        var (one, skipped) = (take.Channel ?? channel, take.SkippedFrames);
        return (first, frames) => file.Read(one, first + skipped, frames);
    }

    public void Dispose()
    {
        foreach (var file in _open.Values)
        {
            file.Dispose();
        }
    }
}
