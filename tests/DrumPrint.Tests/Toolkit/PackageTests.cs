using System.Diagnostics;
using System.IO.Compression;
using System.Xml.Linq;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Toolkit;

public sealed class PackageTests
{
    private static readonly string[] Projects = ["DrumPrint.Dsp", "DrumPrint", "DrumPrint.Cli"];

    [Fact]
    public void The_packages_say_what_they_are_and_the_tool_installed_from_them_prints()
    {
        using var session = new TestSession();
        session.Track("raw/kick.wav", Signals.Hits(TestSession.Rate, 1));
        File.WriteAllText(Path.Combine(session.Folder, "small.chain.json"), """
            { "chain": 1,
              "song": { "title": "Small", "code": "Small", "rate_hz": 48000 },
              "tracks": { "kick": { "file": "raw/kick.wav" } },
              "buses": { "drums": { "from": { "kick": 0 }, "through": [ { "compress": { "threshold_db": -24 } } ] } },
              "prints": [ { "number": 1, "name": "Kick", "bus": "drums" } ] }
            """);
        var packages = Path.Combine(session.Folder, "packages");
        var root = Repository.Folder;

        foreach (var project in Projects)
        {
            Run("dotnet", root, "pack", Path.Combine("src", project), "-c", Configuration(), "--no-build", "-o", packages);
        }

        AssertLibrary(packages, "DrumPrint.Dsp", dependsOn: []);
        AssertLibrary(packages, "DrumPrint.Engine", dependsOn: ["DrumPrint.Dsp", "NAudio.Core", "NAudio.Midi", "PdfPig", "System.IO.Hashing"]);

        AssertDescribed(packages, "drumprint");

        // From this folder alone: a tool brings along all it needs, and no registry is asked.
        var tools = Path.Combine(session.Folder, "tools");
        Run("dotnet", session.Folder, "tool", "install", "drumprint", "--tool-path", tools, "--source", packages, "--no-cache");
        Run(Path.Combine(tools, "drumprint"), session.Folder, "print", "small.chain.json");

        var print = Assert.Single(Directory.GetFiles(session.Prints, "01_*.wav"));
        Assert.True(TestSession.ReadFile(print)[0].Max() > 0.01);
    }

    private static void AssertLibrary(string packages, string id, string[] dependsOn)
    {
        var version = typeof(DrumPrintException).Assembly.GetName().Version!.ToString(3);
        using var package = ZipFile.OpenRead(Path.Combine(packages, $"{id}.{version}.nupkg"));
        var names = package.Entries.Select(e => e.FullName).ToList();
        using var nuspec = package.GetEntry($"{id}.nuspec")!.Open();
        var metadata = XDocument.Load(nuspec).Descendants().ToLookup(e => e.Name.LocalName);

        AssertDescribed(packages, id);
        Assert.Contains($"lib/net10.0/{id}.dll", names);
        Assert.Contains($"lib/net10.0/{id}.xml", names);
        Assert.Equal(dependsOn, metadata["dependency"].Select(d => d.Attribute("id")!.Value).Order());
        using var symbols = ZipFile.OpenRead(Path.Combine(packages, $"{id}.{version}.snupkg"));
        Assert.Contains(symbols.Entries, e => e.FullName == $"lib/net10.0/{id}.pdb");
    }

    private static void AssertDescribed(string packages, string id)
    {
        using var package = ZipFile.OpenRead(Assert.Single(Directory.GetFiles(packages, $"{id}.?.?.?.nupkg")));
        using var nuspec = package.GetEntry($"{id}.nuspec")!.Open();
        var metadata = XDocument.Load(nuspec).Descendants().ToLookup(e => e.Name.LocalName);

        Assert.NotNull(package.GetEntry("README.md"));
        Assert.Equal("MIT", metadata["license"].Single().Value);
        Assert.Equal("README.md", metadata["readme"].Single().Value);
        Assert.True(metadata["description"].Single().Value.Length > 40);
    }

    private static void Run(string program, string folder, params string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["DOTNET_CLI_UI_LANGUAGE"] = "en";
        start.Environment["DOTNET_CLI_TELEMETRY_OPTOUT"] = "1";
        start.Environment["DOTNET_NOLOGO"] = "1";

        // The build servers would outlive the test and hold its folder.
        start.Environment["MSBUILDDISABLENODEREUSE"] = "1";
        if (Environment.ProcessPath is { } runtime && Path.GetFileNameWithoutExtension(runtime) == "dotnet")
        {
            start.Environment["DOTNET_ROOT"] = Path.GetDirectoryName(runtime);
        }

        using var process = Process.Start(start)!;
        var errors = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, $"{program} {string.Join(' ', arguments)} ended with {process.ExitCode}:\n{output}\n{errors.Result}");
    }

    // The tests lie in artifacts/bin/<project>/<configuration>.
    private static string Configuration() => new DirectoryInfo(AppContext.BaseDirectory).Name;
}
