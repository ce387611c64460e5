using DrumPrint.Chains.Writing;
using DrumPrint.Dsp.Processors;
using static DrumPrint.Fuzz.Seeds.SeedWriter;

namespace DrumPrint.Fuzz.Seeds;

/// <summary>Small chains, tempo maps, settings, journals and names, as people write them.</summary>
internal static class TextSeeds
{
    private const string Head = """{ "chain": 1, "song": { "title": "Fuzz", "code": "Fuzz", "rate_hz": 48000 }, "tracks": { "a": "a.wav", "b": { "file": "b.wav", "delay_ms": 1.5, "polarity": "inverted" } },""";
    private const string Tail = """ "prints": [ { "number": 1, "name": "One", "bus": "one" } ] }""";

    public static IEnumerable<Seed> All() => Chains().Concat(Tempos()).Concat(Files());

    private static IEnumerable<Seed> Chains()
    {
        yield return new Seed("chain", "good-small.json", File.ReadAllBytes(Repository.File("fixtures", "chains", "small.chain.json")));
        yield return new Seed("chain", "good-selftest.jsonc", File.ReadAllBytes(Repository.File("src", "DrumPrint", "SelfTest", "selftest.chain.jsonc")));
        yield return new Seed("chain", "bad-twelve-mistakes.json", File.ReadAllBytes(Repository.File("fixtures", "chains", "twelve-mistakes.chain.json")));

        yield return Text("chain", "good-rich.jsonc", """
            // a comment
            { "chain": 1,
              "song": { "title": "Fuzz, «long»", "code": "Fuzz", "version": 2, "rate_hz": 44100, "tempo": "tempo.json", "pan_law_db": -3, "temperature_c": 20, "perspective": "drummer", "notes": "One." },
              "tracks": { "kick in": { "file": "raw/a.wav", "delay_ms": 1.1 }, "snare": { "file": "raw/b.wav", "polarity": "inverted", "notes": "x" } },
              "impulses": { "hall": { "file": "ir/h.wav", "layout": "true_stereo" } },
              "buses": {
                "kick": { "from": { "kick in": 0 } },
                "impact": { "from": { "kick": -4, "snare": { "level_db": -3, "pan_pct": 20, "ride": [ { "from_bar": 3, "to_bar": 5, "db": 3 } ] } },
                            "through": [ { "compress": { "ratio": 4, "threshold_db": -30 } }, { "gain": { "level_db": 1 } }, ] } },
              "prints": [ { "number": 1, "name": "Kick", "bus": "kick", "level_db": -2.5 }, { "number": 15, "name": "Impact", "bus": "impact", "optional": true } ],
              "drum_bus": { "through": [ { "gain": {} } ] },
              "output": { "bits": 24, "dither": "none", "tail_s": 2 },
              "reference": { "file": "mix/m.wav", "latency_ms": 20 } }
            """);
        foreach (var processor in Catalogue.All)
        {
            yield return Text("chain", $"stage-{processor.Key}.json", $$"""{{Head}} "buses": { "one": { "from": { "a": 0, "b": -3 }, "through": [ { "{{processor.Key}}": {} } ] } },{{Tail}}""");
        }

        yield return Text("chain", "bad-circle.json", $$"""{{Head}} "buses": { "one": { "from": { "two": 0 } }, "two": { "from": { "one": 0, "a": 0 } } },{{Tail}}""");
        yield return Text("chain", "bad-syntax.json", $$"""{{Head}} "buses": { "one": { "from": { "a": 0 } }""");
        yield return Text("chain", "bad-outside.json", (Head + """ "buses": { "one": { "from": { "a": 0 } } },""" + Tail).Replace("\"rate_hz\"", "\"tempo\": \"../../x/tempo.json\", \"rate_hz\"", StringComparison.Ordinal));
        yield return Text("chain", "bad-ticket.json", """{ "ticket": 2 }""");
    }

    private static IEnumerable<Seed> Tempos()
    {
        yield return Text("tempo", "good-one-tempo.json", """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 104 } ], "last_bar": 4 }""");
        yield return Text("tempo", "good-changes.json", """
            { "tempo_map": 1,
              "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 104 }, { "from_bar": 3, "metre": "2/4" }, { "from_bar": 4, "metre": "6/8", "bpm": 91.5 } ],
              "sections": [ { "from_bar": 3, "name": "door" } ], "last_bar": 6 } // end
            """);
        yield return Text("tempo", "bad-falling.json", """{ "tempo_map": 1, "bars": [ { "from_bar": 5, "metre": "4/4", "bpm": 104 }, { "from_bar": 3 } ], "last_bar": 2 }""");
    }

    private static IEnumerable<Seed> Files()
    {
        var zero = new string('0', 64);
        var one = new string('1', 64);
        yield return Text("journal", "good-set.json", $$"""{ "journal": 1, "kept": "kept", "set": [ { "name": "01_A.wav", "staged": ".drumprint-{{zero[..24]}}.partial", "new_sha256": "{{zero}}", "old_sha256": "{{one}}", "kept_as": "01_A.wav" }, { "name": "S_v1.ticket.json", "staged": ".drumprint-{{one[..24]}}.partial", "new_sha256": "{{one}}" } ] }""");
        yield return Text("journal", "bad-name.json", $$"""{ "journal": 1, "kept": "kept", "set": [ { "name": "../01_A.wav", "staged": ".drumprint-{{zero[..24]}}.partial", "new_sha256": "{{zero}}" } ] }""");
        yield return Text("settings", "good-all.json", """{ "read_from": ["/home/me/takes"], "contact": "mail@example.org", "credit": "A. Name", } // mine""");
        yield return Text("settings", "bad-relative.json", """{ "read_from": "takes" }""");
        foreach (var (name, text) in new[]
        {
            ("good-file", "01_Kick_Song_v1.wav"), ("good-folder", "maps/tempo.json"), ("bad-hidden", ".x"), ("bad-up", "../x"), ("bad-root", "/etc/x"), ("bad-drive", "C:x"), ("bad-device", "NUL.wav"), ("bad-dot", "a./b "), ("bad-back", "a\\..\\b"),
        })
        {
            yield return Text("name", name, text);
        }
    }
}
