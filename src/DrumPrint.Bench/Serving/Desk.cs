using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using DrumPrint.Bench.Messages;
using DrumPrint.Chains;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Files;
using DrumPrint.Live;

namespace DrumPrint.Bench.Serving;

/// <summary>Does what the page asks for, one thing after the other, on a thread of its own.</summary>
internal sealed partial class Desk : IDisposable
{
    private const double MatchSeconds = 6;

    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(300);
    private static readonly TimeSpan Rest = TimeSpan.FromMilliseconds(500);
    private static readonly TimeSpan Quiet = TimeSpan.FromSeconds(2);

    private readonly ChainDesk _file;
    private readonly ReadPolicy _reading;
    private readonly WorkQueue _work = new();
    private readonly Queue<Asked> _trials = new();
    private readonly Lock _preparing = new();
    private readonly StateBuilder _builder = new();
    private readonly List<(int Number, string Name, Chain Chain)> _kept = [];
    private readonly CancellationTokenSource _end = new();
    private readonly Thread _thread;
    private readonly Outliner _outliner;
    private readonly BackgroundJob _print;
    private readonly BackgroundJob _look;
    private CancellationTokenSource _matching = new();
    private OutlineMessage? _outline;
    private Chain? _outlined;
    private IReadOnlyList<string> _mistakes = [];
    private bool _isMatched;
    private TakeLook? _found;
    private int? _heard;
    private int _keptBefore;

    public Desk(string path, ReadPolicy reading)
    {
        _reading = reading;
        _file = new ChainDesk(path, reading);
        TrimDb = LastTrim.Of(_file.Chain);
        Engine = new LiveEngine(_file.Chain, TrimDb, reading);
        Partner = new SilentPartner(Engine.RateHz, Engine.BlockFrames, reading) { Changed = () => Later(TellPartner) };
        Sound = new Sound(Engine, Partner)
        {
            Broken = text => Send(new WordMessage(0, text, "broken"), BenchJson.Default.WordMessage),
            Metered = (before, after) => Send(new MetersMessage(MeterState.Of(before), after is null ? null : MeterState.Of(after)), BenchJson.Default.MetersMessage),
        };
        _outliner = new Outliner(reading, TrimDb, () => Sound.IsPlaying, () => Engine.IsAsked || Engine.IsShort(), TellDrawing, (chain, message) => Later(() => TakeOutline(chain, message)));
        _print = new BackgroundJob("print", Guarded, message => Send(message, BenchJson.Default.ProgressMessage));
        _look = new BackgroundJob("look", Guarded, message => Send(message, BenchJson.Default.ProgressMessage));
        _thread = new Thread(Run, 64 << 20) { IsBackground = true, Name = "bench" };
    }

    public LiveEngine Engine { get; }

    public Sound Sound { get; }

    public SilentPartner Partner { get; }

    public double TrimDb { get; }

    /// <summary>Sends a text to the page; nobody may be there.</summary>
    public Action<byte[]> Tell { get; set; } = _ => { };

    /// <summary>Told when the page ends the bench.</summary>
    public Action Ended { get; set; } = () => { };

    /// <summary>Begins to work, and warms everything up: code that has run once answers sooner.</summary>
    public void Start()
    {
        Warm();
        _thread.Start();
        Outline(TimeSpan.Zero);
        Partner.Follow(_file.Chain, Engine.Frames);
        _ = Watch();
    }

    /// <summary>Gives the page all it shows.</summary>
    public void Greet() => Later(() =>
    {
        EndBlind(null);
        TellState();
        if (_outline is not null)
        {
            Send(_outline, BenchJson.Default.OutlineMessage);
        }

        TellPartner();
        TellFound();
    });

    /// <summary>Takes a message of the page.</summary>
    public void Take(ReadOnlySpan<byte> json)
    {
        Asked? asked;
        try
        {
            asked = JsonSerializer.Deserialize(json, BenchJson.Default.Asked);
        }
        catch (JsonException)
        {
            return;
        }

        if (asked is null)
        {
            return;
        }

        // Of values that are tried while a hand moves only the last counts.
        if (asked.Kind == "try")
        {
            lock (_trials)
            {
                _trials.Enqueue(asked);
            }

            Later(() =>
            {
                Asked last;
                lock (_trials)
                {
                    if (_trials.Count == 0)
                    {
                        return;
                    }

                    last = _trials.Last();
                    _trials.Clear();
                }

                Answer(last);
            });
            return;
        }

        Later(() => Answer(asked));
    }

    public void Dispose()
    {
        _end.Cancel();
        _print.Stop();
        _look.Stop();
        _work.Close();
        if (_thread.IsAlive)
        {
            _thread.Join(TimeSpan.FromSeconds(10));
        }

        // What the thread had begun may still ask for these.
        _outliner.Dispose();
        _matching.Dispose();
        Partner.Dispose();
    }

    private void Later(Action action) => _work.Add(action);

    private void Run()
    {
        while (_work.Next(out var action))
        {
            Guarded(0, action);
        }
    }

    private void Hear(Chain chain, double? gain = null)
    {
        EndBlind("The chain was changed, so the run ended; nothing of it was kept.");
        Engine.Change(chain, gain);
    }

    private async Task Watch()
    {
        try
        {
            while (true)
            {
                await Task.Delay(Look, _end.Token).ConfigureAwait(false);
                Later(LookAtFile);
                PrepareAgain();
            }
        }
        catch (OperationCanceledException)
        {
            return;
        }
    }

    // Where it cannot be read, what plays says so when it comes there.
    private void PrepareAgain()
    {
        if (!_preparing.TryEnter())
        {
            return;
        }

        try
        {
            Engine.PrepareAgain();
        }
        catch (Exception e) when (e is DrumPrintException or SettingsException or IOException or UnauthorizedAccessException)
        {
            return;
        }
        finally
        {
            _preparing.Exit();
        }
    }

    private void LookAtFile()
    {
        var before = _file.Chain;
        var change = _file.Look();
        if (change is not null)
        {
            // What is heard is the file again.
            (_heard, _isMatched) = (null, false);
            Engine.Match(1);
            KeepBefore(before, () => change, 0, "outside", null, 0);
        }
        else if (!_file.Mistakes.SequenceEqual(_mistakes))
        {
            TellState();
        }

        _mistakes = _file.Mistakes;
        Partner.Follow(_file.Chain, Engine.Frames);
    }

    private void Warm()
    {
        var start = Engine.Chain;
        var trimmed = start with { Prints = [.. start.Prints.Select(p => p with { LevelDb = p.LevelDb - 0.1 })] };
        var block = new float[2 * Engine.BlockFrames];
        List<float> peaks = [];
        foreach (var second in new[] { Engine.Frames / Engine.RateHz / 2, 0L })
        {
            Engine.Seek(second * Engine.RateHz);
            foreach (var chain in new[] { trimmed, start })
            {
                for (var n = 0; n < 50; n++)
                {
                    Engine.Next(block, peaks);
                }

                Engine.Change(chain);
            }
        }

        Engine.Seek(0);
    }

    private void TellState()
    {
        var chain = _heard is null ? _file.Chain : _kept.First(k => k.Number == _heard).Chain;
        List<KeptState> kept = [.. _kept.Select(k => new KeptState(k.Number, k.Name))];
        Send(_builder.State(_file, Engine, chain) with { Kept = kept, Heard = _heard, TrimDb = TrimDb }, BenchJson.Default.StateMessage);
    }
}
