namespace DrumPrint.Conformance.Tests;

/// <summary>Every line of docs/conformance.md as a test, a class for each handful of sections, so that they are measured side by side.</summary>
public abstract class ConformanceTests
{
    /// <summary>The sections of each class.</summary>
    internal static IReadOnlyDictionary<Type, string[]> Sections { get; } = new Dictionary<Type, string[]>
    {
        [typeof(FilterTests)] = ["eq", "phase", "bands and dynamic_eq", "hum", "convolve", "resample", "delay", "gain, polarity and width"],
        [typeof(DynamicsTests)] = ["compress", "gate", "gate as expander, and duck", "limit", "hits"],
        [typeof(DistortionTests)] = ["clip", "saturate", "tape"],
        [typeof(MicrophoneTests)] = ["session: many microphones", "alignment: two microphones"],
        [typeof(DrumTests)] = ["spill", "layer"],
        [typeof(FileTests)] = ["measure", "print", "dither"],
        [typeof(RobustTests)] = ["robust"],
    };

    /// <summary>The checks of a class, but for those that run alone.</summary>
    protected static TheoryData<string> Of(Type tests) =>
        [.. AllChecks.Sections.Where(s => Sections[tests].Contains(s.Title)).SelectMany(s => s.Checks).Where(c => !c.RunsAlone).Select(c => c.ToString())];

    /// <summary>Holds a check to its bar.</summary>
    protected internal static void MeetsItsBarOrIsMarked(string name)
    {
        var check = AllChecks.Flat.Single(c => c.ToString() == name);

        Assert.True(check.IsMet == (check.Missed is null), $"{name}: {check.Bar.Shown(check.Measured)}, expected {check.Bar.Expected} {check.Bar.Tolerance}");
    }
}
