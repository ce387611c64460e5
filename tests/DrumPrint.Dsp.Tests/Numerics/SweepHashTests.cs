using System.Globalization;

namespace DrumPrint.Dsp.Tests.Numerics;

/// <summary>
/// The bits of every function at a fixed set of arguments, as first written down. Any machine must come to the same, with
/// or without vector and fused multiply-add instructions.
/// </summary>
public class SweepHashTests
{
    private const int Count = 4_000;

    public static TheoryData<string> Functions => new(ElementaryTable.Functions.Keys);

    [Theory]
    [MemberData(nameof(Functions))]
    public void The_bits_are_those_written_down(string function)
    {
        var expected = File.ReadLines(Path.Combine(ElementaryTable.FixtureFolder, "sweep_hashes.csv"))
            .Select(line => line.Split(','))
            .Single(fields => fields[0] == function)[1];
        var f = ElementaryTable.Functions[function];
        var second = NumericsSweep.Ordinary("Exp", Count);

        var ordinary = NumericsSweep.Ordinary(function, Count).Zip(second, f);
        var anything = NumericsSweep.Anything(Count).Zip(second, f);

        Assert.Equal(expected, NumericsSweep.Hash(ordinary.Concat(anything)).ToString("x16", CultureInfo.InvariantCulture));
    }
}
