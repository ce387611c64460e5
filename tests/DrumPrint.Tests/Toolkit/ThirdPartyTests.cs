using System.Text.Json;
using System.Xml.Linq;

namespace DrumPrint.Tests.Toolkit;

/// <summary>The list of what is shipped of others, held against the lock files and the packages themselves.</summary>
public sealed class ThirdPartyTests
{
    // Work on the code while it is built, and leave nothing in what is shipped.
    private static readonly string[] BuildOnly = ["Microsoft.CodeAnalysis.BannedApiAnalyzers", "Microsoft.NET.ILLink.Tasks"];

    private static readonly string[] Shipped = ["DrumPrint.Dsp", "DrumPrint", "DrumPrint.Cli"];

    [Fact]
    public void The_list_names_every_package_that_is_shipped_in_its_version_and_no_other() =>
        Assert.Equal(Locked(), Rows().Select(r => $"{r.Package} {r.Version}").Order(StringComparer.Ordinal));

    [Fact]
    public void Licence_and_copyright_are_what_each_package_says_of_itself() => Assert.All(Rows(), row =>
    {
        var metadata = XDocument.Load(Path.Combine(PackageFolder, row.Package.ToLowerInvariant(), row.Version, $"{row.Package.ToLowerInvariant()}.nuspec"))
            .Descendants().ToLookup(e => e.Name.LocalName, e => e.Value);

        Assert.Equal(metadata["license"].Single(), row.Licence);
        Assert.Equal(metadata["copyright"].Append(metadata["authors"].First()).First(), row.Copyright);
    });

    [Fact]
    public void The_text_of_every_licence_is_there()
    {
        var list = File.ReadAllText(Repository.File("THIRD-PARTY.md"));

        Assert.Equal(["Apache-2.0", "MIT"], Rows().Select(r => r.Licence).Distinct().Order(StringComparer.Ordinal));
        Assert.Contains("The above copyright notice and this permission notice shall be included", list, StringComparison.Ordinal);
        Assert.Contains("Apache License", File.ReadAllText(Repository.File("licences", "Apache-2.0.txt")), StringComparison.Ordinal);
    }

    // Where the restore that built these tests has put them.
    private static string PackageFolder =>
        Environment.GetEnvironmentVariable("NUGET_PACKAGES") ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget", "packages");

    private static IEnumerable<(string Package, string Version, string Licence, string Copyright)> Rows() =>
        from line in File.ReadAllLines(Repository.File("THIRD-PARTY.md"))
        where line.StartsWith("| ", StringComparison.Ordinal) && !line.StartsWith("| package ", StringComparison.Ordinal)
        let cells = line.Trim('|').Split('|', StringSplitOptions.TrimEntries)
        select (cells[0], cells[1], cells[2], cells[3]);

    private static IEnumerable<string> Locked()
    {
        var all = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var project in Shipped)
        {
            using var json = JsonDocument.Parse(File.ReadAllBytes(Repository.File("src", project, "packages.lock.json")));
            foreach (var package in json.RootElement.GetProperty("dependencies").EnumerateObject().SelectMany(f => f.Value.EnumerateObject()))
            {
                if (package.Value.GetProperty("type").GetString() != "Project" && !BuildOnly.Contains(package.Name))
                {
                    all.Add($"{package.Name} {package.Value.GetProperty("resolved").GetString()}");
                }
            }
        }

        return all;
    }
}
