using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tests.Chains;

namespace DrumPrint.Tests.Versions;

/// <summary>A copy of what an earlier version left, thrown away after the test.</summary>
internal sealed class EarlierSession : IDisposable
{
    /// <param name="commit">The folder in <c>fixtures/versions</c>.</param>
    public EarlierSession(string commit)
    {
        Folder = Directory.CreateTempSubdirectory("drumprint-version-").FullName;
        var from = Repository.File("fixtures", "versions", commit);
        foreach (var file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
        {
            var to = Path.Combine(Folder, Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(file, to);
        }
    }

    public string Folder { get; }

    public string Prints => Path.Combine(Folder, "prints");

    public string TicketPath => Path.Combine(Prints, "PennyLantern_v1.ticket.json");

    public Chain Chain => ChainReader.Read(Path.Combine(Folder, "penny-lantern.chain.json"));

    public StoreOptions Store => StoreOptions.Beside(Chain.Path);

    public PrintReport Print(PrintOptions? options = null) => SessionPrinter.Print(Chain, options ?? new PrintOptions());

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
