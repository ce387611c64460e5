using DrumPrint.Language;

namespace DrumPrint.Listening;

/// <summary>Sorts the microphones of a take by their names and by what they hear; where the two disagree it says so.</summary>
internal static class Kit
{
    private const double SameDrum = 0.93; // likeness from which two microphones hear one drum
    private const double OtherDrum = 0.8; // likeness below which two microphones do not
    private const double RoomMs = 5.5;
    private const double CloseMs = 4.5;
    private const double OverheadFromMs = 1.5;
    private const double PairMs = 1.5;
    private const double PairDb = 5;
    private const double OverheadHz = 1400;
    private const double CymbalHz = 4000;
    private const double LowDb = -9;
    private const double KitWide = 0.55;

    /// <summary>Places for all microphones.</summary>
    /// <param name="take">The take.</param>
    /// <param name="names">What the name of each says.</param>
    /// <param name="traits">What the sound of each says.</param>
    public static Place[] Sort(Take take, IReadOnlyList<MicrophoneName> names, IReadOnlyList<Traits> traits)
    {
        var count = take.Microphones.Count;
        var like = new double[count, count];
        for (var a = 0; a < count; a++)
        {
            for (var b = a + 1; b < count; b++)
            {
                like[a, b] = like[b, a] = Likeness.Of(take, a, b);
            }
        }

        var places = new Place[count];
        for (var m = 0; m < count; m++)
        {
            places[m] = traits[m].IsSilent ? Unsure(names[m], "it is silent") : ByName(m, names, traits, like);
        }

        BySound(places, names, traits, like);
        return places;
    }

    private static Place Unsure(MicrophoneName name, string why) => new(Role.Unknown, name.Standing, name.Side, "", false, why);

    private static Place ByName(int m, IReadOnlyList<MicrophoneName> names, IReadOnlyList<Traits> traits, double[,] like)
    {
        var (name, own) = (names[m], traits[m]);
        var wrong = name.Role == Role.Unknown || name.IsTold ? null : Wrong(m, names, traits, like);
        if (name.Role == Role.Unknown || wrong is not null)
        {
            return Unsure(name, wrong ?? "its name does not say");
        }

        var drum = name.Role switch
        {
            Role.Kick => "kick",
            Role.Snare => "snare",
            Role.Hat => "hat",
            Role.Ride => "ride",
            Role.Cymbal => Numbered("cymbal", name),
            Role.RackTom => Numbered("rack tom", name),
            Role.FloorTom => Numbered("floor tom", name),
            _ => "",
        };
        return new Place(name.Role, name.Standing, name.Side, drum, true, FormattableString.Invariant($"{(name.IsTold ? "you say so" : "name")}; hears its hits {Words.Number(own.LateMs, 0)} ms after the first microphone"));
    }

    private static string Numbered(string what, MicrophoneName name) => name.Number > 0 ? FormattableString.Invariant($"{what} {name.Number}") : what;

