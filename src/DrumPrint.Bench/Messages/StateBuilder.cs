using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Live;

namespace DrumPrint.Bench.Messages;

/// <summary>Turns a chain into what the page shows. Every setting comes from its declaration.</summary>
internal sealed class StateBuilder
{
    private readonly Dictionary<string, IReadOnlyList<double>?> _responses = new(StringComparer.Ordinal);

    /// <summary>All that the page shows of a chain; what was kept beside it is added by whoever knows.</summary>
    public StateMessage State(ChainDesk file, LiveEngine engine, Chain chain) => new()
    {
        Title = chain.Song.Title,
        File = Path.GetFileName(file.Path),
        RateHz = engine.RateHz,
        BlockFrames = engine.BlockFrames,
        Frames = engine.Frames,
        Bars = Bars(chain, (double)engine.Frames / engine.RateHz),
        Sections = Sections(chain),
        Tracks = [.. chain.Tracks.Select(t => t.Name)],
        Buses = Buses(chain),
        Prints = Prints(chain),
        DrumBus = DrumBus(chain),
        Mistakes = file.Mistakes,
        Forgetting = engine.Forgetting,
        History = file.History,
        NextUndo = file.NextUndo,
        NextRedo = file.NextRedo,
        MayWrite = file.MayWrite,
        CopyPath = Path.GetFileName(file.CopyPath),
        WithBus = engine.IsWithBus,
        Frequencies = StageResponse.Frequencies,
        BandFrequencies = BandLevels.Frequencies,
    };

    public IReadOnlyList<BusState> Buses(Chain chain) => [.. chain.Buses.Select(b => Bus(chain, b))];

    public IReadOnlyList<StageState> DrumBus(Chain chain) => Stages(["drum_bus", "through"], chain.DrumBus, chain.OffDrumBus, chain.Song.RateHz);

    /// <summary>What the equaliser at a place does to each frequency; null for anything else.</summary>
    public IReadOnlyList<double>? ResponseAt(Chain chain, IReadOnlyList<string> place)
    {
        var stages = place is ["buses", var name, ..] ? chain.Buses.Where(b => b.Name == name).SelectMany(b => Bus(chain, b).Stages) : DrumBus(chain);
        return stages.FirstOrDefault(s => s.Place.SequenceEqual(place.Take(s.Place.Count)))?.Response;
    }

    /// <summary>Prints by number; each knows where it stands in the file. One of a recipe stands in no list of it and goes by its number.</summary>
    public static IReadOnlyList<PrintState> Prints(Chain chain)
    {
        var order = chain.Prints.Where(p => !IsOfRecipe(p)).OrderBy(p => p.Line).ThenBy(p => p.Number).ToList();
        return [.. chain.Prints.Select(p => new PrintState(p.Number, p.Name, p.Bus, p.IsOptional, ["prints", IsOfRecipe(p) ? ChainDesk.RecipePrint + Text(p.Number) : Text(order.IndexOf(p))], Number(PrintKeys.Level, p.LevelDb)))];

        bool IsOfRecipe(Print print) => chain.Uses?.Holds("prints." + Text(print.Number)) == true;
    }

    public static IReadOnlyList<BarState> Bars(Chain chain, double seconds)
    {
        if (chain.Song.Tempo is not { IsMissing: false } tempo)
        {
            return [];
        }

        return [.. Enumerable.Range(tempo.FirstBar, tempo.LastBar - tempo.FirstBar + 1)
            .Select(b => new BarState(b, tempo.SecondsAtBar(b), tempo.StretchAt(b).Beats))
            .Where(b => b.AtS < seconds)];
    }

    public static IReadOnlyList<SectionState> Sections(Chain chain) =>
        chain.Song.Tempo is { IsMissing: false } tempo ? [.. tempo.Sections.Select(s => new SectionState(tempo.SecondsAtBar(s.FromBar), s.Name))] : [];

    private BusState Bus(Chain chain, Bus bus)
    {
        var feeds = Woven(bus.Feeds, bus.OffFeeds).Select(f => Feed(bus, f.What, f.IsOff));
        return new BusState(bus.Name, [.. feeds], Stages(["buses", bus.Name, "through"], bus.Stages, bus.OffStages, chain.Song.RateHz));
    }

    private static FeedState Feed(Bus bus, Feed feed, bool isOff)
    {
        List<string> also = [];
        if (feed.IsInverted)
        {
            also.Add("polarity inverted");
        }

        if (feed.Delay.Amount > 0)
        {
            also.Add(string.Create(CultureInfo.InvariantCulture, $"delayed {feed.Delay.Amount:0.###} {feed.Delay.Unit.Symbol()}"));
        }

        also.AddRange(feed.Rides.Select(r => string.Create(CultureInfo.InvariantCulture, $"rides {r.Db:+0.#;−0.#} dB from {(r.InBars ? "bar " : "")}{r.From:0.##}{(r.InBars ? "" : " s")} to {r.To:0.##}")));
        return new FeedState(feed.Source, isOff, ["buses", bus.Name, "from", feed.Source], [Number(FeedKeys.Level, feed.LevelDb), Number(FeedKeys.Pan, feed.PanPct), Toggle(FeedKeys.Off, isOff)], also.Count == 0 ? null : string.Join(", ", also));
    }

