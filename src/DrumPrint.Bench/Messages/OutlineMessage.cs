using System.Globalization;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Live;

namespace DrumPrint.Bench.Messages;

/// <summary>The song as a picture: peaks of every print, and what moved the gain.</summary>
/// <param name="Columns">Peaks of every print by its number, from 0 to 255 of full scale's square root, as base64.</param>
/// <param name="Lines">Processors that move the gain.</param>
internal sealed record OutlineMessage(IReadOnlyDictionary<string, string> Columns, IReadOnlyList<LineState> Lines)
{
    public string Kind { get; } = "outline";

    /// <summary>Whether a change came after it, and a new one is being made.</summary>
    public bool IsOld { get; init; }

    /// <summary>Why no new one could be made, in a sentence; null where it was.</summary>
    public string? Problem { get; init; }

    public static OutlineMessage Of(SongOutline outline) => new(
        outline.Columns.ToDictionary(c => c.Key.ToString(CultureInfo.InvariantCulture), c => Text(c.Value)),
        [.. outline.Lines.Select(LineState.Of)]);

    /// <summary>Peaks as base64. The square root shows soft passages too.</summary>
    public static string Text(IEnumerable<float> peaks) => Convert.ToBase64String([.. peaks.Select(p => (byte)Math.Clamp(Math.Round(255 * Math.Sqrt(p)), 0, 255))]);
}

/// <summary>What a processor did to the gain over the song.</summary>
/// <param name="Bus">Its bus; empty for the drum bus.</param>
/// <param name="Name">Its name in the bus.</param>
/// <param name="MostDb">By how much it turned down at most.</param>
/// <param name="MostAtS">Where.</param>
/// <param name="Columns">By how much it turned down, in quarters of a decibel, as base64.</param>
/// <param name="Gate">When it was open; null for what is no gate.</param>
internal sealed record LineState(string Bus, string Name, double MostDb, double MostAtS, string Columns, GateState? Gate)
{
    private const double StepsPerDb = 4;

    public static LineState Of(StageLine line) => new(
        line.Bus,
        line.Name,
        Math.Round(line.MostDb, 1),
        Math.Round(line.MostAtS, 2),
        Convert.ToBase64String([.. line.Lowest.Select(g => (byte)Math.Clamp(Math.Round(-StepsPerDb * Decibels.FromGain(Math.Max(1e-6, g))), 0, 255))]),
        line.Gate is { } gate ? GateState.Of(gate) : null);
}

/// <summary>When a gate was open, and what it lost.</summary>
/// <param name="Open">Where it opened and closed, in turn, in seconds.</param>
/// <param name="OpenS">For how long it was open, in seconds.</param>
/// <param name="Hits">How many hits came to it; null where they are not counted.</param>
/// <param name="Lost">Those it lost.</param>
/// <param name="NotCounted">Why hits are not counted.</param>
internal sealed record GateState(IReadOnlyList<double> Open, double OpenS, int? Hits, IReadOnlyList<LostState> Lost, string? NotCounted)
{
    public static GateState Of(GateLine gate) => new(
        [.. gate.Open.SelectMany(o => new[] { Math.Round(o.FromS, 2), Math.Round(o.ToS, 2) })],
        Math.Round(gate.Open.Sum(o => o.ToS - o.FromS), 2),
        gate.HitCount,
        [.. gate.Lost.Select(l => new LostState(Math.Round(l.AtS, 3), Math.Round(l.PeakDb, 1)))],
        gate.NotCounted);
}

/// <summary>A hit that was lost, and its peak before the gate.</summary>
internal sealed record LostState(double AtS, double PeakDb);
