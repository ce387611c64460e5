using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Processors;

/// <summary>What a <see cref="Convolve"/> makes of its impulse before it is used, in the order in which its settings stand.</summary>
internal static class ConvolveShape
{
    // Table A.1 of ISO 3382-1:2009 gives 5 % as the smallest difference heard.
    private const double Near = 1.05;

    // The early part goes over into the late one within this much on either side, or within the early part.
    private const double GoesOverMs = 5;
    private const double Longest = 2;

    /// <summary>The impulse, shaped and levelled: new arrays.</summary>
    /// <exception cref="SettingsException">Nothing is left of it, or it cannot be made to decay as asked.</exception>
    public static double[][] Of(Settings settings, Impulse impulse)
    {
        var lead = impulse.LeadFrames;
        var start = settings[Convolve.TrimStart] > 0 ? lead + Frames(settings[Convolve.TrimStart] / 1000, impulse.SampleRate) : 0;
        var end = settings.Find(Convolve.TrimEnd) is { } seconds ? Math.Min(impulse.Frames, lead + Frames(seconds, impulse.SampleRate)) : impulse.Frames;
        if (Math.Max(start, lead) >= end)
        {
            throw new SettingsException(
                Convolve.TrimStart, FormattableString.Invariant($"Nothing is left of the impulse '{impulse.Name}' ({(double)(impulse.Frames - lead) / impulse.SampleRate:0.###} s) after trimming."));
        }

        var shaped = ImpulseShape.Cut(impulse.Channels, start, end);
        ImpulseShape.FadeOut(shaped, Frames(settings[Convolve.Fade] / 1000, impulse.SampleRate));
        if (settings.Find(Convolve.DecayTarget) is { } target)
        {
            Shorten(shaped, impulse, target);
        }

        shaped = Octaves(settings, impulse, shaped);
        Colour(settings, impulse, shaped);
        if (settings[Convolve.Reversed])
        {
            ImpulseShape.Reverse(shaped);
        }

        var perSource = impulse.Layout == ImpulseLayout.TrueStereo ? 2 : 1;
        switch (settings[Convolve.Level])
        {
            case "energy":
                ImpulseShape.LevelSources(shaped, perSource, ImpulseShape.Energy);
                break;
            case "loudness":
                ImpulseShape.LevelSources(shaped, perSource, side => PinkLoudness.Power(side, impulse.SampleRate));
                break;
            case "peak":
                ImpulseShape.LevelPeak(shaped);
                break;
        }

        return shaped;
    }

    private static void Shorten(double[][] shaped, Impulse impulse, double target)
    {
        var measured = DecayTime.T30(shaped, impulse.SampleRate)
            ?? throw new SettingsException(Convolve.DecayTarget, $"The impulse '{impulse.Name}' is too short to measure its decay, so it cannot be shortened to a time; use trim_end_s and fade_ms instead.");
        if (target > measured * Near)
        {
            throw new SettingsException(
                Convolve.DecayTarget,
                FormattableString.Invariant($"The impulse '{impulse.Name}' decays in {measured:0.00} s; it can be shortened but not made longer, and {target:0.##} s is longer. Leave decay_s out or ask for less than {measured:0.00} s."));
        }

        if (target >= measured)
        {
            return;
        }

        var reached = ImpulseShape.ShortenDecay(shaped, impulse.SampleRate, target);
        if (!(reached < target * Near && reached > target / Near))
        {
            throw new SettingsException(
                Convolve.DecayTarget, FormattableString.Invariant($"The impulse '{impulse.Name}' does not decay evenly enough to be shortened to {target:0.##} s; use trim_end_s and fade_ms instead."));
        }
    }

