using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Processors;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A steep filter turns the phase of what it lets through.</summary>
internal sealed class SteepFilter : CheckRule
{
    public override Rule Rule { get; } = new(
        "F4",
        Severity.Warning,
        "A steep filter on a parallel path",
        "a high- or low-pass over 12 dB per octave, or bands with minimum phase, in a bus that is heard together with its dry sound",
        "Use 12 dB per octave or less there, a linear phase, or filter the key of the compressor instead.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.Chain is not { } chain)
        {
            yield break;
        }

        foreach (var bus in chain.Buses)
        {
            var isBeside = chain.Prints.Any(p => !BusTree.IsSpread(chain, p.Bus) && BusTree.Above(chain, p.Bus).Contains(bus) && Parallel.IsParallel(chain, p));
            if (!isBeside)
            {
                continue;
            }

            foreach (var band in bus.Stages.Where(s => s.Definition.Key == "eq" && s.Settings[Eq.Phase] == "minimum").SelectMany(s => s.Settings[Eq.Bands]))
            {
                if (band.Kind is not PassBand pass || band.Settings[pass.Slope] <= MostSlope)
                {
                    continue;
                }

                var (freq, slope) = (band.Settings[pass.Freq], band.Settings[pass.Slope]);
                var (dipHz, equal) = PassDip.Of(freq, (int)(slope / 6), band.Kind == Eq.HighPass, 1);
                var (_, softer) = PassDip.Of(freq, (int)(slope / 6), band.Kind == Eq.HighPass, 0.3162);
                yield return Found(bus.Name, $"{Words.Number(slope, 0)} dB per octave", $"The filter at {Words.Frequency(freq)} falls {Words.Number(slope, 0)} dB per octave beside its dry sound: expect a dip near {Words.Frequency(Math.Round(dipHz))}, {Words.Number(equal)} dB at equal level, {Words.Number(softer)} dB with this print 10 dB under the dry one.") with { Value = dipHz };
            }

            foreach (var bands in bus.Stages.Where(s => s.Definition.Key == Bands.Definition.Key && s.Settings[Bands.Phase] == "minimum"))
            {
                var split = bands.Settings[Bands.Split];
                yield return Found(bus.Name, Words.Frequency(split), $"The bands part at {Words.Frequency(split)} beside their dry sound, and turn it over there: expect a hole near {Words.Frequency(split)} at equal level, {Words.Number(TenUnder)} dB with this print 10 dB under the dry one. \"phase\": \"linear\" makes none.") with { Value = split };
            }
        }
    }

    private const double MostSlope = 12;

    // 1 less 10^(-10 / 20), in dB.
    private const double TenUnder = -3.3;
}
