using System.Net.WebSockets;
using System.Text;
using System.Text.Json;
using System.Threading.Channels;
using DrumPrint.Audio;
using DrumPrint.Bench.Serving;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;
using DrumPrint.Files;
using DrumPrint.Live;

namespace DrumPrint.Page.Tests;

/// <summary>The bench without a browser: what it tells and sends when things come together oddly.</summary>
public sealed class BenchDeskTests : IDisposable
{
    private const int Rate = 48000;
    private const int Room = 6;

    private readonly BenchSession _session = new();
    private readonly List<string> _told = [];

    public void Dispose() => _session.Dispose();

    [Fact]
    public void An_edit_outside_is_seen_also_while_what_is_repeated_cannot_be_read()
    {
        // A bad sample a little before the stretch.
        BreakAt("raw/low.wav", (6 * Rate) - 1000);
        using var desk = Open();
        desk.Take("""{ "kind": "repeat", "id": 1, "frame": 288000, "to": 336000 }"""u8);

        // Until it has been tried again.
        Thread.Sleep(2500);

        EditOutside();

        Assert.True(IsTold(text => text.Contains("\"outside\"", StringComparison.Ordinal)));
    }

    [Fact]
    public void An_edit_outside_while_a_kept_state_is_heard_is_heard_and_told_as_such()
    {
        using var desk = Open();
        desk.Take("""{ "kind": "keep", "id": 1 }"""u8);
        desk.Take("""{ "kind": "hear", "id": 2, "kept": 1 }"""u8);
        Assert.True(IsTold(text => text.Contains("\"heard\":1", StringComparison.Ordinal)));

        EditOutside();
        Assert.True(IsTold(text => text.Contains("\"outside\"", StringComparison.Ordinal)));
        Thread.Sleep(300);

        var ratio = desk.Engine.Chain.Buses.First(b => b.Name == "impact").Stages[^1].Settings[Compress.Ratio];
        string state;
        lock (_told)
        {
            state = _told.Last(text => text.StartsWith("{\"kind\":\"state\"", StringComparison.Ordinal));
        }

        using var json = JsonDocument.Parse(state);
        Assert.Equal(ratio == 10, json.RootElement.TryGetProperty("heard", out _));
    }

    // What was to be given again is not: the page has let go of it all.
    [Fact]
    public async Task A_stop_right_after_a_change_sends_the_page_no_more_than_it_has_room_for()
    {
        var chain = ChainReader.Read(_session.Chain);
        var engine = new LiveEngine(chain, 0);
        using var partner = new SilentPartner(engine.RateHz, engine.BlockFrames, ReadPolicy.Default);
        var sound = new Sound(engine, partner);
        using var page = new PageSocket();
        using var end = new CancellationTokenSource();
        var sending = sound.Send(page, end.Token);
        sound.Play(0, 1);
        page.Give(Room);
        await Task.Delay(300);
        var joined = engine.Joined;
        engine.Joined = back =>
        {
            sound.Stop();
            joined(back);
        };

        engine.Change(chain with { Prints = [.. chain.Prints.Select(p => p with { LevelDb = p.LevelDb - 1 })] });
        page.Give(Room);
        sound.Play(Rate, 2);
        await Task.Delay(300);
        await end.CancelAsync();
        await sending;

        Assert.Equal(Room, page.Blocks(1));
        Assert.Equal(Room, page.Blocks(2));
    }

    [Fact]
    public void A_fade_of_the_mix_goes_on_where_it_stood_when_blocks_are_given_again()
    {
        using var session = new BenchSession(hasPair: false, hasMix: true);
        session.Write("mix/song.wav", _ => 0.5);
        using var partner = new SilentPartner(Rate, Rate / 100, ReadPolicy.Default);
        partner.Follow(ChainReader.Read(session.Chain), 8 * Rate);
        Assert.True(SpinWait.SpinUntil(() => !partner.IsOpening, TimeSpan.FromSeconds(10)));
        partner.Fade(1);
        var heard = Enumerable.Range(0, 10).Select(n => Add(partner, n)).ToList();

        partner.GoBack(6 * Rate / 100);

        Assert.Equal(heard[5][^1], Add(partner, 6)[0], 0.01);
    }

    private static float[] Add(SilentPartner partner, int block)
    {
        var stereo = new float[2 * Rate / 100];
        partner.Add(block * Rate / 100, stereo);
        return stereo;
    }

    private Desk Open()
    {
        var desk = new Desk(_session.Chain, ReadPolicy.Default)
        {
            Tell = bytes =>
            {
                lock (_told)
                {
                    _told.Add(Encoding.UTF8.GetString(bytes));
                }
            },
        };
        desk.Start();
        return desk;
    }

    private bool IsTold(Predicate<string> isIt) => SpinWait.SpinUntil(
        () =>
        {
            Thread.Sleep(20);
            lock (_told)
            {
                return _told.Exists(isIt);
            }
        },
        TimeSpan.FromSeconds(5));

    private void EditOutside() => File.WriteAllText(_session.Chain, BenchSession.Original.Replace("\"ratio\": 10", "\"ratio\": 9", StringComparison.Ordinal));

    private void BreakAt(string file, int frame)
    {
        var path = Path.Combine(Path.GetDirectoryName(_session.Chain)!, file);
        double[][] channels = [[.. Enumerable.Repeat(0.1, 8 * Rate)]];
        using (var writer = WaveWriter.Create(path, new AudioFormat(Rate, 1), SampleEncoding.Float64, null, channels[0].Length))
        {
            writer.Write(new AudioBlock(channels, 0, channels[0].Length));
            writer.Finish(channels[0].Length);
            writer.Publish();
        }

        using var written = new FileStream(path, FileMode.Open, FileAccess.ReadWrite);
        written.Seek(-sizeof(double) * (channels[0].Length - frame), SeekOrigin.End);
        written.Write(BitConverter.GetBytes(double.NaN));
    }

    // A page that says how much room it has, and counts what it gets of each run.
    private sealed class PageSocket : WebSocket
    {
        private readonly Channel<byte> _room = Channel.CreateUnbounded<byte>();
        private readonly List<int> _runs = [];

        public override WebSocketCloseStatus? CloseStatus => null;

        public override string? CloseStatusDescription => null;

        public override WebSocketState State => WebSocketState.Open;

        public override string? SubProtocol => null;

        public void Give(byte blocks) => _room.Writer.TryWrite(blocks);

        public int Blocks(int run)
        {
            lock (_runs)
            {
                return _runs.Count(r => r == run);
            }
        }

        public override void Abort()
        {
        }

        public override Task CloseAsync(WebSocketCloseStatus closeStatus, string? statusDescription, CancellationToken cancellationToken) => Task.CompletedTask;

        public override Task CloseOutputAsync(WebSocketCloseStatus closeStatus, string? statusDescription, CancellationToken cancellationToken) => Task.CompletedTask;

        public override void Dispose()
        {
        }

        public override async Task<WebSocketReceiveResult> ReceiveAsync(ArraySegment<byte> buffer, CancellationToken cancellationToken)
        {
            var blocks = await _room.Reader.ReadAsync(cancellationToken);
            buffer.AsSpan()[0] = blocks;
            return new WebSocketReceiveResult(1, WebSocketMessageType.Binary, true);
        }

        public override Task SendAsync(ArraySegment<byte> buffer, WebSocketMessageType messageType, bool endOfMessage, CancellationToken cancellationToken)
        {
            lock (_runs)
            {
                _runs.Add(BitConverter.ToInt32(buffer.AsSpan()));
            }

            return Task.CompletedTask;
        }
    }
}
