using System.IO.Hashing;

namespace DrumPrint.Store;

/// <summary>Where things stand in the file of a kept signal.</summary>
/// <remarks>
/// A mark of 8 bytes, the length of the header (4), the header (JSON), its hash; then pieces of up to
/// <see cref="PieceFrames"/> frames, one channel after the other as 64-bit floats, each piece with its hash; then the gain
/// traces: their length (4), their bytes, their hash. Numbers are little-endian. Every hash is an XXH128 of the bytes,
/// seeded with the number of the piece, so no piece can stand in another's place. It is there to find damage, and takes a fraction of the
/// time that a hash against forgers would.
/// </remarks>
internal static class SignalLayout
{
    public const int PieceFrames = 8192;
    public const int HashBytes = 16;
    public const int MostHeaderBytes = 1 << 16;
    public const long HeaderNumber = -1;
    public const long TracesNumber = -2;

    public static ReadOnlySpan<byte> Mark => "DPSIGNL3"u8;

    /// <summary>Where the pieces begin.</summary>
    public static long Start(int headerBytes) => Mark.Length + sizeof(int) + headerBytes + HashBytes;

    public static int PieceBytes(int channels) => PieceFrames * channels * sizeof(double);

    /// <summary>Bytes of all pieces, hashes included.</summary>
    public static long BodyBytes(int channels, long frames) => (frames * channels * sizeof(double)) + ((frames + PieceFrames - 1) / PieceFrames * HashBytes);

    public static void Hash(long number, ReadOnlySpan<byte> bytes, Span<byte> hash) => XxHash128.Hash(bytes, hash, number);
}
