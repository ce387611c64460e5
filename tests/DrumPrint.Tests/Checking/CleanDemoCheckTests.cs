using DrumPrint.Chains.Reading;
using DrumPrint.Checking;
using DrumPrint.Checking.Findings;
using DrumPrint.Demo;
using DrumPrint.Printing;
using DrumPrint.Session;
using DrumPrint.Tests.Demo;

namespace DrumPrint.Tests.Checking;

public sealed class CleanDemoCheckTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("drumprint-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void The_demo_raises_nothing_above_information_but_what_its_chain_signs_off()
    {
        var files = FaultyDemoFixture.IsFull ? DemoSession.Write(_folder, full: true, null, CancellationToken.None) : WrittenDemo.CopyTo(_folder);
        SessionPrinter.Print(ChainReader.Read(files.Chain), new PrintOptions());

        var report = Checker.Check(_folder, new CheckOptions());

        Assert.Empty(report.Open.Where(f => f.Severity > Severity.Information).Select(f => $"{f.Rule.Id} {f.Track}: {f.Sentence}"));
        Assert.Equal(["G7"], report.Findings.Where(f => f.AcceptedWhy is not null).Select(f => f.Rule.Id));
        Assert.Empty(report.Notes);
    }
}
