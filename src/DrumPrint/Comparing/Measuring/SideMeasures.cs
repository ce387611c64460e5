using DrumPrint.Dsp;
using DrumPrint.Dsp.Metering;

namespace DrumPrint.Comparing.Measuring;

/// <summary>What is measured of one side over the passage, at its own level, as <see cref="Sound.Together"/> has it heard.</summary>
/// <param name="LoudnessLufs">Gated loudness (ITU-R BS.1770-5); −∞ without a reading.</param>
/// <param name="PeakDbfs">Largest sample.</param>
/// <param name="TruePeakDbtp">Largest level between samples.</param>
/// <param name="RmsDbfs">Mean level; a full-scale sine reads −3.01.</param>
/// <param name="CrestDb">Largest sample over mean level.</param>
/// <param name="RangeLu">Loudness range (EBU Tech 3342).</param>
/// <param name="Correlation">How alike left and right are, −1 to 1.</param>
/// <param name="WidthDb">Power of the side signal over that of the middle; −∞ for mono.</param>
/// <param name="MonoLossDb">What the sum of both sides loses against two equal sides of the same power: 0 for mono, 3 for
/// unrelated sides.</param>
public sealed record SideMeasures(
    double LoudnessLufs,
    double PeakDbfs,
    double TruePeakDbtp,
    double RmsDbfs,
    double CrestDb,
    double RangeLu,
    double Correlation,
    double WidthDb,
    double MonoLossDb)
{
    internal static SideMeasures Of(Sound sound)
    {
        var format = new AudioFormat(sound.RateHz, sound.Channels.Length);
        var levels = new LevelMeter(format);
        var loudness = new LoudnessMeter(format, sound.Frames);
        var peak = new TruePeakMeter(format);
        levels.Add(sound.Block);
        loudness.Add(sound.Block);
        peak.Add(sound.Block);
        var (width, loss) = Stereo(sound);
        return new SideMeasures(
            loudness.IntegratedLufs,
            levels.PeakDb,
            Math.Max(peak.PeakDb, levels.PeakDb),
            levels.RmsDb,
            levels.CrestDb,
            loudness.RangeLu,
            levels.Correlation,
            width,
            loss);
    }

    /// <summary>Gated loudness alone.</summary>
    internal static double Loudness(Sound sound)
    {
        var meter = new LoudnessMeter(new AudioFormat(sound.RateHz, sound.Channels.Length), sound.Frames);
        meter.Add(sound.Block);
        return meter.IntegratedLufs;
    }

    private static (double WidthDb, double MonoLossDb) Stereo(Sound sound)
    {
        if (sound.Channels.Length == 1)
        {
            return (double.NegativeInfinity, 0);
        }

        var (left, right) = (sound.Channels[0], sound.Channels[1]);
        var powers = Levels.Energy(left) + Levels.Energy(right);
        var product = 2 * Levels.Product(left, right);
        var (middle, side) = (powers + product, powers - product);
        if (powers == 0)
        {
            return (double.NegativeInfinity, 0);
        }

        // Below the rounding of the sums there is no side signal.
        var width = side <= powers * 1e-14 ? double.NegativeInfinity : middle <= 0 ? double.PositiveInfinity : Levels.Db(side / middle);
        var loss = middle <= powers * 1e-14 ? double.PositiveInfinity : -Levels.Db(middle / (2 * powers));
        return (width, Math.Max(0, loss));
    }
}