    private static double[][] Octaves(Settings settings, Impulse impulse, double[][] shaped)
    {
        OctaveAim[] aims = [.. settings[Convolve.Octaves].Select(Convolve.Octave.Aim).OrderBy(a => a.CentreHz)];
        if (aims.Length == 0)
        {
            return shaped;
        }

        foreach (var (aim, next) in aims.Zip(aims.Skip(1)))
        {
            if (aim.CentreHz == next.CentreHz)
            {
                throw new SettingsException(Convolve.Octaves, FormattableString.Invariant($"The octave at {aim.CentreHz} Hz stands in 'octaves' twice; put both into one."));
            }
        }

        if (aims.FirstOrDefault(a => a.MiddleHz > OctaveDecay.HighestPart * impulse.SampleRate) is { } high)
        {
            throw new SettingsException(Convolve.Octaves, FormattableString.Invariant($"The octave at {high.CentreHz} Hz lies too near half the sample rate of {impulse.SampleRate} Hz; leave it out."));
        }

        var decay = new OctaveDecay(shaped, impulse.SampleRate);
        (OctaveAim Aim, double Seconds)[] wanted = [.. aims.Where(a => a.MovesDecay).Select(a => (a, Wanted(a, decay.Of(a), impulse)))];
        if (wanted.Length > 0)
        {
            (shaped, var reached) = decay.Shape(wanted);
            for (var i = 0; i < wanted.Length; i++)
            {
                if (!(reached[i] < wanted[i].Seconds * Near && reached[i] > wanted[i].Seconds / Near))
                {
                    throw new SettingsException(
                        Convolve.Octaves,
                        FormattableString.Invariant($"The octave at {wanted[i].Aim.CentreHz} Hz of the impulse '{impulse.Name}' comes to {reached[i] ?? 0:0.00} s and not to {wanted[i].Seconds:0.00} s, for the octaves beside it ring otherwise. Ask for less, or move those too."));
                }
            }
        }

        if (aims.Any(a => a.LevelDb != 0))
        {
            OctaveLevel.Apply(shaped, impulse.SampleRate, aims);
        }

        return shaped;
    }

    private static double Wanted(OctaveAim aim, double? measured, Impulse impulse)
    {
        if (measured is not { } now)
        {
            throw new SettingsException(Convolve.Octaves, FormattableString.Invariant($"The impulse '{impulse.Name}' is too short to measure its decay in the octave at {aim.CentreHz} Hz; leave that octave out."));
        }

        var wanted = aim.DecayS ?? (now * aim.DecayPart);
        return wanted <= now * Longest
            ? wanted
            : throw new SettingsException(
                Convolve.Octaves, FormattableString.Invariant($"The octave at {aim.CentreHz} Hz of the impulse '{impulse.Name}' decays in {now:0.00} s; it can be made twice as long, and {wanted:0.##} s is longer. Ask for {now * Longest:0.##} s or less."));
    }

    private static void Colour(Settings settings, Impulse impulse, double[][] shaped)
    {
        var rate = impulse.SampleRate;
        if (settings[Convolve.Early] != settings[Convolve.Late])
        {
            var split = Frames(settings[Convolve.Split] / 1000, rate);
            ImpulseShape.Balance(
                shaped, Math.Max(0, DecayTime.Onset(shaped)) + split, Math.Min(split, Frames(GoesOverMs / 1000, rate)), Decibels.ToGain(settings[Convolve.Early]), Decibels.ToGain(settings[Convolve.Late]));
        }
        else if (settings[Convolve.Early] != 0)
        {
            ImpulseShape.Scale(shaped, Decibels.ToGain(settings[Convolve.Early]));
        }

        List<BiquadCoefficients> sections = [];
        if (settings.Find(Convolve.HighPass) is { } high)
        {
            BiquadDesign.CheckFrequency(high, rate, Convolve.HighPass);
            sections.AddRange(BiquadDesign.HighPass(high, 2, rate));
        }

        if (settings.Find(Convolve.LowPass) is { } low)
        {
            BiquadDesign.CheckFrequency(low, rate, Convolve.LowPass);
            sections.AddRange(BiquadDesign.LowPass(low, 2, rate));
        }

        foreach (var channel in sections.Count > 0 ? shaped : [])
        {
            new FilterCascade(sections).Process(channel);
        }
    }

    private static int Frames(double seconds, int sampleRate) => (int)Math.Round(seconds * sampleRate);
}
