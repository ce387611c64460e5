using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tests.Chains;

/// <summary>A sound chain out of a seed: everything a chain can say turns up sooner or later.</summary>
internal sealed class RandomChain(int seed)
{
    private readonly Random _random = new(seed);

    public Chain Next()
    {
        var tempo = Chance() ? TempoReader.Read(Fixtures.Chain("raw/tempo.json"), "raw/tempo.json") : null;
        var tracks = Times(1, 5, i => new Track(Name("track", i), $"raw/{i:00}.wav", Number(-120, 60), Chance(), Delay(), Chance(), 0)
        {
            Channel = Pick<TrackChannel?>(null, new TrackChannel(_random.Next(1, 65536), null), new TrackChannel(0, "Snare & \"Top\"")),
            LatencyMs = Chance() ? Number(0, 1000) : 0,
        });
        var impulses = Times(0, 3, i => new ImpulseFile(
            Name("impulse", i), $"ir/{i}.wav", Pick<ImpulseLayout?>(null, ImpulseLayout.Mono, ImpulseLayout.Stereo, ImpulseLayout.TrueStereo), 0));
        var sources = tracks.Select(t => t.Name).ToList();
        var buses = new List<Bus>();
        for (var i = 0; i < _random.Next(1, 6); i++)
        {
            // A bus takes in and listens to what stands before it, so no circle can come about.
            var feeds = sources.Where((_, s) => s == 0 || Chance()).OrderBy(_ => _random.Next()).Select(s => Feed(s, tempo)).ToList();
            buses.Add(new Bus(Name("bus", i), feeds, Stages(sources, impulses), Pick<int?>(null, 1, 2), 0)
            {
                OffFeeds = Times(0, 1, _ => new TurnedOff<Feed>(Feed(sources.FirstOrDefault(s => feeds.All(f => f.Source != s)) ?? "", tempo), _random.Next(feeds.Count + 1))).FindAll(f => f.What.Source.Length > 0),
                OffStages = [.. Stages(sources, impulses).Take(1).Select(s => new TurnedOff<Stage>(s, 0))],
            });
            sources.Add(buses[^1].Name);
        }

        var prints = Times(1, 6, i => new Print(i + 1, $"Print-{i}", Pick([.. buses]).Name, Number(-120, 60), Chance(), 0));
        var song = new Song("Ähre & \"Ferry\"", "Ferry", _random.Next(1, 999), _random.Next(8000, 384000), tempo, Number(-6, 0), Number(-20, 50));
        return new Chain(Fixtures.Chain("song.chain.json"), song, tracks, impulses, buses, prints, Stages(sources, impulses), Output(tempo));
    }

    private OutputSettings Output(TempoMap? tempo) => new()
    {
        Encoding = Pick(SampleEncoding.Pcm16, SampleEncoding.Pcm24, SampleEncoding.Float32),
        Dither = Pick<bool?>(null, true, false),
        TailS = Chance() ? Number(0, 600) : null,
        TailCapS = Number(0, 600),
        LowerTogether = Chance(),
        Rough = Chance() ? new RoughPrint(80, "Before", 0) : null,
        RoughWithBus = Chance() ? new RoughPrint(81, "After", Number(-120, 60)) : null,
        Click = tempo is not null && Chance() ? new RoughPrint(82, "Beat", Number(-60, 0)) : null,
    };

    private Feed Feed(string source, TempoMap? tempo) => new(
        source, Number(-120, 60), Chance() ? Number(-100, 100) : null, Chance(), Delay(), Times(0, 2, _ => tempo is not null && Chance()
            ? new Ride(_random.Next(17, 20), _random.Next(20, 27), true, Number(-120, 60), Number(0, 60000))
            : new Ride(Number(0, 10), Number(11, 20), false, Number(-120, 60), Number(0, 60000))), 0);

    private PathDelay Delay() => _random.Next(4) switch
    {
        0 => new PathDelay(Number(0.001, 1000), Unit.Milliseconds, Chance()),
        1 => new PathDelay(_random.Next(1, 384000), Unit.Frames),
        2 => new PathDelay(Number(0.001, 300), Unit.Metres),
        _ => DrumPrint.Chains.PathDelay.None,
    };

    private List<Stage> Stages(IReadOnlyList<string> sources, IReadOnlyList<ImpulseFile> impulses) => Times(0, 4, _ =>
    {
        var usable = TestCatalogue.All.Where(d => impulses.Count > 0 || !d.Parameters.OfType<ImpulseParameter>().Any()).ToArray();
        var definition = Pick(usable);
        return new Stage(definition, Settings(definition.Parameters, impulses), definition.TakesKey && (definition.NeedsKey || Chance()) ? Pick([.. sources]) : null, 0);
    });

    private Settings Settings(IReadOnlyList<Parameter> parameters, IReadOnlyList<ImpulseFile> impulses) => Dsp.Parameters.Settings.Of(
        parameters, [.. parameters.Where(p => p.IsRequired || Chance()).Select(p => (p, Value(p, impulses)))]);

    private object Value(Parameter parameter, IReadOnlyList<ImpulseFile> impulses) => parameter switch
    {
        NumberParameter { Goals: { Count: > 0 } goals } number when Chance() && Chance() => Goal(number, Pick([.. goals])),
        NumberParameter { Steps: { } steps } => Pick([.. steps]),
        NumberParameter number => Number(number.Minimum, number.Maximum),
        ChoiceParameter choice => Pick([.. choice.Choices]).Word,
        ToggleParameter => Chance(),
        ImpulseParameter => Pick([.. impulses]).Name,
        ListParameter list => Times<Item>(0, 4, _ =>
        {
            var kind = Pick([.. list.Kinds]);
            return new Item(kind, Settings(kind.Parameters, impulses));
        }),
        _ => throw new NotSupportedException(parameter.Key),
    };

    private Sought Goal(NumberParameter number, Goal goal) => new(
        goal,
        DrumPrint.Dsp.Parameters.Settings.Of(goal.Parameters, goal.Parameters.Where(p => p is not ToggleParameter).Select(p => (p, Value(p, [])))),
        Chance() ? Number(number.Minimum, number.Maximum) : null);

    // Round numbers, as people write them, and others with every digit there is.
    private double Number(double least, double most)
    {
        var number = least + (_random.NextDouble() * (most - least));
        return Chance() ? number : Math.Clamp(Math.Round(number, _random.Next(4)), least, most) + 0.0;
    }

    private string Name(string word, int i) => Pick($"{word} {i}", $"{word}.{i}", $"{word}[{i}]", $"{word}-ü{i}", $"{word}\"{i}");

    private bool Chance() => _random.Next(2) == 0;

    private T Pick<T>(params T[] all) => all[_random.Next(all.Length)];

    private List<T> Times<T>(int least, int most, Func<int, T> make) => [.. Enumerable.Range(0, _random.Next(least, most + 1)).Select(make)];
}
