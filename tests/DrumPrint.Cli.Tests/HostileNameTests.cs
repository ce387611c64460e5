using System.Buffers.Binary;
using System.Text;
using DrumPrint.Cli.Output;
using DrumPrint.Tickets;

namespace DrumPrint.Cli.Tests;

/// <summary>Whatever names, titles and chunks hold, nothing that steers a terminal comes out of any command.</summary>
public sealed class HostileNameTests : IDisposable
{
    // Sets the window's title, rings, clears the screen, goes to the next line, turns the reading order; and the one-byte form of the first.
    private const string Hostile = "a\u001b]0;owned\u0007\u001b[2J\nTo look at: all is well\u202Egnp\u2066\u200F\u009b31m";

    // What a chain may hold: there control characters are refused, the others are not.
    private const string Turned = "a\u202Egnp\u2066b";

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_name_on_the_command_line()
    {
        string[] commands = ["print", "reprint", "chain", "measure", "store list", "store verify", "store clear"];
        foreach (var command in commands)
        {
            Shows(@"\u001B", [.. command.Split(' '), Hostile]);
        }

        Shows(@"\u001B", "diff", Hostile, Hostile);
        Shows(@"\u001B", "compare", Hostile, Hostile);
        Shows(@"\u001B", "processors", Hostile);
        Shows(@"\u001B", "completions", Hostile);
        Shows(@"\u001B", "--" + Hostile);
        Shows(@"\u001B", Hostile);
        Shows(@"\u001B", "schema", Hostile);
    }

    [Fact]
    public void Names_of_files_and_folders()
    {
        if (OperatingSystem.IsWindows())
        {
            return; // such names cannot be made there
        }

        var session = _folder.File(Hostile);
        Directory.CreateDirectory(session);
        Write(Path.Combine(session, Hostile + ".wav"), 1);
        Write(Path.Combine(session, "b.wav"), 2);
        var chain = Path.Combine(session, "song.chain.json");
        File.WriteAllText(chain, Chain("b.wav", "Song"));

        Shows(@"\u001B", "measure", Path.Combine(session, Hostile + ".wav"));
        Shows(@"\u001B", "measure", session);
        Shows(@"\u001B", "measure", session, "--json");
        Shows(@"\u001B", "print", session);
        Shows(@"\u001B", "print", chain, "--from", Hostile);
        Shows(@"\u001B", "store", "list", session);
        Shows(@"\u001B", "store", "verify", session);
        Shows(@"\u001B", "compare", Path.Combine(session, Hostile + ".wav"), Path.Combine(session, "b.wav"), "--page", Path.Combine(session, "page.html"));
        Shows("", "compare", Path.Combine(session, Hostile + ".wav"), Path.Combine(session, "b.wav"), "--json");
        Shows("", "reprint", Path.Combine(session, "prints"));
        File.Copy(Path.Combine(session, "prints", "01_A_Song_v1.wav"), Path.Combine(session, "prints", Hostile + "_A_Song_v1.wav"));
        Shows("", "reprint", Path.Combine(session, "prints"));
        Shows(@"\u001B", "reprint", Path.Combine(session, "prints", Hostile + "_A_Song_v1.wav"));
        Shows(@"\u001B", "reprint", Path.Combine(session, "prints", Hostile + "_A_Song_v1.wav"), "--json");
        Shows("", "diff", Path.Combine(session, "prints"), chain);
        Shows("", "diff", Path.Combine(session, "prints"), chain, "--json");
        Shows(@"\u001B", "chain", Path.Combine(session, "prints"), "--out", _folder.File(Hostile + ".chain.json"));
        Shows(@"\u001B", "store", "clear", session);
    }

    [Fact]
    public void What_a_chain_holds()
    {
        Write(_folder.File("b.wav"), 2);
        var chain = _folder.File("song.chain.json");
        File.WriteAllText(chain, Chain("b.wav", Turned));

        Shows(@"\u202E", "print", chain);
        Shows("", "print", chain, "--json", "--anew");
        Shows(@"\u202E", "print", chain, "--profile", "--anew");
        Shows(@"\u202E", "store", "list", _folder.Path);
        Shows(@"\u202E", "compare", chain, "--without", Turned + " b");
        Shows("", "compare", chain, "--without", Turned + " b", "--json");
        File.WriteAllText(_folder.File("other.chain.json"), Chain("b.wav", Turned).Replace("\": -3", "\": -4", StringComparison.Ordinal));
        Shows(@"\u202E", "diff", chain, _folder.File("other.chain.json"));
        Shows("", "diff", chain, _folder.File("other.chain.json"), "--json");
        Shows("", "demo", _folder.File(Turned), "--no-print");

        // Every text of a chain in turn, with control characters: named, and not repeated.
        foreach (var text in new[] { "\"Song\"", "\"b.wav\"", "\"Song b\"", "\"level_db\"", "\"A\"" })
        {
            var broken = _folder.File("broken.chain.json");
            File.WriteAllText(broken, Chain("b.wav", "Song").Replace(text, System.Text.Json.JsonSerializer.Serialize(Hostile), StringComparison.Ordinal));
            Assert.NotEqual(0, Shows("", "print", broken).ExitCode);
        }
    }

