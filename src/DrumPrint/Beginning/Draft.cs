using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using DrumPrint.Listening;

namespace DrumPrint.Beginning;

/// <summary>Writes a chain as a person would: a comment beside every guess.</summary>
internal sealed class Draft(string title, RawFolder folder, IReadOnlyList<Guess> guesses, Thresholds thresholds)
{
    private readonly StringBuilder _text = new();
    private readonly List<(string Name, string Bus, double LevelDb, bool IsOptional)> _prints = [];

    public string Write()
    {
        Line("// Begun by listening to the raw files. Every guess has its reason beside it; change what you hear otherwise.");
        Line("// Levels are in dB, times in ms, pans in per cent (-100 left, 100 right). Sides are the files' own.");
        Line("{");
        Line("  \"chain\": 1,");
        Line($"  \"song\": {{ \"title\": {Quoted(title)}, \"code\": {Quoted(Naming.Code(title))}, \"rate_hz\": {folder.RateHz.ToString(CultureInfo.InvariantCulture)}{(folder.Tempo is { } tempo ? $", \"tempo\": {Quoted(tempo)}" : "")} }},");
        Line();
        Line("  \"tracks\": {");
        guesses.ToList().ForEach(Track);
        Line("  },");
        Impulses();
        Line();
        Line("  \"buses\": {");
        Buses();
        Line("  },");
        Line();
        Line("  // Faders at 0 are the rough. Prints are 2.5 dB down, a drum and its layer share one level, so that their sum has room; if it has not, all go down together.");
        Line("  \"prints\": [");
        for (var n = 0; n < _prints.Count; n++)
        {
            var (name, bus, level, isOptional) = _prints[n];
            Line($"    {{ \"number\": {Number(n + 1)}, \"name\": {Quoted(name)}, \"bus\": {Quoted(bus)}, \"level_db\": {Number(level)}{(isOptional ? ", \"optional\": true" : "")} }},");
        }

        Line("  ],");
        Line();
        Line("  \"output\": {");
        Line("    \"over\": \"lower_together\",");
        Line("    \"rough\": { \"number\": 90, \"name\": \"Rough\" },");
        if (folder.Tempo is not null)
        {
            Line("    \"click\": { \"number\": 92, \"name\": \"Click\", \"peak_db\": -12 },");
        }

        Line("  },");
        Line("}");
        return _text.ToString();
    }

    private void Track(Guess guess)
    {
        var keys = new StringBuilder(guess.File.Punched.Count > 0 ? $"\"files\": [{string.Join(", ", guess.File.Punched.Select(Quoted))}]" : $"\"file\": {Quoted(guess.File.Path)}");
        if (guess.File.Channel is { } channel)
        {
            keys.Append(", \"channel\": ").Append(Number(channel));
        }

        if (guess.IsInverted)
        {
            keys.Append(", \"polarity\": \"inverted\"");
        }

        var start = guess.File.StartFrame;
        if (start > 0)
        {
            var frames = start + (long)Math.Round(guess.DelayMs * folder.RateHz / 1000, MidpointRounding.AwayFromZero);
            keys.Append(", \"delay_frames\": ").Append(Number(frames));
        }
        else if (guess.DelayMs > 0)
        {
            keys.Append(", \"delay_ms\": ").Append(Number(guess.DelayMs));
        }

        if (guess.File.Input.IsConverted)
        {
            keys.Append(", \"convert\": true");
        }

        var called = guess.File.ChannelName.Length > 0 ? $"the file calls it {guess.File.ChannelName}" : "";
        var punched = guess.File.Punched.Count > 0 ? "one take, punched in: no two of its files overlap by their time stamps" : "";
        var reasons = new[] { called, punched, guess.Place.Why, guess.Evidence, start > 0 ? "begins later by its time stamp" : "" }.Where(r => r.Length > 0);
        Line($"    {Quoted(guess.Track)}: {{ {keys} }}, // sure: {string.Join("; ", reasons).ReplaceLineEndings(" ")}");
    }

    private void Impulses()
    {
        if (folder.Impulses.Count == 0)
        {
            return;
        }

        Line();
        Line("  \"impulses\": {");
        foreach (var (path, channels) in folder.Impulses.Where(i => i.Channels is 1 or 2 or 4))
        {
            Line($"    {Quoted(Path.GetFileNameWithoutExtension(path))}: {{ \"file\": {Quoted(path)} }}, // {Number(channels)} channel{(channels == 1 ? "" : "s")}");
        }

        Line("  },");
    }

    private void Buses()
    {
        var kick = Group("kick", Of(Role.Kick), g => g.Place.Standing switch { Standing.Out => -2, Standing.Sub => -5, _ => 0 });
        var snare = Group("snare", Of(Role.Snare), g => g.Place.Standing switch { Standing.Side => -6, Standing.Under => -8.5, _ => 0 });
        Print("Kick", kick, -2.5);
        var toms = Toms();
        Print("Toms", toms, -2.5);
        Print("Snare", snare, snare is null || thresholds.SnareOpenDb is null ? -2.5 : -6);
        if (snare is not null && thresholds.SnareOpenDb is { } open)
        {
            Bus("snare loose", "A layer beside the snare: loose, so that spill stays as a shadow.", [$"{Quoted(snare)}: 0"],
                $"{{ \"gate\": {{ \"open_db\": {Number(open)}, \"close_db\": {Number(open - 6)}, \"look_ahead_ms\": 1, \"attack_ms\": 0.3, \"hold_ms\": 90, \"release_ms\": 180, \"range_db\": -14, \"key_high_pass_hz\": 150, \"key_low_pass_hz\": 1200 }} }}, // {thresholds.SnareWhy}");
            Print("SnareLoose", "snare loose", -6.5);
        }

        Print("Hat", Group("hat", Of(Role.Hat), _ => -9), -2.5);
        Print("Ride", Group("ride", Of(Role.Ride), _ => -9), -2.5);
        Print("Cymbals", Group("cymbals", Of(Role.Cymbal), _ => -9), -2.5);
        var above = Spread("overheads", Of(Role.Overhead), -1, "{ \"eq\": { \"bands\": [ { \"high_pass\": { \"freq_hz\": 40, \"slope_db_per_oct\": 6 } } ] } },");
        Print("OH", above, -2.5);
        var rooms = Of(Role.Room);
        var crushed = rooms.Where(r => r.Place.Side == Side.None && r.Places.Count == 1).ToList();
        var spread = rooms.Except(crushed).ToList();
        Print("RoomNear", Spread("near room", [.. spread.Where(r => r.Place.Standing == Standing.Near)], -3, null), -2.5);
        Print("RoomFar", Spread("far room", [.. spread.Where(r => r.Place.Standing == Standing.Far)], -4, null), -2.5);
        Print("Room", Spread("room", [.. spread.Where(r => r.Place.Standing is not (Standing.Near or Standing.Far))], -3, null), -2.5);
        Crushed(crushed.Count > 0 ? crushed : spread);
        var kit = Of(Role.Kit);
        Impact([(kick, -4), (snare, -3), (toms, -6), (above, -18)]);
        Space([(snare, 0), (toms, -4), (above, -15)]);
        Print("Perc", Group("percussion", Of(Role.Percussion), _ => -8), -2.5);
        foreach (var one in kit)
        {
            var bus = one.Track + " alone";
            Bus(bus, "The kit by one microphone, as it was: an extra, not in the rough.", [$"{Quoted(one.Track)}: 0"]);
            Print(Naming.Code(one.Track), bus, -2.5, isOptional: true);
        }
    }

    private List<Guess> Of(Role role) => [.. guesses.Where(g => g.Place.Role == role)];

    private string? Group(string name, List<Guess> members, Func<Guess, double> levelDb)
    {
        if (members.Count == 0)
        {
            return null;
        }

        Bus(name, null, [.. members.Select(m => $"{Quoted(m.Track)}: {Number(levelDb(m))}")]);
        return name;
    }

    private string? Toms()
    {
        var members = guesses.Where(g => g.Place.Role is Role.RackTom or Role.FloorTom).ToList();
        if (members.Count == 0)
        {
            return null;
        }

        List<string> racks = [.. members.Where(m => m.Place.Role == Role.RackTom).Select(m => m.Place.Drum).Distinct()];
        double Pan(Guess m) => m.Place.Role == Role.FloorTom ? 45 : racks.Count < 2 ? -15 : -15 + (30.0 * racks.IndexOf(m.Place.Drum) / (racks.Count - 1));
        Bus(
            "toms",
            "In their places as the drummer sees them, turned down a little between fills.",
            [.. members.Select(m => $"{Quoted(m.Track)}: {{ \"level_db\": {Number(m.Place.Standing == Standing.Under ? -10 : -2)}, \"pan_pct\": {Number(Math.Round(Pan(m)))} }}")],
            thresholds.TomsOpenDb is { } open ? $"{{ \"gate\": {{ \"action\": \"expand\", \"ratio\": 2, \"open_db\": {Number(open)}, \"close_db\": {Number(open - 6)}, \"hold_ms\": 180, \"release_ms\": 420, \"range_db\": -9 }} }}, // {thresholds.TomsWhy}" : null);
        return "toms";
    }

    private string? Spread(string name, List<Guess> members, double levelDb, string? stage)
    {
        if (members.Count == 0)
        {
            return null;
        }

        Bus(name, null, [.. members.Select(m => m.Place.Side == Side.None || m.Places.Count > 1 ? $"{Quoted(m.Track)}: {Number(levelDb)}" : $"{Quoted(m.Track)}: {{ \"level_db\": {Number(levelDb)}, \"pan_pct\": {(m.Place.Side == Side.Left ? "-100" : "100")} }}")], stage is null ? [] : [stage]);
        return name;
    }

    private void Crushed(List<Guess> rooms)
    {
        if (rooms.Count == 0)
        {
            return;
        }

        Bus(
            "crushed room",
            "A room crushed until it breathes. The bass is raised first, so that the kick pushes everything else down.",
            [.. rooms.Select(m => m.Place.Side == Side.None ? $"{Quoted(m.Track)}: 0" : $"{Quoted(m.Track)}: {{ \"level_db\": 0, \"pan_pct\": {(m.Place.Side == Side.Left ? "-100" : "100")} }}")],
            "{ \"eq\": { \"bands\": [ { \"low_shelf\": { \"freq_hz\": 100, \"gain_db\": 6 } }, { \"high_pass\": { \"freq_hz\": 70 } } ] } },",
            $"{{ \"compress\": {{ \"threshold_db\": {Number(thresholds.RoomDb - 18)}, \"ratio\": 20, \"attack_ms\": 0.3, \"release_ms\": 55, \"key_high_pass_hz\": 120, \"make_up_db\": 15 }} }}, // loud hits stand at {Number(thresholds.RoomDb)} dB, 18 above",
            "{ \"saturate\": { \"shape\": \"soft\", \"drive_db\": 6 } },",
            "{ \"eq\": { \"bands\": [ { \"low_pass\": { \"freq_hz\": 7500 } } ] } },",
            "{ \"gain\": { \"level_db\": -11 } },");
        Print("CrushedRoom", "crushed room", -2.5);
    }

    private void Impact((string? Bus, double LevelDb)[] feeds)
    {
        var there = feeds.Where(f => f.Bus is not null).ToList();
        if (there.Count == 0)
        {
            return;
        }

        Bus(
            "impact",
            "The kit once more, squeezed hard, to lay under the dry one. Every filter is gentle, for this is heard with what it was made from.",
            [.. there.Select(f => $"{Quoted(f.Bus!)}: {Number(f.LevelDb)}")],
            "{ \"eq\": { \"bands\": [ { \"low_shelf\": { \"freq_hz\": 85, \"gain_db\": 4, \"slope_db_per_oct\": 6 } }, { \"high_pass\": { \"freq_hz\": 35, \"slope_db_per_oct\": 6 } } ] } },",
            $"{{ \"compress\": {{ \"threshold_db\": {Number(thresholds.DrumDb - 14)}, \"ratio\": 10, \"attack_ms\": 0.1, \"release_ms\": 70, \"key_high_pass_hz\": 100, \"make_up_db\": 10 }} }}, // loud hits stand at {Number(thresholds.DrumDb)} dB, 14 above",
            "{ \"gain\": { \"level_db\": -10 } },");
        Print("Impact", "impact", -2.5);
    }

    private void Space((string? Bus, double LevelDb)[] feeds)
    {
        var there = feeds.Where(f => f.Bus is not null).ToList();
        var impulse = folder.Impulses.Where(i => i.Channels is 1 or 2 or 4).OrderByDescending(i => i.Channels).FirstOrDefault();
        if (there.Count == 0 || impulse.Path is null)
        {
            return;
        }

        Bus(
            "space",
            "A room to send into; only the room is heard here.",
            [.. there.Select(f => $"{Quoted(f.Bus!)}: {Number(f.LevelDb)}")],
            "{ \"eq\": { \"bands\": [ { \"high_pass\": { \"freq_hz\": 250 } }, { \"low_pass\": { \"freq_hz\": 7000 } } ] } },",
            $"{{ \"convolve\": {{ \"impulse\": {Quoted(Path.GetFileNameWithoutExtension(impulse.Path))}, \"gain\": \"loudness\", \"pre_delay_ms\": 28 }} }},",
            "{ \"gain\": { \"level_db\": -14 } },");
        Print("Space", "space", -2.5);
    }

    private void Bus(string name, string? comment, string[] feeds, params string?[] stages)
    {
        if (comment is not null)
        {
            Line($"    // {comment}");
        }

        Line($"    {Quoted(name)}: {{");
        Line($"      \"from\": {{ {string.Join(", ", feeds)} }},");
        if (name == "space")
        {
            Line("      \"channels\": \"stereo\",");
        }

        string[] there = [.. stages.OfType<string>()];
        if (there.Length > 0)
        {
            Line("      \"through\": [");
            Array.ForEach(there, s => Line("        " + s));
            Line("      ],");
        }

        Line("    },");
    }

    private void Print(string name, string? bus, double levelDb, bool isOptional = false)
    {
        if (bus is not null)
        {
            _prints.Add((name, bus, levelDb, isOptional));
        }
    }

    private void Line(string text = "") => _text.Append(text).Append('\n');

    private static string Quoted(string text) => "\"" + JavaScriptEncoder.UnsafeRelaxedJsonEscaping.Encode(text) + "\"";

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}

/// <summary>Levels that thresholds rest on.</summary>
/// <param name="SnareOpenDb">Where the snare's loose gate opens; null where hits and spill overlap.</param>
/// <param name="SnareWhy">What says so.</param>
/// <param name="TomsOpenDb">Where the toms' gate opens.</param>
/// <param name="TomsWhy">What says so.</param>
/// <param name="RoomDb">Level of loud hits in the room that is crushed.</param>
/// <param name="DrumDb">Level of loud hits of kick and snare.</param>
internal sealed record Thresholds(double? SnareOpenDb, string SnareWhy, double? TomsOpenDb, string TomsWhy, double RoomDb, double DrumDb);
