using System.Diagnostics;
using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Live;
using DrumPrint.Printing;

namespace DrumPrint.Benchmarks.WholeJob;

/// <summary>What changes of any setting cost while the song plays, without browser and server: the chain's text is changed as the page does it,
/// and blocks are taken in time with a clock, six of them ahead.</summary>
internal static class ChangesTable
{
    private const int Ahead = 6;
    private const int Bar = 60;

    public static int Run(string chainPath, int changes)
    {
        var desk = new ChainDesk(SessionFolder.Chain(chainPath));
        var engine = new LiveEngine(desk.Chain, 0);
        engine.Seek((long)(desk.Chain.Song.Tempo is { IsMissing: false } tempo ? tempo.SecondsAtBar(Bar) * engine.RateHz : engine.Frames / 2.0));
        var settings = Settings(desk.Chain).ToList();
        var chance = new Random(15);
        using var end = new CancellationTokenSource();
        var starved = 0;
        var player = new Thread(() => starved = Play(engine, end.Token)) { IsBackground = true, Priority = ThreadPriority.AboveNormal };
        player.Start();
        List<(string What, double Text, double Sound, double Processor)> times = [];
        while (times.Count < changes)
        {
            var (place, parameter, value) = settings[chance.Next(settings.Count)];
            var number = parameter.Steps is { Count: > 0 } steps ? steps[chance.Next(steps.Count)] : Math.Clamp((value * (0.8 + (chance.Next(40) / 100.0))) + (parameter.Unit.Symbol() == "dB" ? 1 : 0), parameter.Minimum, parameter.Maximum);
            var processor = Process.GetCurrentProcess().TotalProcessorTime;
            var start = Stopwatch.GetTimestamp();
            try
            {
                var chain = desk.Try([new ChainValue(place, parameter.Key, number.ToString("R", CultureInfo.InvariantCulture))]);
                var text = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
                engine.Change(chain);
                times.Add(($"{string.Join('/', place)}/{parameter.Key}", text, Stopwatch.GetElapsedTime(start).TotalMilliseconds - text, (Process.GetCurrentProcess().TotalProcessorTime - processor).TotalMilliseconds));
            }
            catch (ChainException)
            {
                // Settings that do not go together are refused, and another is tried.
            }

            Thread.Sleep(150 + chance.Next(200));
        }

        end.Cancel();
        player.Join();
        foreach (var time in times.OrderByDescending(t => t.Sound).Take(8))
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {time.What}: text {time.Text:0} ms, sound {time.Sound:0} ms, processor {time.Processor:0} ms"));
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{changes} changes: text {Part(times.Select(t => t.Text), 0.5):0} ms, sound {Part(times.Select(t => t.Sound), 0.5):0} ms, 95 % {Part(times.Select(t => t.Sound), 0.95):0} ms, processor {Part(times.Select(t => t.Processor), 0.5):0} and {Part(times.Select(t => t.Processor), 0.95):0} ms; blocks starved {starved}, memory {Environment.WorkingSet >> 20} MB"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"collections {GC.CollectionCount(0)}, {GC.CollectionCount(1)}, {GC.CollectionCount(2)}; they held everything up for {GC.GetTotalPauseDuration().TotalMilliseconds:0} ms"));
        return 0;
    }

    private static double Part(IEnumerable<double> values, double part)
    {
        List<double> sorted = [.. values.Order()];
        return sorted[Math.Min(sorted.Count - 1, (int)Math.Ceiling(part * sorted.Count) - 1)];
    }

    // A block is due each hundredth of a second; what is not there then is counted.
    private static int Play(LiveEngine engine, CancellationToken end)
    {
        var (block, peaks, starved, made) = (new float[2 * engine.BlockFrames], new List<float>(), 0, 0L);
        var start = Stopwatch.GetTimestamp();
        while (!end.IsCancellationRequested)
        {
            var due = (long)(Stopwatch.GetElapsedTime(start).TotalSeconds * LiveGraph.BlocksPerSecond);
            if (made >= due + Ahead)
            {
                Thread.Sleep(2);
                continue;
            }

            if (made < due)
            {
                starved += (int)(due - made);
                made = due;
            }

            if (engine.Next(block, peaks) < 0)
            {
                break;
            }

            made++;
        }

        return starved;
    }

    private static IEnumerable<(IReadOnlyList<string> Place, NumberParameter Parameter, double Value)> Settings(Chain chain) =>
        from bus in chain.Buses
        from setting in bus.Feeds.Select(f => ((IReadOnlyList<string>)["buses", bus.Name, "from", f.Source], Chains.Format.FeedKeys.Level, f.LevelDb))
            .Concat(bus.Stages.SelectMany((s, i) => Of(["buses", bus.Name, "through", i.ToString(CultureInfo.InvariantCulture), s.Definition.Key], s.Definition.Parameters, s.Settings)))
        select setting;

    private static IEnumerable<(IReadOnlyList<string> Place, NumberParameter Parameter, double Value)> Of(IReadOnlyList<string> place, IReadOnlyList<Parameter> parameters, Settings settings) =>
        parameters.OfType<NumberParameter>().Where(p => settings.Raw(p) is double).Select(p => (place, p, (double)settings.Raw(p)!))
            .Concat(from list in parameters.OfType<ListParameter>()
                    from entry in settings[list].Select((item, i) => (Item: item, Number: i))
                    from inner in Of([.. place, list.Key, entry.Number.ToString(CultureInfo.InvariantCulture), entry.Item.Kind.Key], entry.Item.Kind.Parameters, entry.Item.Settings)
                    select inner);
}
