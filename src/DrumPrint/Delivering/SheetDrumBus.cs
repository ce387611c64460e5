using DrumPrint.Chains;
using DrumPrint.Delivering.Sheet;
using DrumPrint.Language;
using DrumPrint.Session;

namespace DrumPrint.Delivering;

/// <summary>The pieces of a sheet by which a mixer can make the drum bus again.</summary>
internal sealed class SheetDrumBus
{
    private readonly SheetFacts _facts;
    private readonly DeliveryManifest _manifest;
    private readonly Chain _chain;
    private readonly List<SheetBlock> _blocks = [];

    private SheetDrumBus(SheetFacts facts)
    {
        _facts = facts;
        _manifest = facts.Manifest;
        _chain = facts.Chain;
    }

    public static IReadOnlyList<SheetBlock> Of(SheetFacts facts)
    {
        var bus = new SheetDrumBus(facts);
        bus.DrumBus();
        return bus._blocks;
    }

    private void DrumBus()
    {
        if (_chain.DrumBus.Count == 0)
        {
            return;
        }

        _blocks.Add(new HeadingBlock("The drum bus"));
        if (_chain.DrumBusNotes is { } notes)
        {
            _blocks.Add(new TextBlock(notes));
        }

        _blocks.Add(new TextBlock("It is in no playing file; only the second rough goes through it. In this order, every value:"));
        _blocks.Add(new ListBlock([.. _chain.DrumBus.Select(StageWords.Of)], IsNumbered: true));
        if (_facts.Ticket.Prints.FirstOrDefault(p => p.Kind == PrintKind.RoughWithBus) is { GainReductions.Count: > 0 } withBus)
        {
            _blocks.Add(new TextBlock($"What it did to this song: {SheetWords.Reductions([.. withBus.GainReductions.Where(r => r.Bus is null)])}."));
        }

        if (_manifest.First(DeliveredKind.Rough) is { } rough && _manifest.First(DeliveredKind.RoughWithBus) is { } bus
            && _facts.Sounds[rough.Name].IntegratedLufs is { } before && _facts.Sounds[bus.Name].IntegratedLufs is { } after)
        {
            _blocks.Add(new TextBlock($"Loudness in and out: {Words.Number(before)} and {Words.Number(after)} LUFS, {Words.Signed(after - before)} LU."));
        }

        if (!DrumBusCurves.CanMeasure(_chain.DrumBus))
        {
            _blocks.Add(new TextBlock("It listens to another track or folds with an impulse, so it is not drawn."));
            return;
        }

        Curves();
    }

    private void Curves()
    {
        var response = DrumBusCurves.Response(_chain.DrumBus, _chain.Song.RateHz);
        var (low, high) = (Math.Floor((response.Min(p => p.Db) - 1) / 3) * 3, Math.Ceiling((response.Max(p => p.Db) + 1) / 3) * 3);
        low = Math.Max(low, high - 60);
        var step = high - low > 30 ? 12 : high - low > 12 ? 6 : 3;
        _blocks.Add(new CurveBlock(
            "Level against frequency, measured through the bus with an impulse of −60 dBFS, too soft to be turned down",
            new SheetAxis("Hz", response[0].Hz, response[^1].Hz, [.. new[] { 20.0, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000 }.Where(f => f <= response[^1].Hz * 1.0001 && f >= response[0].Hz * 0.9999).Select(f => (f, f >= 1000 ? $"{f / 1000:0}k" : $"{f:0}"))], true),
            new SheetAxis("dB", low, high, Marks(low, high, step)),
            response,
            null));
        var curve = DrumBusCurves.Static(_chain.DrumBus, _chain.Song.RateHz);
        _blocks.Add(new CurveBlock(
            "Level out against level in, measured through the bus with a steady 1 kHz tone; the thin line is no change",
            new SheetAxis("dBFS in", -60, 0, Marks(-60, 0, 12)),
            new SheetAxis("dBFS out", -60, 12, Marks(-60, 12, 12)),
            curve,
            [(-60, -60), (0, 0)]));
    }

    private static List<(double, string)> Marks(double from, double to, double step)
    {
        var marks = new List<(double, string)>();
        for (var at = Math.Ceiling(from / step) * step; at <= to; at += step)
        {
            marks.Add((at, Words.Number(at, 0)));
        }

        return marks;
    }
}
