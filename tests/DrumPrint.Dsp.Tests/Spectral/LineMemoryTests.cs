using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Tests.Spectral;

public sealed class LineMemoryTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(128)]
    [InlineData(100001)]
    public void Numbers_are_zero_and_begin_with_a_line_of_the_cache(int length)
    {
        var memories = Enumerable.Range(0, 5).Select(_ => new LineMemory(length)).ToArray();

        Assert.All(memories, memory =>
        {
            Assert.Equal(length, memory.Span.Length);
            Assert.Equal(-1, memory.Span.IndexOfAnyExcept(0.0));
            Assert.Equal(0, Address(memory) % 64);
        });
    }

    private static nint Address(LineMemory memory) => Unsafe.ByteOffset(ref Unsafe.NullRef<double>(), ref memory.First);
}
