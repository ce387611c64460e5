using DrumPrint.Chains;

namespace DrumPrint.Tests.Support;

/// <summary>A small session in which most things happen: keys, an impulse, rides in bars, delays, roughs, a click.</summary>
internal static class BusySession
{
    public const string Body = """
        "tracks": { "a": { "file": "raw/a.wav", "delay_ms": 1.5 }, "b": "raw/b.wav", "c": "raw/c.wav" },
        "impulses": { "room": { "file": "ir/room.wav" } },
        "buses": {
          "bus a": { "from": { "a": -6 }, "through": [ { "gate": { "look_ahead_ms": 1, "range_db": -20 } }, { "saturate": { "drive_db": 3 } } ] },
          "bus b": { "from": { "b": { "level_db": -8, "pan_pct": 30, "ride": [ { "from_bar": 1, "to_bar": 1, "db": 2 } ] } },
                     "through": [ { "compress": { "ratio": 4, "key": "bus a" } } ] },
          "wet": { "from": { "c": -10 }, "through": [ { "convolve": { "impulse": "room" } } ] } },
        "prints": [ { "number": 1, "name": "A", "bus": "bus a" }, { "number": 2, "name": "B", "bus": "bus b" }, { "number": 3, "name": "Wet", "bus": "wet" } ],
        "drum_bus": { "through": [ { "compress": { "ratio": 2 } } ] },
        "output": { "click": true }
        """;

    public const string Song = "\"tempo\": \"tempo.json\"";

    /// <summary>Writes raw tracks, impulse and tempo map.</summary>
    public static void Write(TestSession session)
    {
        session.Track("raw/a.wav", Signals.Hits(14000, 1));
        session.Track("raw/b.wav", Signals.Hits(14000, 2));
        session.Track("raw/c.wav", Signals.Hits(12000, 3));
        session.Track("ir/room.wav", Signals.Hits(5000, 4), Signals.Hits(5000, 5));
        File.WriteAllText(Path.Combine(session.Folder, "tempo.json"), """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "1/4", "bpm": 240 } ], "last_bar": 2 }""");
    }

    public static Chain Chain(TestSession session) => session.Chain(Body, Song);
}
