using System.Runtime.InteropServices;
using System.Security.Cryptography;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>The bits of revision 1, the same on every machine and at every vector width. A change that moves one of them is a
/// new revision.</summary>
public sealed class DynamicsBitsTests
{
    private const int Frames = 30000;

    [Theory]
    [InlineData("feed_forward", "peak", 100, 100, "50DAB20D83B2CBF1")]
    [InlineData("feed_forward", "peak", 50, 50, "9C2979131E180EA0")]
    [InlineData("feed_forward", "rms", 100, 100, "6419384A9AF5B2B7")]
    [InlineData("feedback", "peak", 100, 100, "EF37A044D6BBD15D")]
    [InlineData("feedback", "peak", 30, 100, "6B90D07D3097FD12")]
    public void Compressor_is_the_same_on_every_machine(string topology, string detector, double link, double mix, string hash) => Assert.Equal(
        hash,
        Hash(Compress.Definition, (Compress.Topology, topology), (Compress.Detector, detector), (Compress.Link, link), (Compress.Mix, mix)));

    [Fact]
    public void Gate_with_look_ahead_is_the_same_on_every_machine() => Assert.Equal("7002655BF4F60209", Hash(Gate.Definition, (Gate.Ahead, 1.0), (Gate.Hold, 5.0)));

    [Fact]
    public void Expander_is_the_same_on_every_machine() => Assert.Equal("939C52105ABFBF73", Hash(Gate.Definition, (Gate.Action, "expand")));

    [Fact]
    public void Ducker_is_the_same_on_every_machine() => Assert.Equal("A1D3FCC9B2F9691E", Hash(Duck.Definition));

    private static string Hash(ProcessorDefinition definition, params (Parameter, object)[] values)
    {
        var output = Run.Through(definition, Settings.Of(definition.Parameters, values), Hits());
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var channel in output)
        {
            hash.AppendData(MemoryMarshal.AsBytes(channel.AsSpan()));
        }

        return Convert.ToHexString(hash.GetHashAndReset())[..16];
    }

    // Made by multiplication alone, so that the input too is the same everywhere.
    private static double[][] Hits()
    {
        var noise = new CounterNoise(3);
        double[][] hits = [new double[Frames], new double[Frames]];
        var level = 1.0;
        for (var n = 0; n < Frames; n++)
        {
            level = n % 5000 == 0 ? 1 : level;
            hits[0][n] = noise.Bipolar(n) * level;
            hits[1][n] = noise.Bipolar(n + 40000) * level * 0.5;
            level *= 0.9985;
        }

        return hits;
    }
}
