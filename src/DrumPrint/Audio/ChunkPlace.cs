namespace DrumPrint.Audio;

/// <summary>Where the contents of a chunk lie in its file.</summary>
internal readonly record struct ChunkPlace(string Id, long Offset, long Bytes)
{
    public long End => Offset + Bytes;
}