    // What the sound says against the name; null where nothing.
    private static string? Wrong(int m, IReadOnlyList<MicrophoneName> names, IReadOnlyList<Traits> traits, double[,] like)
    {
        var (role, own) = (names[m].Role, traits[m]);
        for (var other = 0; other < names.Count; other++)
        {
            var named = names[other].Role;
            if (other == m || !IsDrum(role) || !IsDrum(named) || named == role || IsTom(role) == IsTom(named) && IsTom(role))
            {
                continue;
            }

            // Cymbals are heard by each other's microphones; drums are not.
            if (like[m, other] >= SameDrum && !(IsCymbal(role) && IsCymbal(named)))
            {
                return FormattableString.Invariant($"its name says {Word(role)}, but it hears the hits of a microphone named {Word(named)} (likeness {like[m, other]:0.00})");
            }
        }

        return role switch
        {
            Role.Kick when own.LowDb < LowDb && own.BrightHz > OverheadHz => $"its name says kick, but there is little below 120 Hz in its hits ({Words.Number(own.LowDb, 0)} dB)",
            Role.Snare when own.LowDb > -LowDbOfSnare && own.BrightHz < SnareLeastHz => "its name says snare, but it sounds like a kick or a tom",
            Role.Snare or Role.Kick or Role.RackTom or Role.FloorTom when own.BrightHz > CymbalHz => $"its name says {Word(role)}, but it sounds like a cymbal (the middle of its power is at {Words.Frequency(own.BrightHz)})",
            Role.Hat or Role.Ride or Role.Cymbal when own.BrightHz < OverheadHz => $"its name says {Word(role)}, but it sounds dark (the middle of its power is at {Words.Frequency(own.BrightHz)})",
            Role.Room when own.LateMs < OverheadFromMs => $"its name says room, but it hears hits as early as the close microphones ({Words.Number(own.LateMs, 0)} ms)",
            Role.Overhead when own.LateMs > 2 * RoomMs => $"its name says overhead, but it hears hits {Words.Number(own.LateMs, 0)} ms late, as a room does",
            _ when IsDrum(role) && role != Role.Snare && own.LateMs > 2 * CloseMs => $"its name says {Word(role)}, but it hears hits {Words.Number(own.LateMs, 0)} ms late, as a room does",
            _ => Alone(m, names, traits, like),
        };
    }

    private const double LowDbOfSnare = 3;
    private const double SnareLeastHz = 400;

    // Most microphones of the same name hear the same drum; the one that does not is the odd one.
    private static string? Alone(int m, IReadOnlyList<MicrophoneName> names, IReadOnlyList<Traits> traits, double[,] like)
    {
        if (names[m].Role is not (Role.Kick or Role.Snare))
        {
            return null;
        }

        List<int> same = [.. Enumerable.Range(0, names.Count).Where(o => o != m && names[o].Role == names[m].Role && !traits[o].IsSilent)];
        return same.Count >= 2 && same.All(o => like[m, o] < OtherDrum)
            ? $"its name says {Word(names[m].Role)}, but it does not hear the hits of the others named so"
            : null;
    }

    // Microphones whose names say nothing, by what they hear.
    private static void BySound(Place[] places, IReadOnlyList<MicrophoneName> names, IReadOnlyList<Traits> traits, double[,] like)
    {
        var free = Enumerable.Range(0, places.Length).Where(m => places[m].Role == Role.Unknown && !traits[m].IsSilent && names[m].Role == Role.Unknown).ToList();
        foreach (var m in free)
        {
            var best = Enumerable.Range(0, places.Length).Where(o => o != m && places[o].IsClose && like[m, o] >= SameDrum && traits[m].LateMs < CloseMs && traits[m].HitsHeard < KitWide + 0.1)
                .OrderByDescending(o => like[m, o]).Select(o => (int?)o).FirstOrDefault();
            if (best is { } drum && !names.Any(n => n.Role == Role.Overhead && like[m, Index(names, n)] > like[m, drum]))
            {
                places[m] = places[drum] with { Standing = names[m].Standing, IsSure = true, Why = FormattableString.Invariant($"hears the hits of the {places[drum].Drum} (likeness {like[m, drum]:0.00})") };
            }
        }

        foreach (var cluster in Clusters([.. free.Where(m => places[m].Role == Role.Unknown)], traits, like))
        {
            Name(cluster, places, names, traits);
        }

        Pairs(places, names, traits, like);
    }

    private static int Index(IReadOnlyList<MicrophoneName> names, MicrophoneName name)
    {
        for (var i = 0; i < names.Count; i++)
        {
            if (ReferenceEquals(names[i], name))
            {
                return i;
            }
        }

        return 0;
    }

    private static List<List<int>> Clusters(List<int> free, IReadOnlyList<Traits> traits, double[,] like)
    {
        var clusters = new List<List<int>>();
        foreach (var m in free.Where(m => traits[m].LateMs <= CloseMs))
        {
            var home = clusters.Find(c => c.TrueForAll(o => like[m, o] >= SameDrum));
            if (home is null)
            {
                clusters.Add([m]);
            }
            else
            {
                home.Add(m);
            }
        }

        return clusters;
    }

