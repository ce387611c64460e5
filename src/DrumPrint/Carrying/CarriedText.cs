using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using DrumPrint.Beginning;
using DrumPrint.Chains;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Writing;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Carrying;

/// <summary>The text of a chain as it is carried: the song and the files are other ones, all else stays, comments too.</summary>
/// <param name="utf8">The old text.</param>
/// <param name="chain">The old chain.</param>
internal sealed class CarriedText(byte[] utf8, Chain chain)
{
    private static readonly JsonDocumentOptions Lenient = new() { AllowTrailingCommas = true, CommentHandling = JsonCommentHandling.Skip };

    private readonly List<string> _leftBehind = [];
    private byte[] _text = utf8;

    /// <summary>The text as it is now.</summary>
    public byte[] Text => _text;

    /// <summary>What was the old song's own and is not in it any more, in sentences.</summary>
    public IReadOnlyList<string> LeftBehind => _leftBehind;

    /// <summary>Gives it another song.</summary>
    public void Song(string title, string code, int rateHz, string? tempo)
    {
        IReadOnlyList<string> song = [ChainKeys.Song.Key];
        Set(song, SongKeys.Title.Key, Quoted(title));
        Set(song, SongKeys.Code.Key, Quoted(code));
        if (rateHz != chain.Song.RateHz)
        {
            Set(song, SongKeys.Rate.Key, rateHz.ToString(CultureInfo.InvariantCulture));
            Frames((double)rateHz / chain.Song.RateHz);
        }

        Remove(song, SongKeys.Version.Key);
        Remove(song, SongKeys.FirstBar.Key);
        Drop(song, SongKeys.Notes.Key, "The notes of the song were left behind.");
        if (tempo is not null)
        {
            Set(song, SongKeys.Tempo.Key, Quoted(tempo));
            return;
        }

        Drop(song, SongKeys.Tempo.Key, "The tempo map was left behind, and there is none here: bars are not known.");
        Drop([ChainKeys.Output.Key], OutputKeys.Click.Key, "The click was left behind: it needs a tempo map.");
    }

    /// <summary>Gives a track another file.</summary>
    public void Track(Track track, RawFile file)
    {
        IReadOnlyList<string> place = [ChainKeys.Tracks.Key, track.Name];
        if (file.Punched.Count > 0)
        {
            Set(place, TrackKeys.Files.Key, $"[{string.Join(", ", file.Punched.Select(Quoted))}]", TrackKeys.File.Key);
            Remove(place, TrackKeys.File.Key);
        }
        else
        {
            Set(place, TrackKeys.File.Key, Quoted(file.Path), TrackKeys.File.Key);
            Remove(place, TrackKeys.Files.Key);
        }

        if (file.Channel is { } channel)
        {
            Set(place, TrackKeys.Channel.Key, channel.ToString(CultureInfo.InvariantCulture), TrackKeys.File.Key);
        }
        else
        {
            Remove(place, TrackKeys.Channel.Key);
        }

        if (file.Input.IsConverted)
        {
            Set(place, TrackKeys.Convert.Key, "true", TrackKeys.File.Key);
        }
    }

    /// <summary>Lets a track that has no file here name one that can be brought.</summary>
    public void Missing(Track track)
    {
        if (!track.Punched.Any)
        {
            Set([ChainKeys.Tracks.Key, track.Name], TrackKeys.File.Key, Quoted(InSession(track.File)), TrackKeys.File.Key);
        }
    }

    /// <summary>Lets an impulse or the recipe be found from the new folder.</summary>
    public void Paths(Func<string, string> fromThere)
    {
        foreach (var impulse in chain.Impulses.Where(i => chain.Uses?.Holds($"{ChainKeys.Impulses.Key}.{i.Name}") != true))
        {
            Set([ChainKeys.Impulses.Key, impulse.Name], ImpulseKeys.File.Key, Quoted(fromThere(impulse.File)), ImpulseKeys.File.Key);
        }

        if (chain.Uses is { } recipe)
        {
            Set([], ChainKeys.Use.Key, Quoted(fromThere(recipe.File)));
        }
    }

