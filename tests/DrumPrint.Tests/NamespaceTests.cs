using System.Reflection;
using DrumPrint.Dsp;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests;

public sealed class NamespaceTests
{
    [Fact]
    public void No_namespaces_of_the_signal_layer_stand_in_a_circle() => NoCircle(typeof(IProcessor).Assembly);

    [Fact]
    public void No_namespaces_of_the_engine_stand_in_a_circle() => NoCircle(typeof(DrumPrintException).Assembly);

    [Fact]
    public void No_namespaces_of_the_command_line_stand_in_a_circle() => NoCircle(Assembly.Load("drumprint"));

    [Fact]
    public void No_namespaces_of_the_bench_stand_in_a_circle() => NoCircle(Assembly.Load("DrumPrint.Bench"));

    private static void NoCircle(Assembly assembly)
    {
        var circles = new NamespaceCircles(assembly);

        Assert.True(circles.Pairs.Count == 0, $"{circles.Pairs.Count} pairs of namespaces reach each other:\n{string.Join('\n', circles.Pairs)}\nby these arrows:\n{string.Join('\n', circles.Arrows)}");
    }
}
