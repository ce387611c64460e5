using System.Text;
using DrumPrint.Delivering;
using NAudio.Midi;

namespace DrumPrint.Tests.Delivering;

public sealed class TempoFilesTests : IDisposable
{
    private readonly DeliverySession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void The_midi_file_holds_metres_tempi_and_sections_at_their_bars()
    {
        var tempo = _session.Chain().Song.Tempo!;

        var events = Read(TempoFiles.Midi(tempo, "Test"));

        // 4/4 at 104 for two bars (2 × 4 × 960 ticks), 2/4 for one, 6/8 at 91.5 for three. 500 000 µs at 120 BPM is the format's
        // own example of a tempo.
        Assert.Equal(
            [
                (0L, "name Test"), (0, "metre 4/4"), (0, "tempo 576923"), (7680, "metre 2/4"), (7680, "tempo 576923"), (7680, "marker door"),
                (9600, "metre 6/8"), (9600, "tempo 655738"), (18240, "end"),
            ],
            events.OrderBy(e => e.Tick).ThenBy(e => Order(e.What)));
    }

    [Fact]
    public void A_library_reads_the_midi_file_strictly()
    {
        using var stream = new MemoryStream(TempoFiles.Midi(_session.Chain().Song.Tempo!, "Test"));

        var file = new MidiFile(stream, strictChecking: true);

        Assert.Equal((1, 960), (file.Tracks, file.DeltaTicksPerQuarterNote));
    }

    [Fact]
    public void Bars_counted_from_the_midi_file_are_the_frames_of_the_text()
    {
        var chain = _session.Chain();
        var events = Read(TempoFiles.Midi(chain.Song.Tempo!, "Test"));
        var frames = TempoFiles.Text(chain.Song.Tempo!, chain.Song).Split('\n').Where(l => l.Length > 0 && l[0] != '#').Select(l => l.Split('\t')).ToDictionary(c => c[0], c => long.Parse(c[4], System.Globalization.CultureInfo.InvariantCulture));

        Assert.Equal([0, 110769, 221538, 276923], new[] { "1", "2", "3", "4" }.Select(b => frames[b]));

        // The format's whole microseconds may be off by half of one in each quarter note.
        Assert.Equal(frames["4"], Frame(9600), 2.0);
        Assert.Equal(frames["end"], Frame(18240), 2.0);

        double Frame(long tick)
        {
            var (seconds, at, perQuarter) = (0.0, 0L, 0.0);
            foreach (var (next, what) in events.Where(e => e.What.StartsWith("tempo", StringComparison.Ordinal) && e.Tick < tick).Append((tick, "tempo 0")))
            {
                seconds += (next - at) / 960.0 * perQuarter;
                (at, perQuarter) = (next, int.Parse(what[6..], System.Globalization.CultureInfo.InvariantCulture) / 1e6);
            }

            return seconds * 48000;
        }
    }

    private static int Order(string what) => what[0] switch { 'n' => 0, 'm' when what.StartsWith("metre", StringComparison.Ordinal) => 1, 't' => 2, _ => 3 };

    // A reader of our own, straight from the format: Standard MIDI Files 1.0 (RP-001), chunks, variable-length quantities, meta events.
    private static List<(long Tick, string What)> Read(byte[] bytes)
    {
        Assert.Equal("MThd", Encoding.ASCII.GetString(bytes, 0, 4));
        Assert.Equal(6u, Number(4, 4));
        Assert.Equal((0u, 1u, 960u), (Number(8, 2), Number(10, 2), Number(12, 2)));
        Assert.Equal("MTrk", Encoding.ASCII.GetString(bytes, 14, 4));
        Assert.Equal(bytes.Length, 22 + (int)Number(18, 4));
        var events = new List<(long, string)>();
        var tick = 0L;
        for (var at = 22; at < bytes.Length;)
        {
            tick += Quantity(ref at);
            Assert.Equal(0xFF, bytes[at++]);
            var type = bytes[at++];
            var length = (int)Quantity(ref at);
            var text = Encoding.ASCII.GetString(bytes, at, length);
            events.Add((tick, type switch
            {
                0x03 => $"name {text}",
                0x06 => $"marker {text}",
                0x2F => "end",
                0x51 => $"tempo {Number(at, 3)}",
                0x58 => $"metre {bytes[at]}/{1 << bytes[at + 1]}",
                _ => $"meta {type:X2}",
            }));
            at += length;
        }

        return events;

        uint Number(int at, int count) => bytes.AsSpan(at, count).ToArray().Aggregate(0u, (n, b) => (n << 8) | b);

        long Quantity(ref int at)
        {
            var value = 0L;
            byte b;
            do
            {
                b = bytes[at++];
                value = (value << 7) | (uint)(b & 0x7F);
            }
            while ((b & 0x80) != 0);

            return value;
        }
    }
}