    private static void Name(List<int> cluster, Place[] places, IReadOnlyList<MicrophoneName> names, IReadOnlyList<Traits> traits)
    {
        var heard = cluster.Average(m => traits[m].HitsHeard);
        var low = cluster.Max(m => traits[m].LowDb);
        var bright = Traits.Median(cluster.Select(m => traits[m].BrightHz));
        var hits = Traits.Median(cluster.Select(m => (double)traits[m].LoudHits));
        var ring = Traits.Median(cluster.Select(m => traits[m].RingDb));
        var (role, drum) = heard switch
        {
            < KitWide when low > KickLowDb && hits >= OftenHits && ring > KickRingDb && !places.Any(p => p.Role == Role.Kick) => (Role.Kick, "kick"),
            < SnareHeard when low < SnareLowDb && bright is > 700 and < CymbalHz && hits >= OftenHits && cluster.Count >= 2 && !places.Any(p => p.Role == Role.Snare) => (Role.Snare, "snare"),
            _ => (Role.Unknown, ""),
        };
        if (role == Role.Unknown)
        {
            return;
        }

        foreach (var m in cluster)
        {
            places[m] = new Place(role, names[m].Standing, names[m].Side, drum, true, FormattableString.Invariant($"sound alone: {hits:0} loud hits, {low:0} dB below 120 Hz, middle of its power at {bright:0} Hz"));
        }
    }

    private const double KickLowDb = -4;
    private const double KickRingDb = 8.5;
    private const double SnareHeard = 0.4;
    private const double SnareLowDb = -8;
    private const double OftenHits = 16;

    // Two neighbours that hear everything, alike, as loud and as late, are a pair.
    private static void Pairs(Place[] places, IReadOnlyList<MicrophoneName> names, IReadOnlyList<Traits> traits, double[,] like)
    {
        for (var m = 0; m + 1 < places.Length; m++)
        {
            var (a, b) = (traits[m], traits[m + 1]);
            if (places[m].Role != Role.Unknown || places[m + 1].Role != Role.Unknown || names[m].Role != Role.Unknown || names[m + 1].Role != Role.Unknown
                || a.IsSilent || b.IsSilent || like[m, m + 1] < SameDrum || Math.Abs(a.LateMs - b.LateMs) > PairMs || Math.Abs(a.TypicalDb - b.TypicalDb) > PairDb || Math.Min(a.HitsHeard, b.HitsHeard) < KitWide)
            {
                continue;
            }

            var late = Math.Min(a.LateMs, b.LateMs);
            var role = late >= RoomMs ? Role.Room : late >= OverheadFromMs && Math.Min(a.BrightHz, b.BrightHz) >= OverheadHz && !names.Any(n => n.Role == Role.Overhead) ? Role.Overhead : Role.Unknown;
            if (role == Role.Unknown)
            {
                continue;
            }

            var why = FormattableString.Invariant($"sound alone: a pair that hears all drums, {late:0} ms late; which side is which is a guess");
            places[m] = new Place(role, Standing.Unknown, Side.Left, "", true, why);
            places[m + 1] = new Place(role, Standing.Unknown, Side.Right, "", true, why);
            m++;
        }
    }

    private static bool IsTom(Role role) => role is Role.RackTom or Role.FloorTom;

    private static bool IsCymbal(Role role) => role is Role.Hat or Role.Ride or Role.Cymbal;

    private static bool IsDrum(Role role) => role is Role.Kick or Role.Snare || IsTom(role) || IsCymbal(role);

    private static string Word(Role role) => role switch
    {
        Role.RackTom => "tom",
        Role.FloorTom => "floor tom",
        _ => role.ToString().ToLowerInvariant(),
    };
}