    private List<StageState> Stages(IReadOnlyList<string> place, IReadOnlyList<Stage> heard, IReadOnlyList<TurnedOff<Stage>> off, int rateHz) =>
        [.. Woven(heard, off).Select((s, i) => Stage([.. place, Text(i), s.What.Definition.Key], s.What, s.IsOff, rateHz))];

    private StageState Stage(IReadOnlyList<string> place, Stage stage, bool isOff, int rateHz)
    {
        var bands = Bands(place, stage.Definition.Parameters, stage.Settings).ToList();
        return new StageState(stage.Definition.Key, stage.Definition.Summary, isOff, stage.Key, place, [.. Settings(stage.Definition.Parameters, stage.Settings), Toggle(StageKeys.Off, isOff)], bands, Response(stage, bands, rateHz));
    }

    // Items of lists, each followed by what stands inside it.
    private static IEnumerable<BandState> Bands(IReadOnlyList<string> place, IReadOnlyList<Parameter> parameters, Settings settings) =>
        from list in parameters.OfType<ListParameter>()
        from entry in settings[list].Select((item, i) => (Item: item, Place: (IReadOnlyList<string>)[.. place, list.Key, Text(i), item.Kind.Key]))
        from band in Bands(entry.Place, entry.Item.Kind.Parameters, entry.Item.Settings)
            .Prepend(new BandState(entry.Item.Kind.Key, entry.Item.Kind.Summary, entry.Place, Settings(entry.Item.Kind.Parameters, entry.Item.Settings)))
        select band;

    private IReadOnlyList<double>? Response(Stage stage, List<BandState> bands, int rateHz)
    {
        if (bands.Count == 0)
        {
            return null;
        }

        var key = string.Join('|', bands.Select(b => $"{b.Name} {string.Join(' ', b.Settings.Select(s => string.Create(CultureInfo.InvariantCulture, $"{s.Number}")))}"));
        if (!_responses.TryGetValue(key, out var response))
        {
            response = StageResponse.Of(stage, rateHz)?.Select(db => Math.Round(db, 2)).ToList();
            _responses[key] = response;
        }

        return response;
    }

    // What is off stands where the file has it.
    private static IEnumerable<(T What, bool IsOff)> Woven<T>(IReadOnlyList<T> heard, IReadOnlyList<TurnedOff<T>> off)
    {
        for (var i = 0; i <= heard.Count; i++)
        {
            foreach (var silent in off.Where(o => o.After == i))
            {
                yield return (silent.What, true);
            }

            if (i < heard.Count)
            {
                yield return (heard[i], false);
            }
        }
    }

    private static List<SettingState> Settings(IReadOnlyList<Parameter> parameters, Settings settings) =>
    [
        .. parameters.Select(parameter => parameter switch
        {
            NumberParameter number => Number(number, settings.Raw(number)),
            ToggleParameter toggle => Toggle(toggle, settings[toggle]),
            ChoiceParameter choice => new SettingState
            {
                Key = choice.Key,
                Help = choice.Help,
                Kind = "choice",
                Choices = [.. choice.Choices.Select(c => new ChoiceState(c.Word, c.Help))],
                Word = settings[choice],
                DefaultWord = choice.Default,
            },
            ImpulseParameter impulse => new SettingState { Key = impulse.Key, Help = impulse.Help, Kind = "impulse", Word = settings[impulse], IsRequired = true },
            _ => null,
        }).OfType<SettingState>(),
    ];

    private static SettingState Number(NumberParameter number, object? value) => new()
    {
        Key = number.Key,
        Help = number.Help,
        Kind = "number",
        Unit = number.Unit.Symbol(),
        UnitWord = number.Unit.Word(),
        Least = number.Minimum,
        Most = number.Maximum,
        Steps = number.Steps,
        IsWhole = number.IsWhole,
        Number = value is Sought sought ? sought.Found : (double?)value,
        DefaultNumber = number.Default,
        LeftOut = value is Sought { Goal: var goal } ? goal.Key : number.Default is null && !number.IsRequired ? number.LeftOut ?? "off" : null,
        IsRequired = number.IsRequired,
    };

    private static SettingState Toggle(ToggleParameter toggle, bool value) => new() { Key = toggle.Key, Help = toggle.Help, Kind = "toggle", IsOn = value, DefaultIsOn = toggle.Default };

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
