using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Live;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tests.Demo;

namespace DrumPrint.Tests.Live;

/// <summary>The short cut of the demo session and its prints, as 32-bit floats.</summary>
public sealed class PrintedDemo : IDisposable
{
    /// <summary>The tests that share it.</summary>
    public const string Group = "printed demo";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("drumprint-");
    private readonly Dictionary<int, double[][]> _prints = [];
    private SongOutline? _outline;
    private PrintReport? _exact;

    public PrintedDemo()
    {
        var files = WrittenDemo.CopyTo(_folder.FullName);
        Chain = ChainReader.Read(files.Chain);
        Report = SessionPrinter.Print(Chain, new PrintOptions { OutFolder = Path.Combine(_folder.FullName, "prints"), Encoding = SampleEncoding.Float32 });
        foreach (var print in Report.Prints)
        {
            _prints.Add(print.Number, DemoFixture.Channels(Path.Combine(Report.OutFolder, print.FileName)));
        }
    }

    public Chain Chain { get; }

    /// <summary>What the run told.</summary>
    public PrintReport Report { get; }

    /// <summary>The picture of its song; nobody changes it.</summary>
    internal SongOutline Outline => _outline ??= SongOutline.Of(Chain, 600);

    /// <summary>An excerpt from 16.5371 to 18 s, made from the start of the song on.</summary>
    internal PrintReport Exact => _exact ??= SessionPrinter.Print(
        Chain, new PrintOptions { OutFolder = Path.Combine(_folder.FullName, "exact"), Encoding = SampleEncoding.Float32, FromS = 16.5371, ToS = 18, IsExact = true });

    public double[][] Print(int number) => _prints[number];

    public void Dispose() => _folder.Delete(recursive: true);
}