    /// <summary>Takes out what belongs to the old song: rides by its bars and seconds, what was signed off of its takes, wishes for its versions, and
    /// numbers that were found for its sound. The goals stay, and find their own.</summary>
    public void OldSong()
    {
        foreach (var bus in chain.Buses)
        {
            foreach (var feed in bus.Feeds.Concat(bus.OffFeeds.Select(f => f.What)).Where(f => f.Rides.Count > 0))
            {
                Drop([ChainKeys.Buses.Key, bus.Name, BusKeys.From.Key, feed.Source], FeedKeys.Ride.Key, $"The ride of {feed.Source} in {bus.Name} was left behind: it follows the old song.");
            }
        }

        Drop([], ChainKeys.Accepted.Key, "What was signed off was left behind: it is about the old takes.");
        Drop([ChainKeys.Delivery.Key], DeliveryKeys.Wishes.Key, "The mixer's wishes were left behind: they are about the old versions.");
        Drop([], ChainKeys.Reference.Key, "The song's own mix was left behind: it is the old song's.");
        using var document = JsonDocument.Parse(_text, Lenient);
        var found = new List<IReadOnlyList<string>>();
        Found(document.RootElement, [], found);
        foreach (var place in found)
        {
            Remove([.. place.SkipLast(1)], place[^1]);
        }

        if (found.Count > 0)
        {
            _leftBehind.Add("Numbers that were found for goals were left behind: the print finds this song's own.");
        }
    }

    // Delays in frames last as long at the other rate.
    private void Frames(double ratio)
    {
        foreach (var track in chain.Tracks)
        {
            Delay([ChainKeys.Tracks.Key, track.Name], track.Delay, ratio);
        }

        foreach (var bus in chain.Buses.Where(b => chain.Uses?.Holds($"{ChainKeys.Buses.Key}.{b.Name}") != true))
        {
            foreach (var feed in bus.Feeds.Concat(bus.OffFeeds.Select(f => f.What)))
            {
                Delay([ChainKeys.Buses.Key, bus.Name, BusKeys.From.Key, feed.Source], feed.Delay, ratio);
            }
        }
    }

    private void Delay(IReadOnlyList<string> place, PathDelay delay, double ratio)
    {
        if (delay is { Unit: Unit.Frames, Amount: > 0 })
        {
            var frames = delay.IsExact ? delay.Amount * ratio : Math.Round(delay.Amount * ratio, MidpointRounding.AwayFromZero);
            Set(place, DelayKeys.Frames.Key, frames.ToString("R", CultureInfo.InvariantCulture));
        }
    }

    // A number that was found stands beside its goal, under a name that begins so.
    private static void Found(JsonElement element, IReadOnlyList<string> place, List<IReadOnlyList<string>> found)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.Object:
                foreach (var member in element.EnumerateObject())
                {
                    if (member.Name.StartsWith("found_", StringComparison.Ordinal) && place.Contains(BusKeys.Through.Key))
                    {
                        found.Add([.. place, member.Name]);
                    }

                    Found(member.Value, [.. place, member.Name], found);
                }

                break;
            case JsonValueKind.Array:
                foreach (var (item, index) in element.EnumerateArray().Select((e, i) => (e, i)))
                {
                    Found(item, [.. place, index.ToString(CultureInfo.InvariantCulture)], found);
                }

                break;
        }
    }

    // Under the session's own folder, so that the file can be brought.
    private static string InSession(string file) => Path.IsPathRooted(file) || file.Split('/').Contains("..") ? Path.GetFileName(file) : file;

    private static string Quoted(string text) => "\"" + JavaScriptEncoder.UnsafeRelaxedJsonEscaping.Encode(text) + "\"";

    private void Set(IReadOnlyList<string> place, string key, string json, string shorthand = "") => _text = ChainEdit.Set(_text, place, shorthand, key, json);

    private void Remove(IReadOnlyList<string> place, string key) => _text = ChainEdit.Remove(_text, place, key);

    private void Drop(IReadOnlyList<string> place, string key, string sentence)
    {
        var before = _text;
        Remove(place, key);
        if (!ReferenceEquals(before, _text))
        {
            _leftBehind.Add(sentence);
        }
    }
}
