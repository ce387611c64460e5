using DrumPrint.Checking;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Tests.Live;

/// <summary>The picture of the demo's song says what its prints and its check say.</summary>
[Collection(PrintedDemo.Group)]
public sealed class DemoOutlineTests(PrintedDemo demo)
{
    [Fact]
    public void The_most_turned_down_is_what_the_report_of_the_print_says()
    {
        var told = 0;
        foreach (var print in demo.Chain.Prints)
        {
            var report = demo.Report.Prints.Single(p => p.Number == print.Number);
            var own = report.GainReductions.Where(r => r.Bus is null).Select(r => Math.Round(r.LargestDb, 2)).ToList();

            // Both leave out what was below a tenth of a decibel in the report.
            var lines = demo.Outline.Lines.Where(l => l.Bus == print.Bus).Select(l => Math.Round(l.MostDb < 0.1 ? 0 : l.MostDb, 2)).ToList();

            Assert.Equal(own, lines);
            told += own.Count;
        }

        Assert.InRange(told, 5, 100);
    }

    [Fact]
    public void Hits_lost_are_those_of_the_check()
    {
        var found = Checker.Check(demo.Chain.Path, new CheckOptions()).Findings.Where(f => f.Rule.Id == "G7").ToDictionary(f => f.Track, f => f.PlacesS);
        var lost = demo.Outline.Lines.Where(l => l.Gate is { Lost.Count: > 0 }).ToDictionary(l => l.Bus, l => l.Gate!.Lost.Select(h => h.AtS).ToList());

        Assert.NotEmpty(lost);
        Assert.Equal(found.Keys.Order(), lost.Keys.Order());
        Assert.All(lost, l => Assert.Equal(found[l.Key], l.Value));
    }

    [Fact]
    public void Every_gate_of_a_close_microphone_tells_its_hits()
    {
        var gates = demo.Chain.Buses.Where(b => b.Stages.Any(s => s.Definition == Gate.Definition && s.Settings[Gate.Action] == "gate")).Select(b => b.Name);

        Assert.Equal(gates.Order(), demo.Outline.Lines.Where(l => l.Gate is not null).Select(l => l.Bus).Distinct().Order());
        Assert.All(demo.Outline.Lines.Where(l => l.Gate is not null), l => Assert.True(l.Gate!.HitCount > 0 || l.Gate.NotCounted is not null));
    }
}
