namespace DrumPrint.Store;

/// <summary>Where things stand in the file of a kept signal.</summary>
/// <remarks>
/// First the head: a mark of 8 bytes, random bytes that the sums hang on (16), the length of the header (4), the header (JSON),
/// its sum. Then the pieces of up to <see cref="PieceFrames"/> frames: one channel after the other as 64-bit floats, each piece
/// with its sum. Then the gain traces: their length (4), their bytes, their sum. Numbers are little-endian. Every sum is one of
/// <see cref="PieceSums"/>.
/// </remarks>
internal static class SignalLayout
{
    public const int PieceFrames = 8192;
    public const int SaltBytes = 16;
    public const int SumBytes = PieceSums.Bytes;
    public const int MostHeaderBytes = 1 << 16;
    public const long HeaderNumber = -1;
    public const long TracesNumber = -2;

    public static ReadOnlySpan<byte> Mark => "DPSIGNL4"u8;

    /// <summary>Where the pieces begin.</summary>
    public static long Start(int headerBytes) => Mark.Length + SaltBytes + sizeof(int) + headerBytes + SumBytes;

    public static int PieceBytes(int channels) => PieceFrames * channels * sizeof(double);

    /// <summary>Bytes of all pieces, sums included.</summary>
    public static long BodyBytes(int channels, long frames) => (frames * channels * sizeof(double)) + ((frames + PieceFrames - 1) / PieceFrames * SumBytes);
}
