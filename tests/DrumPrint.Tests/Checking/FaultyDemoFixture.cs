using DrumPrint.Checking;
using DrumPrint.Checking.Findings;
using DrumPrint.Demo.Faults;
using DrumPrint.Files;

namespace DrumPrint.Tests.Checking;

/// <summary>The short cut with its faults, written and checked once.</summary>
public sealed class FaultyDemoFixture : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("drumprint-");

    public FaultyDemoFixture()
    {
        Directory.CreateDirectory(Path.Combine(_folder.FullName, TemporaryName.New(), "raw"));
        Made = FaultyDemo.Write(Path.Combine(_folder.FullName, "damaged"), IsFull, hasPrints: true, null, null, CancellationToken.None);
        Report = Checker.Check(Made.Session.Chain, new CheckOptions { HasPictures = true });
    }

    /// <summary>The whole song takes minutes, so it is asked for.</summary>
    public static bool IsFull { get; } = Environment.GetEnvironmentVariable("DRUMPRINT_FULL_DEMO") == "1";

    public FaultyDemoFiles Made { get; }

    public CheckReport Report { get; }

    /// <summary>The folder beside which a killed run left its own.</summary>
    public string Place => _folder.FullName;

    public Finding? Sign(FaultSign sign) => Report.Open.FirstOrDefault(f => f.Rule.Id == sign.Rule && f.Track == sign.Track);

    public void Dispose() => _folder.Delete(recursive: true);
}
