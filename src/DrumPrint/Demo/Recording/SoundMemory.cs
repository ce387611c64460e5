namespace DrumPrint.Demo.Recording;

/// <summary>Room for the sounds of one track, used again by the next: a song's worth of them would otherwise be allocated
/// for every microphone.</summary>
internal sealed class SoundMemory
{
    private const int ChunkFrames = 1 << 20;

    private readonly List<float[]> _chunks = [];
    private int _chunk;
    private int _used;

    /// <summary>A stretch of silence to write into.</summary>
    public Memory<float> Take(int frames)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(frames, ChunkFrames);
        if (_used + frames > ChunkFrames)
        {
            _chunk++;
            _used = 0;
        }

        if (_chunk == _chunks.Count)
        {
            _chunks.Add(new float[ChunkFrames]);
        }

        var taken = _chunks[_chunk].AsMemory(_used, frames);
        taken.Span.Clear();
        _used += frames;
        return taken;
    }

    /// <summary>Takes everything back.</summary>
    public void Reset() => (_chunk, _used) = (0, 0);
}
