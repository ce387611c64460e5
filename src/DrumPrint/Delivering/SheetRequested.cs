using DrumPrint.Delivering.Sheet;
using DrumPrint.Language;

namespace DrumPrint.Delivering;

/// <summary>The pieces of a sheet that tell of what lies in a delivery only on request, and of what may be asked for.</summary>
internal static class SheetRequested
{
    public static IReadOnlyList<SheetBlock> Of(SheetFacts facts) => [.. Dry(facts), .. Sources(facts), .. Open(facts)];

    private static IEnumerable<SheetBlock> Dry(SheetFacts facts)
    {
        var dry = facts.Manifest.Of(DeliveredKind.Dry);
        if (dry.Count == 0)
        {
            yield break;
        }

        yield return new HeadingBlock("Dry twins, not in the unity sum");
        yield return new TextBlock("Each is made of the same microphones as the print of its number, at the same levels, pans, rides, polarity and delays, without any processor. A print that has none went through no processor itself.");
        yield return SheetWords.Table(
            [new("File", 5), new("Peak dBFS", 1.5, true), new("LUFS", 1.5, true), new("Lowered by dB, to stay below 0 dBFS", 3, true)],
            [
                .. dry.Select(f => (IReadOnlyList<string>)
                [
                    f.Name,
                    SheetWords.Level(facts.Sounds[f.Name].SamplePeakDbfs),
                    SheetWords.Level(facts.Sounds[f.Name].IntegratedLufs),
                    facts.Lowered.TryGetValue(f.Number!.Value, out var down) ? Words.Number(down) : "",
                ]),
            ]);
    }

    private static IEnumerable<SheetBlock> Sources(SheetFacts facts)
    {
        var raw = facts.Manifest.Of(DeliveredKind.Raw);
        if (raw.Count > 0)
        {
            yield return new HeadingBlock("Raw tracks");
            yield return new TextBlock("To the byte as they were recorded, proved by the ticket. They have lengths of their own and are not moved: delays and polarity above are not in them.");
            yield return SheetWords.Table(
                [new("File", 5), new("Microphone", 3), new("Form", 4)],
                [.. raw.Select(f => (IReadOnlyList<string>)[f.Name, f.Called!, Form(facts, f)])]);
        }

        var impulses = facts.Manifest.Of(DeliveredKind.Impulse);
        if (impulses.Count > 0)
        {
            yield return new HeadingBlock("Impulses");
            yield return new TextBlock("Impulse responses whose licence permits it. How each is normalised and set stands in the recipe, under its processor.");
            yield return SheetWords.Table(
                [new("File", 5), new("In the chain", 3), new("Licence", 4)],
                [.. impulses.Select(f => (IReadOnlyList<string>)[f.Name, f.Called!, facts.Chain.Impulses.First(i => i.Name == f.Called).Licence ?? "may be passed on"])]);
        }
    }

    private static IEnumerable<SheetBlock> Open(SheetFacts facts)
    {
        var items = new List<string>();
        if (facts.Manifest.First(DeliveredKind.Dry) is null && DryTwins.Of(facts.Chain) is { Count: > 0 } twins)
        {
            items.Add($"Dry twins of {string.Join(", ", twins.Select(p => SheetWords.Text(p.Number, "00")))}: the same without any processing.");
        }

        if (facts.Manifest.First(DeliveredKind.Raw) is null)
        {
            items.Add("The raw tracks of the microphones below.");
        }

        if (items.Count > 0)
        {
            yield return new HeadingBlock("On request");
            yield return new ListBlock(items);
        }
    }

    private static string Form(SheetFacts facts, DeliveredFile file) =>
        facts.Ticket.Tracks.FirstOrDefault(t => t.AudioSha256 == file.SourceSha256) is { } input
            ? $"{SheetWords.Text(input.RateHz)} Hz, {SheetBuilder.EncodingWord(input.Encoding)}, {Words.Count(input.Channels, "channel")}, {input.Frames.ToString(System.Globalization.CultureInfo.InvariantCulture)} frames"
            : "not heard in these prints";
}
