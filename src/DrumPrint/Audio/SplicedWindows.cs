namespace DrumPrint.Audio;

/// <summary>Reads stretches of a recording that lies in several files, in any order.</summary>
internal sealed class SplicedWindows : ISampleWindows
{
    private readonly Splice _splice;
    private readonly List<SampleWindows> _files = [];
    private readonly Lock _gate = new();
    private double[] _piece = [];

    public SplicedWindows(Splice splice)
    {
        _splice = splice;
        try
        {
            foreach (var file in splice.Files)
            {
                _files.Add(SampleWindows.Open(file.Path));
            }
        }
        catch
        {
            Dispose();
            throw;
        }
    }

    public void Read(int channel, long firstFrame, Span<double> into)
    {
        into.Clear();
        lock (_gate)
        {
            for (var i = 0; i < _files.Count; i++)
            {
                var file = _splice.Files[i];
                var (from, to) = (Math.Max(firstFrame, file.StartFrame), Math.Min(firstFrame + into.Length, file.EndFrame));
                if (to <= from)
                {
                    continue;
                }

                var frames = (int)(to - from);
                _piece = _piece.Length < frames ? new double[frames] : _piece;
                _files[i].Read(channel, from - file.StartFrame, _piece.AsSpan(0, frames));
                _splice.Lay(i, from, _piece.AsSpan(0, frames), into.Slice((int)(from - firstFrame), frames));
            }
        }
    }

    public void Dispose() => _files.ForEach(f => f.Dispose());
}
