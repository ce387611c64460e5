using DrumPrint.Chains.Format;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>Sees to it that a wish names what the chain has. Wishes of earlier versions may name what has since gone.</summary>
internal sealed class WishChecks(ProblemList problems, Values chain)
{
    private const string DrumBus = "drum bus";

    public void Run()
    {
        if (chain.Group(ChainKeys.Song)?.Number(SongKeys.Version) is not { } version || chain.Group(ChainKeys.Delivery) is not { } delivery)
        {
            return;
        }

        string[] names =
        [
            .. chain.Entries(ChainKeys.Tracks).Concat(chain.Entries(ChainKeys.Buses)).Concat(chain.Entries(ChainKeys.Impulses)).Select(v => v.Name),
            .. chain.Entries(ChainKeys.Prints).Select(p => p.Text(PrintKeys.Name)).OfType<string>(),
            DrumBus,
        ];
        foreach (var wish in delivery.Entries(DeliveryKeys.Wishes))
        {
            if (wish.Number(WishKeys.Version) > version)
            {
                problems.Add(wish.At(WishKeys.Version), wish.PlaceOf(WishKeys.Version), $"the wish is answered by version {Show.Number(wish.Number(WishKeys.Version)!.Value)}, but the song is version {Show.Number(version)}. Raise \"version\" in \"song\", or lower this one.");
            }

            foreach (var name in wish.Texts(WishKeys.About).Where(n => wish.Number(WishKeys.Version) == version && !names.Contains(n)))
            {
                problems.Add(wish.At(WishKeys.About), wish.PlaceOf(WishKeys.About), $"there is no track, bus, impulse or print called '{Show.Name(name)}'.{(Nearest.Word(name, names) is { } word ? Wording.DidYouMean(word) : " A wish that changed nothing takes an answer instead.")}");
            }
        }
    }
}
