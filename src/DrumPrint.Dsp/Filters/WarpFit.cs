using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Filters;

/// <summary>Shapes the <see cref="MatchedWarp"/> to one filter: closest where its response is steep.</summary>
/// <remarks>Weighted least squares by Gauss–Newton steps from the general fit. The weights are then moved towards the
/// largest errors (Lawson's method), so that the worst one shrinks. Halves or thirds the error in dB below 88.2 kHz; from
/// there on the general fit is right to a thousandth of a decibel.</remarks>
internal static class WarpFit
{
    private const int Points = 48;
    private const int Steps = 13;
    private const int Reweighted = 8;
    private const int General = 88200;
    private const double FlatWeight = 0.05;
    private const double KeptWeight = 0.2;
    private const double Nudge = 1e-3;
    private const double HighestPart = 0.4535;

    public static MatchedWarp For(AnalogSection analog, double freqHz, int sampleRate)
    {
        var start = MatchedWarp.For(sampleRate);
        if (sampleRate >= General)
        {
            return start;
        }

        var corner = freqHz / sampleRate;
        var top = Math.Min(20000.0 / sampleRate, HighestPart);
        var parts = new double[Points];
        for (var i = 0; i < Points; i++)
        {
            parts[i] = top * (i + 1) / Points;
        }

        var steepness = Array.ConvertAll(parts, p => Steepness(analog, p / corner));
        var steepest = steepness.Max();
        return steepest == 0
            ? start
            : Refine(start, BiquadCoefficients.Phi(corner), Array.ConvertAll(parts, BiquadCoefficients.Phi), Array.ConvertAll(parts, p => 2 * Elementary.Log(p / corner)), Array.ConvertAll(steepness, s => (s / steepest) + FlatWeight));
    }

    // How much the level moves when the squared frequency is a little off, on log scales.
    private static double Steepness(AnalogSection analog, double frequency)
    {
        var squared = frequency * frequency;
        return Math.Abs(Elementary.Log(analog.PowerAt(squared * (1 + Nudge)) / analog.PowerAt(squared * (1 - Nudge))));
    }

    private static MatchedWarp Refine(MatchedWarp start, double cornerPhi, double[] phi, double[] target, double[] steepness)
    {
        var weights = new double[phi.Length];
        Array.Fill(weights, 1);
        var current = start;
        var errors = Errors(current, cornerPhi, phi, target, steepness);
        var best = start;
        var least = Worst(errors);
        for (var step = 0; step < Steps; step++)
        {
            if (Moved(current, cornerPhi, phi, steepness, weights, errors) is not { IsSound: true } next)
            {
                break;
            }

            current = next;
            errors = Errors(current, cornerPhi, phi, target, steepness);
            var worst = Worst(errors);
            if (worst < least)
            {
                (best, least) = (current, worst);
            }

            for (var i = 0; step < Reweighted && i < weights.Length; i++)
            {
                weights[i] *= (Math.Abs(errors[i]) / worst) + KeptWeight;
            }
        }

        return best;
    }

    private static double[] Errors(MatchedWarp warp, double cornerPhi, double[] phi, double[] target, double[] steepness)
    {
        var corner = warp.At(cornerPhi);
        var errors = new double[phi.Length];
        for (var i = 0; i < errors.Length; i++)
        {
            errors[i] = steepness[i] * (Elementary.Log(warp.At(phi[i]) / corner) - target[i]);
        }

        return errors;
    }

    private static double Worst(double[] errors)
    {
        var worst = 0.0;
        foreach (var error in errors)
        {
            worst = Math.Max(worst, Math.Abs(error));
        }

        return worst;
    }

    // One Gauss–Newton step in b, c and d; null when the equations have no answer.
    private static MatchedWarp? Moved(MatchedWarp warp, double cornerPhi, double[] phi, double[] steepness, double[] weights, double[] errors)
    {
        var equations = new double[3, 4];
        var atCorner = Gradient(warp, cornerPhi);
        for (var i = 0; i < phi.Length; i++)
        {
            var at = Gradient(warp, phi[i]);
            ReadOnlySpan<double> row =
            [
                steepness[i] * (at.B - atCorner.B),
                steepness[i] * (at.C - atCorner.C),
                steepness[i] * (at.D - atCorner.D),
                -errors[i],
            ];
            for (var r = 0; r < 3; r++)
            {
                for (var c = 0; c < 4; c++)
                {
                    equations[r, c] += weights[i] * row[r] * row[c];
                }
            }
        }

        // The matrix is positive definite, so elimination needs no pivots.
        for (var r = 0; r < 3; r++)
        {
            if (!(equations[r, r] > 0))
            {
                return null;
            }

            for (var other = 0; other < 3; other++)
            {
                var factor = other == r ? 0 : equations[other, r] / equations[r, r];
                for (var c = r; c < 4; c++)
                {
                    equations[other, c] -= factor * equations[r, c];
                }
            }
        }

        return new MatchedWarp(
            warp.B + (equations[0, 3] / equations[0, 0]),
            warp.C + (equations[1, 3] / equations[1, 1]),
            warp.D + (equations[2, 3] / equations[2, 2]));
    }

    // Of ln W.
    private static (double B, double C, double D) Gradient(MatchedWarp warp, double phi)
    {
        var denominator = 1 + (warp.C * phi) + (warp.D * phi * phi);
        return (phi / (1 + (warp.B * phi)), -phi / denominator, -phi * phi / denominator);
    }
}