    [Fact]
    public void What_a_ticket_and_a_print_hold()
    {
        Write(_folder.File("b.wav"), 2);
        File.WriteAllText(_folder.File("song.chain.json"), Chain("b.wav", "Song"));
        Shows("", "print", _folder.Path);
        var ticket = Assert.Single(Directory.GetFiles(_folder.File("prints"), "*.ticket.json"));
        var text = File.ReadAllText(ticket);
        foreach (var part in new[] { "\"Song\"", "\"01_A_Song_v1.wav\"", "\"A\"", "\"b.wav\"", "\"Song b\"", $"\"{EngineVersion.Text}\"", "\"gain\"" })
        {
            File.WriteAllText(ticket, text.Replace(part, System.Text.Json.JsonSerializer.Serialize(Hostile), StringComparison.Ordinal));
            foreach (var command in new[] { "reprint", "chain", "diff" })
            {
                Shows("", command == "diff" ? [command, ticket, _folder.File("song.chain.json")] : command == "chain" ? [command, ticket] : [command, _folder.File("prints")]);
            }
        }
    }

    [Theory]
    [InlineData("\u001b[2J")]
    [InlineData("\u0007\u0008\u000a\u009b")]
    public void The_names_of_chunks(string id)
    {
        var file = _folder.File("a.wav");
        Write(file, 1);
        var whole = File.ReadAllBytes(file);
        foreach (var at in new[] { 0, 8, 36 })
        {
            var bytes = (byte[])whole.Clone();
            Encoding.Latin1.GetBytes(id, bytes.AsSpan(at));
            BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(at == 12 ? 16 : 40), at >= 12 ? 0x7FFF_FFFFu : 0u);
            File.WriteAllBytes(file, bytes);
            Shows("", "measure", file);
        }
    }

    [Fact]
    public void The_console_has_one_door()
    {
        var program = Repository.File("src", "DrumPrint.Cli");
        var banned = File.ReadAllLines(Path.Combine(program, "BannedSymbols.txt"));

        Assert.Contains(banned, l => l.StartsWith("T:System.Console;", StringComparison.Ordinal));
        Assert.Contains(banned, l => l.StartsWith("T:Spectre.Console.AnsiConsole;", StringComparison.Ordinal));
        Assert.Equal(
            ["Terminal.cs"],
            Directory.GetFiles(program, "*.cs", SearchOption.AllDirectories).Where(f => File.ReadAllText(f).Contains("RS0030", StringComparison.Ordinal)).Select(Path.GetFileName));
    }

    private ProgramRun Shows(string wanted, params string[] arguments)
    {
        var run = ProgramRun.Of(_folder.Path, arguments);
        var all = run.Output + run.Error;

        Assert.DoesNotContain(all.ReplaceLineEndings("").EnumerateRunes(), r => Visible.IsHidden(r));
        Assert.DoesNotContain(all.Split('\n'), line => line.StartsWith("To look at: all is well", StringComparison.Ordinal));
        Assert.DoesNotContain("fault of DrumPrint", all, StringComparison.Ordinal);
        Assert.Contains(wanted, all, StringComparison.OrdinalIgnoreCase);
        return run;
    }

    private static string Chain(string file, string name) => $$"""
        { "chain": 1, "song": { "title": "{{name}}", "code": "Song", "rate_hz": 48000 },
          "tracks": { "{{name}} t": "{{file}}" },
          "buses": { "{{name}} b": { "from": { "{{name}} t": -3 }, "through": [ { "gain": { "level_db": -1 } }, { "tape": {} } ] },
                     "sum": { "from": { "{{name}} t": 0, "{{name}} b": -3 } } },
          "prints": [ { "number": 1, "name": "A", "bus": "sum" } ] }
        """;

    // A second of clicks, 16 bits, mono.
    private static void Write(string path, int seed)
    {
        const int Frames = 48000;
        var bytes = new byte[44 + (2 * Frames)];
        "RIFF"u8.CopyTo(bytes);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(4), bytes.Length - 8);
        "WAVEfmt "u8.CopyTo(bytes.AsSpan(8));
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(16), 16);
        BinaryPrimitives.WriteInt16LittleEndian(bytes.AsSpan(20), 1);
        BinaryPrimitives.WriteInt16LittleEndian(bytes.AsSpan(22), 1);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(24), 48000);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(28), 96000);
        BinaryPrimitives.WriteInt16LittleEndian(bytes.AsSpan(32), 2);
        BinaryPrimitives.WriteInt16LittleEndian(bytes.AsSpan(34), 16);
        "data"u8.CopyTo(bytes.AsSpan(36));
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(40), 2 * Frames);
        for (var n = 0; n < Frames; n += 1000 * seed)
        {
            BinaryPrimitives.WriteInt16LittleEndian(bytes.AsSpan(44 + (2 * n)), (short)(2000 + (n / 100)));
        }

        File.WriteAllBytes(path, bytes);
    }
}
