using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Tests.Alignment.Truth;

/// <summary>A drum that can be hit: writes the sound it sends out into a line.</summary>
/// <remarks>Mode ratios of an ideal membrane: 1, 1.594, 2.136, 2.296, 2.653 (zeros of the Bessel functions, Rayleigh).</remarks>
internal sealed class TruthDrum
{
    private const double HitSeconds = 0.35;

    private static readonly double[] Ratios = [1, 1.594, 2.136, 2.296, 2.653];

    private readonly TruthSound _sound;
    private readonly int _rateHz;
    private readonly TruthRandom _random;
    private readonly double _pitchHz;
    private readonly double _brightHz;
    private readonly double _dullHz;
    private readonly double _decayS;
    private readonly double[] _levels;
    private readonly Dictionary<double, double[]> _decays = [];

    public TruthDrum(TruthSound sound, int rateHz, TruthRandom random)
    {
        (_sound, _rateHz, _random) = (sound, rateHz, random);
        _pitchHz = random.Between(60, 260);
        _brightHz = random.Between(2500, 6000);
        _dullHz = random.Between(250, 1500);
        _decayS = random.Between(0.05, 0.25);
        _levels = [.. Ratios.Select((_, i) => random.Between(0.3, 1) / (1 + (0.5 * i)))];
    }

    /// <summary>One hit at full level: what its head, its beater and its rattle send out, together 1 at the peak.</summary>
    public double[][] Hit()
    {
        var (head, beater, rattle) = (Line(), Line(), Line());
        switch (_sound)
        {
            case TruthSound.NoiseBurst:
                AddNoise(head, 1, 0.012);
                break;
            case TruthSound.FilteredClick:
                head[0] = 1;
                beater[0] = 1;
                head = Filtered(head, [.. BiquadDesign.Bell(_dullHz, 24, 1, _rateHz), .. BiquadDesign.LowPass(2 * _dullHz, 2, _rateHz)]);
                beater = Filtered(beater, BiquadDesign.LowPass(_brightHz, 2, _rateHz));
                break;
            case TruthSound.Modes:
                AddModes(head, 1, 0);
                AddClick(beater, 0.5, _brightHz);
                break;
            default:
                AddModes(head, 0.7, 0.02);
                AddClick(beater, 0.6 * _random.Between(0.7, 1.4), _brightHz * _random.Between(0.8, 1.25));
                AddNoise(rattle, 0.3 * _random.Between(0.5, 1.5), 0.06);
                break;
        }

        var peak = 0.0;
        for (var n = 0; n < head.Length; n++)
        {
            peak = Math.Max(peak, Math.Abs(head[n] + beater[n] + rattle[n]));
        }

        double[][] parts = [head, beater, rattle];
        foreach (var part in parts)
        {
            for (var n = 0; n < part.Length; n++)
            {
                part[n] /= peak;
            }
        }

        return parts;
    }

    private double[] Line() => new double[(int)(HitSeconds * _rateHz)];

    // The same for every hit, so it is worked out once.
    private double[] Decay(double seconds)
    {
        if (!_decays.TryGetValue(seconds, out var decay))
        {
            decay = Line();
            for (var n = 0; n < decay.Length; n++)
            {
                decay[n] = Elementary.Exp(-n / (seconds * _rateHz));
            }

            _decays.Add(seconds, decay);
        }

        return decay;
    }

    private static double[] Filtered(double[] line, BiquadCoefficients[] sections)
    {
        var copy = line.ToArray();
        new FilterCascade(sections).Process(copy);
        return copy;
    }

    private void AddNoise(double[] line, double level, double decayS)
    {
        var decay = Decay(decayS);
        for (var n = 0; n < line.Length; n++)
        {
            line[n] += level * _random.Between(-1, 1) * decay[n];
        }
    }

    private void AddClick(double[] line, double level, double cornerHz)
    {
        var click = new double[line.Length];
        click[0] = 1;
        click = Filtered(click, BiquadDesign.LowPass(cornerHz, 2, _rateHz));
        var peak = click.Max(Math.Abs);
        for (var n = 0; n < line.Length; n++)
        {
            line[n] += level * click[n] / peak;
        }
    }

    // Modes start as a blow makes them: displacement zero, velocity forward.
    private void AddModes(double[] line, double level, double spread)
    {
        for (var i = 0; i < Ratios.Length; i++)
        {
            var (amplitude, pitch) = (level * _levels[i] * (1 + (spread * 8 * _random.Gauss())), _pitchHz * Ratios[i] * (1 + (spread * 0.3 * _random.Gauss())));
            var (decay, bend) = (Decay(_decayS / (1 + (0.4 * i))), Decay(0.02));
            var phase = 0.0;
            for (var n = 0; n < line.Length; n++)
            {
                line[n] += amplitude * Elementary.Sin(phase) * decay[n];
                phase += 2 * Math.PI * pitch * (1 + (spread * 4 * bend[n])) / _rateHz;
            }
        }
    }
}
