using DrumPrint.Dsp;

namespace DrumPrint.Audio;

/// <summary>Streams a recording that lies in several files.</summary>
internal sealed class SplicedReader : AudioReader
{
    private readonly Splice _splice;
    private readonly AudioReader[] _files;
    private readonly int[] _everyChannel;
    private double[][] _piece = [];
    private long _frame;

    public SplicedReader(Splice splice, AudioHashes hashes)
    {
        _splice = splice;
        _everyChannel = [.. Enumerable.Range(0, splice.Info.Channels)];
        var opened = new List<AudioReader>();
        try
        {
            foreach (var file in splice.Files)
            {
                opened.Add(AudioReader.Open(file.Path, hashes));
            }
        }
        catch
        {
            opened.ForEach(f => f.Dispose());
            throw;
        }

        _files = [.. opened];
    }

    public override AudioFileInfo Info => _splice.Info;

    /// <summary>Those of the first file.</summary>
    public override IReadOnlyList<WaveChunk> Chunks => _files[0].Chunks;

    /// <summary>Hashes of all files, one after another (<see cref="PieceHashes"/>).</summary>
    public override string AudioSha256 => PieceHashes.Joined(_files.Select(f => f.AudioSha256));

    public override string? FileSha256 => null;

    public override UInt128? Likeness => PieceHashes.Likeness(_files.Select(f => f.Likeness));

    public override WaveChunk? Chunk(string id) => _files[0].Chunk(id);

    public override int Read(AudioBlock block) => Read(block, _everyChannel.AsSpan(0, Math.Min(block.Channels, Info.Channels)));

    public override int Read(AudioBlock block, ReadOnlySpan<int> channels)
    {
        var frames = (int)Math.Min(block.Frames, Info.Frames - _frame);
        for (var c = 0; c < block.Channels; c++)
        {
            block[c].Clear();
        }

        Grow(channels.Length, frames);
        for (var i = 0; i < _files.Length; i++)
        {
            var (from, count) = Overlap(i, frames);
            if (count == 0)
            {
                continue;
            }

            _files[i].Read(new AudioBlock(_piece.AsSpan(0, channels.Length), 0, count), channels);
            for (var c = 0; c < channels.Length; c++)
            {
                _splice.Lay(i, from, _piece[c].AsSpan(0, count), block[c].Slice((int)(from - _frame), count));
            }
        }

        _frame += frames;
        return frames;
    }

    public override void Skip(long frames)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frames);
        frames = Math.Min(frames, Info.Frames - _frame);
        for (var i = 0; i < _files.Length; i++)
        {
            var (from, to) = Range(i, frames);
            if (to > from)
            {
                _files[i].Skip(to - from);
            }
        }

        _frame += frames;
    }

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            foreach (var file in _files)
            {
                file.Dispose();
            }
        }

        base.Dispose(disposing);
    }

    private (long From, int Frames) Overlap(int file, int frames)
    {
        var (from, to) = Range(file, frames);
        return (from, (int)Math.Max(0, to - from));
    }

    private (long From, long To) Range(int file, long frames) =>
        (Math.Max(_frame, _splice.Files[file].StartFrame), Math.Min(_frame + frames, _splice.Files[file].EndFrame));

    // Blocks are of one size, so this happens once.
    private void Grow(int channels, int frames)
    {
        if (_piece.Length < channels || _piece[0].Length < frames)
        {
            _piece = [.. Enumerable.Range(0, Math.Max(channels, _piece.Length)).Select(_ => new double[frames])];
        }
    }
}
