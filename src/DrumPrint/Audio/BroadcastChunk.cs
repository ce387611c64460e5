using System.Buffers.Binary;
using System.Text;

namespace DrumPrint.Audio;

/// <summary>Bytes of the <c>bext</c> chunk (EBU Tech 3285, version 2).</summary>
/// <remarks>Text is ASCII: other characters become question marks, and what is longer than its field is cut. Loudness
/// is stored in hundredths, rounded half away from zero.</remarks>
internal static class BroadcastChunk
{
    public const string Id = "bext";

    /// <summary>Length of everything before the coding history.</summary>
    public const int FixedBytes = 602;

    /// <summary>Common readers drop the whole chunk when it is longer than this.</summary>
    public const int MaxBytes = 10_240;

    private const short Unused = 0x7FFF;
    private const int VersionWithLoudness = 2;

    public static byte[] ToBytes(BroadcastExtension broadcast)
    {
        ArgumentNullException.ThrowIfNull(broadcast);
        ArgumentOutOfRangeException.ThrowIfNegative(broadcast.TimeReference);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(broadcast.CodingHistory.Length, MaxBytes - FixedBytes);
        var bytes = new byte[FixedBytes + broadcast.CodingHistory.Length];
        PutText(bytes.AsSpan(0, 256), broadcast.Description);
        PutText(bytes.AsSpan(256, 32), broadcast.Originator);
        PutText(bytes.AsSpan(288, 32), broadcast.OriginatorReference);
        PutText(bytes.AsSpan(320, 10), broadcast.OriginationDate);
        PutText(bytes.AsSpan(330, 8), broadcast.OriginationTime);
        BinaryPrimitives.WriteInt64LittleEndian(bytes.AsSpan(338), broadcast.TimeReference);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(346), VersionWithLoudness);
        PutHundredths(bytes.AsSpan(412), broadcast.LoudnessLufs);
        PutHundredths(bytes.AsSpan(414), broadcast.LoudnessRangeLu);
        PutHundredths(bytes.AsSpan(416), broadcast.MaxTruePeakDbtp);
        PutHundredths(bytes.AsSpan(418), broadcast.MaxMomentaryLufs);
        PutHundredths(bytes.AsSpan(420), broadcast.MaxShortTermLufs);
        PutText(bytes.AsSpan(FixedBytes), broadcast.CodingHistory);
        return bytes;
    }

    /// <summary>Reads a chunk; null when it is too short to be one.</summary>
    public static BroadcastExtension? FromBytes(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < FixedBytes)
        {
            return null;
        }

        var hasLoudness = BinaryPrimitives.ReadUInt16LittleEndian(bytes[346..]) >= VersionWithLoudness;
        return new BroadcastExtension
        {
            Description = Text(bytes[..256]),
            Originator = Text(bytes.Slice(256, 32)),
            OriginatorReference = Text(bytes.Slice(288, 32)),
            OriginationDate = Text(bytes.Slice(320, 10)),
            OriginationTime = Text(bytes.Slice(330, 8)),
            TimeReference = BinaryPrimitives.ReadInt64LittleEndian(bytes[338..]),
            LoudnessLufs = Hundredths(bytes[412..], hasLoudness),
            LoudnessRangeLu = Hundredths(bytes[414..], hasLoudness),
            MaxTruePeakDbtp = Hundredths(bytes[416..], hasLoudness),
            MaxMomentaryLufs = Hundredths(bytes[418..], hasLoudness),
            MaxShortTermLufs = Hundredths(bytes[420..], hasLoudness),
            CodingHistory = Text(bytes[FixedBytes..]),
        };
    }

    private static void PutText(Span<byte> field, string text) =>
        Encoding.ASCII.GetBytes(text.AsSpan(0, Math.Min(text.Length, field.Length)), field);

    private static string Text(ReadOnlySpan<byte> field)
    {
        var end = field.IndexOf((byte)0);
        return Encoding.ASCII.GetString(end < 0 ? field : field[..end]);
    }

    private static void PutHundredths(Span<byte> field, double? value) =>
        BinaryPrimitives.WriteInt16LittleEndian(field, ToHundredths(value));

    private static short ToHundredths(double? value)
    {
        if (value is not { } number || !double.IsFinite(number) || Math.Abs(number) > 327)
        {
            return Unused;
        }

        // Decimal arithmetic: −22.645 has to become −2265, and has no exact binary form.
        return (short)Math.Round(100 * (decimal)number, MidpointRounding.AwayFromZero);
    }

    private static double? Hundredths(ReadOnlySpan<byte> field, bool hasLoudness)
    {
        var value = BinaryPrimitives.ReadInt16LittleEndian(field);
        return hasLoudness && value != Unused ? value / 100.0 : null;
    }
}
