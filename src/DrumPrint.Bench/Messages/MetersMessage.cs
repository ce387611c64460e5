using DrumPrint.Live;

namespace DrumPrint.Bench.Messages;

/// <summary>How loud the sum is that plays, ten times a second.</summary>
/// <param name="Before">Before the drum bus.</param>
/// <param name="After">After it; null when it is not heard.</param>
internal sealed record MetersMessage(MeterState Before, MeterState? After)
{
    public string Kind { get; } = "meters";
}

/// <summary>One sum. What is silent is null.</summary>
internal sealed record MeterState(double? Lufs, double? TruePeakDb, double? CrestDb, IReadOnlyList<double> BandsDb)
{
    private const double LowestDb = -120;

    public static MeterState Of(LiveReading reading) => new(
        Shown(reading.ShortTermLufs), Shown(reading.TruePeakDb), double.IsFinite(reading.TruePeakDb) ? Math.Round(reading.CrestDb, 1) : null, [.. reading.BandsDb.Select(b => Math.Round(Math.Max(LowestDb, b), 1))]);

    private static double? Shown(double db) => db > LowestDb ? Math.Round(db, 1) : null;
}
