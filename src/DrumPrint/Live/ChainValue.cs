using DrumPrint.Chains.Format;
using DrumPrint.Chains.Writing;

namespace DrumPrint.Live;

/// <summary>One value of a chain's text as it is to be.</summary>
/// <param name="Place">The way to the entry that holds it, key by key; an item of a list by its number from 0.</param>
/// <param name="Key">The key.</param>
/// <param name="Json">The value as JSON; null takes the key out.</param>
public sealed record ChainValue(IReadOnlyList<string> Place, string Key, string? Json)
{
    /// <summary>The text with this in it.</summary>
    /// <exception cref="UsageException">There is no such place.</exception>
    public byte[] In(byte[] utf8)
    {
        try
        {
            return Json is null ? ChainEdit.Remove(utf8, Place, Key) : ChainEdit.Set(utf8, Place, Shorthand, Key, Json);
        }
        catch (ArgumentException)
        {
            throw new UsageException($"There is no {string.Join('.', Place)} in the chain any more.");
        }
    }

    // What a value alone is short for, where the chain allows that.
    private string Shorthand => Place switch
    {
        [var first, _] when first == ChainKeys.Tracks.Key => TrackKeys.File.Key,
        [_, _, var third, _] when third == BusKeys.From.Key => FeedKeys.Level.Key,
        _ => "",
    };
}
