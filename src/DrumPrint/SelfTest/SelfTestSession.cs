using System.Text;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Files;

namespace DrumPrint.SelfTest;

/// <summary>The self-test's session in a temporary folder, which goes with it.</summary>
internal sealed class SelfTestSession : IDisposable
{
    private const string Tempo = """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 160 } ], "last_bar": 2 }""";

    private readonly string _folder;

    private SelfTestSession(string folder, Chain chain)
    {
        _folder = folder;
        Chain = chain;
    }

    public Chain Chain { get; }

    /// <exception cref="AudioFileException">The temporary folder cannot be written to.</exception>
    public static SelfTestSession Make()
    {
        var folder = Directory.CreateTempSubdirectory("drumprint-selftest-").FullName;
        try
        {
            Directory.CreateDirectory(Path.Combine(folder, "raw"));
            Directory.CreateDirectory(Path.Combine(folder, "ir"));
            SelfTestTracks.Write(folder);
            StagedFile.Write(Path.Combine(folder, "raw", "tempo.json"), Tempo);
            var chain = Path.Combine(folder, "SelfTest.chain.json");
            StagedFile.Write(chain, Text("selftest.chain.jsonc"));
            return new SelfTestSession(folder, ChainReader.Read(chain));
        }
        catch (Exception e)
        {
            Directory.Delete(folder, recursive: true);
            if (FileTrouble.IsFileTrouble(e))
            {
                throw FileTrouble.Writing(folder, e);
            }

            throw;
        }
    }

    /// <summary>A folder of its own for the prints of one run.</summary>
    public string Prints(string name) => Path.Combine(_folder, name);

    /// <summary>A text that is kept with the program.</summary>
    public static string Text(string name)
    {
        using var stream = typeof(SelfTestSession).Assembly.GetManifestResourceStream($"DrumPrint.SelfTest.{name}")!;
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd();
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
