using System.Reflection;
using DrumPrint.Dsp;

namespace DrumPrint.Tests;

public sealed class LayerTests
{
    private static readonly Assembly Dsp = typeof(IProcessor).Assembly;
    private static readonly Assembly Engine = typeof(DrumPrintException).Assembly;

    [Fact]
    public void The_signal_layer_knows_no_other_layer_and_no_package() =>
        Assert.All(References(Dsp), name => Assert.True(IsRuntime(name), $"DrumPrint.Dsp refers to {name}"));

    [Fact]
    public void The_signal_layer_knows_no_files_clocks_threads_json_or_console()
    {
        string[] banned = ["System.Console", "System.Text.Json", "System.IO.FileSystem", "System.Threading.Thread", "System.Net.Http"];

        Assert.DoesNotContain(References(Dsp), banned.Contains);
        Assert.Empty(TypesUsed(Dsp, ["System.IO.File", "System.IO.FileStream", "System.IO.Path", "System.DateTime", "System.Threading.Thread", "System.Threading.Tasks.Task"]));
    }

    [Fact]
    public void The_engine_knows_the_signal_layer_and_no_console()
    {
        var references = References(Engine);

        Assert.Contains("DrumPrint.Dsp", references);
        Assert.DoesNotContain("System.Console", references);
        Assert.DoesNotContain(references, name => name.StartsWith("Spectre", StringComparison.Ordinal) || name.StartsWith("System.CommandLine", StringComparison.Ordinal));
        Assert.DoesNotContain("DrumPrint.Cli", references);
    }

    private static List<string> References(Assembly assembly) => [.. assembly.GetReferencedAssemblies().Select(a => a.Name!)];

    private static bool IsRuntime(string name) => name.StartsWith("System.", StringComparison.Ordinal);

    // Type references in the metadata of an assembly, whichever file of the runtime holds them.
    private static List<string> TypesUsed(Assembly assembly, string[] names)
    {
        using var stream = File.OpenRead(assembly.Location);
        using var file = new System.Reflection.PortableExecutable.PEReader(stream);
        var metadata = System.Reflection.Metadata.PEReaderExtensions.GetMetadataReader(file);
        return
        [
            .. metadata.TypeReferences
                .Select(metadata.GetTypeReference)
                .Select(t => $"{metadata.GetString(t.Namespace)}.{metadata.GetString(t.Name)}")
                .Where(names.Contains),
        ];
    }
}
