using DrumPrint.Chains;
using DrumPrint.Delivering;
using DrumPrint.Files;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Delivering;

/// <summary>A small session of mono and stereo prints, an extra, roughs, click and notes, and its deliveries.</summary>
internal sealed class DeliverySession : IDisposable
{
    public const string Body = """
        "tracks": { "a": { "file": "raw/a.wav", "polarity": "inverted", "notes": "0.1 m from the head" }, "b": { "file": "raw/b.wav", "delay_ms": 1.5 } },
        "buses": { "one": { "from": { "a": -6 }, "through": [ { "compress": { "ratio": 4, "threshold_db": -30 } } ] },
                   "two": { "from": { "b": { "level_db": -8, "pan_pct": 30 } } }, "dry": { "from": { "a": -9 } } },
        "prints": [ { "number": 1, "name": "One", "bus": "one", "keep": "must", "notes": "The body of <it>." }, { "number": 2, "name": "Two", "bus": "two", "keep": "first_out" },
                    { "number": 3, "name": "Dry", "bus": "dry" }, { "number": 15, "name": "Extra", "bus": "dry", "optional": true } ],
        "drum_bus": { "through": [ { "compress": { "ratio": 2, "threshold_db": -20 } }, { "gain": { "level_db": 1 } } ], "notes": "Glue, no more." },
        "output": { "click": true }
        """;

    private static readonly Lazy<DeliverySession> Delivered = new(MakeDelivered);

    /// <param name="frames">Length of the takes.</param>
    public DeliverySession(int frames = 100_000)
    {
        Session.Track("raw/a.wav", Signals.Hits(frames, 1));
        Session.Track("raw/b.wav", Signals.Hits(frames, 2));
        File.WriteAllText(Path.Combine(Session.Folder, "tempo.json"), """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 104 }, { "from_bar": 3, "metre": "2/4", "bpm": 104 }, { "from_bar": 4, "metre": "6/8", "bpm": 91.5 } ], "sections": [ { "from_bar": 3, "name": "door" } ], "last_bar": 6 }""");
    }

    public TestSession Session { get; } = new();

    public string To => Path.Combine(Session.Folder, "out");

    public string V1 => Path.Combine(To, "Test_v1");

    public Chain Chain(int version = 1, Func<string, string>? edit = null) => Session.Chain(
        edit?.Invoke(Body) ?? Body, $"\"tempo\": \"tempo.json\", \"perspective\": \"drummer\", \"notes\": \"Close but dented.\", \"version\": {version.ToString(System.Globalization.CultureInfo.InvariantCulture)}");

    /// <summary>The first version, out of a file.</summary>
    public Chain ChainFile() => Session.ChainFile(Body, "\"tempo\": \"tempo.json\", \"perspective\": \"drummer\"");

    /// <summary>Has the first version printed and delivered, as <see cref="Deliver"/> does it, by copies of what was made once for the whole run.</summary>
    public void TakeDelivered()
    {
        Copy(Delivered.Value.Session.Prints, Session.Prints);
        Copy(Delivered.Value.To, To);
    }

    /// <summary>Prints and delivers.</summary>
    public DeliveryReport Deliver(int version = 1, Func<string, string>? edit = null, string? to = null, string? since = null, bool zips = false, Action<string>? steps = null, Func<DeliveryOptions, DeliveryOptions>? with = null)
    {
        var chain = Chain(version, edit);
        Session.Print(chain);
        return DeliverPrinted(chain, to, since, zips, new FileSteps(steps), with);
    }

    /// <summary>Delivers what is printed.</summary>
    public DeliveryReport DeliverPrinted(Chain chain, string? to = null, string? since = null, bool zips = false, FileSteps? steps = null, Func<DeliveryOptions, DeliveryOptions>? with = null)
    {
        var options = new DeliveryOptions { To = to ?? To, Since = since, Zips = zips, Contact = "mail@example.org", Steps = steps ?? FileSteps.Plain };
        return Deliverer.Deliver(chain, with?.Invoke(options) ?? options);
    }

    /// <summary>Every file below a folder with its bytes.</summary>
    public static IReadOnlyDictionary<string, string> Bytes(string folder) => Directory.Exists(folder)
        ? Directory.GetFiles(folder, "*", SearchOption.AllDirectories).ToDictionary(f => Path.GetRelativePath(folder, f), f => Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(f))), StringComparer.Ordinal)
        : new Dictionary<string, string>();

    public static void Copy(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (var folder in Directory.GetDirectories(from, "*", SearchOption.AllDirectories))
        {
            Directory.CreateDirectory(Path.Combine(to, Path.GetRelativePath(from, folder)));
        }

        foreach (var file in Directory.GetFiles(from, "*", SearchOption.AllDirectories).Where(f => !f.EndsWith(".lock", StringComparison.Ordinal)))
        {
            File.Copy(file, Path.Combine(to, Path.GetRelativePath(from, file)));
        }
    }

    public void Dispose() => Session.Dispose();

    private static DeliverySession MakeDelivered()
    {
        var made = new DeliverySession();
        AppDomain.CurrentDomain.ProcessExit += (_, _) => made.Dispose();
        made.Deliver();
        return made;
    }
}
