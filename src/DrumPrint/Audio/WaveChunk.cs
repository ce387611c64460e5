namespace DrumPrint.Audio;

/// <summary>A chunk of a wave file that is neither its format nor its samples.</summary>
/// <param name="Id">Four ASCII characters.</param>
/// <param name="Data">The contents, without header and padding.</param>
public sealed record WaveChunk(string Id, ReadOnlyMemory<byte> Data);
