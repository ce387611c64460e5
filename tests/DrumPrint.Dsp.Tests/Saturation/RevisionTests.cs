using System.Runtime.InteropServices;
using System.Security.Cryptography;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Saturation;

/// <summary>The first 16 digits of the SHA-256 of a tenth of a second: a sound keeps its bits under its revision, with any vector width.</summary>
public sealed class RevisionTests
{
    [Theory]
    [InlineData("soft", "229D4A6EF09FDDCC")]
    [InlineData("cubic", "07721A6B2E6F0B1A")]
    [InlineData("hard", "E91C4BCE868F218B")]
    public void Revision_1_of_saturate_keeps_its_bits(string shape, string expected) => Assert.Equal(expected, Hash(
        Saturate.Definition, (Saturate.Shape, shape), (Saturate.Drive, 6.0), (Saturate.Bias, 15.0), (Saturate.Mix, 80.0)));

    [Fact]
    public void Revision_1_of_tape_keeps_its_bits()
    {
        Assert.Equal("140F8D205E1B8331", Hash(Tape.Definition, (Tape.Drive, 6.0)));
        Assert.Equal("A4262A93D8CD043B", Hash(
            Tape.Definition, (Tape.Drive, 9.0), (Tape.Curve, "nab"), (Tape.Top, -2.0), (Tape.Mix, 80.0), (Tape.Factor, 4.0)));
    }

    private static string Hash(ProcessorDefinition definition, params (Parameter, object)[] values)
    {
        var signal = Run.Through(definition, Settings.Of(definition.Parameters, values), [Signals.Noise(4800)])[0];
        return Convert.ToHexString(SHA256.HashData(MemoryMarshal.AsBytes(signal.AsSpan())))[..16];
    }
}
