using System.Reflection;
using DrumPrint.Dsp;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests;

public sealed class NamespaceTests
{
    [Fact]
    public void No_namespaces_of_the_signal_layer_stand_in_a_circle() => OnlyThese(typeof(IProcessor).Assembly, []);

    [Fact]
    public void No_namespaces_of_the_engine_stand_in_a_circle_but_those_known() => OnlyThese(typeof(DrumPrintException).Assembly, KnownCircles.OfTheEngine);

    [Fact]
    public void No_namespaces_of_the_command_line_stand_in_a_circle_but_those_known() => OnlyThese(Assembly.Load("drumprint"), KnownCircles.OfTheCommandLine);

    // A circle that was turned comes off its list, so that it cannot come back.
    private static void OnlyThese(Assembly assembly, IReadOnlyCollection<string> known)
    {
        var circles = new NamespaceCircles(assembly);

        var added = circles.Pairs.Except(known).ToList();
        var gone = known.Except(circles.Pairs).ToList();
        Assert.True(added.Count == 0, $"{added.Count} pairs of namespaces reach each other:\n{string.Join('\n', added)}\nby these arrows:\n{string.Join('\n', circles.Arrows)}");
        Assert.True(gone.Count == 0, $"no circle any more, so no longer to be excused:\n{string.Join('\n', gone)}");
    }
}
