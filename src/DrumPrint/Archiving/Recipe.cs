using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Delivering.Sheet;
using DrumPrint.Diff;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Archiving;

/// <summary>Says in plain words how the prints are made, so that they can be made again with other tools.</summary>
/// <param name="ticket">What was printed.</param>
/// <param name="files">Where each file lies in the archive.</param>
internal sealed class Recipe(Ticket ticket, SessionFiles files)
{
    private readonly Chain _chain = ticket.Chain;
    private readonly List<SheetBlock> _blocks = [];

    /// <summary>The recipe, 78 columns wide.</summary>
    /// <param name="chain">The chain as it lies in the archive.</param>
    public string Text(Chain chain)
    {
        Order();
        Tracks(chain);
        Buses();
        Prints();
        Formula();
        return SheetText.Of(new SheetDocument(
            $"How to make {_chain.Song.Title}, version {Show.Number(_chain.Song.Version)}, without DrumPrint",
            $"{Show.Number(_chain.Song.RateHz)} Hz, every print {Show.Number(ticket.Frames)} frames long; made by DrumPrint {ticket.Engine}",
            _blocks));
    }

    private void Order()
    {
        Head("What is done, in order");
        List(
            [
                "Sound is computed in 64-bit floating point; full scale is 1.",
                "Each track is brought in with its level, polarity and delay. A delay without the word exact goes to the nearest whole frame.",
                $"Each bus adds up its feeds, each with its own level, polarity, delay and place. A mono feed without a place goes into both sides of a stereo bus as it is.",
                $"A placed mono feed is turned by {ChangeWords.Number(_chain.Song.PanLawDb)} dB on each side in the centre. With k = {ChangeWords.Number(_chain.Song.PanLawDb)} / −3.0103 and an angle of 45° · (1 − place / 100), the near side is the cosine to the power k. The far side is the sine times √2, to the power k but at least 1, turned by those dB.",
                "The sum goes through the bus's processors, one after the other. A processor's own delay is taken out, so all stays in time.",
                "Each print is the sound of one bus, at its level. The rough adds up all prints but the optional ones.",
                ticket.TrimDb == 0 ? "Nothing was lowered at the end." : $"At the end all prints were turned by {ChangeWords.Number(ticket.TrimDb)} dB together.",
                ticket.Encoding == SampleEncoding.Float32 ? "Samples are rounded to 32-bit floating point." : $"Samples are rounded to the nearest of the file's steps{(_chain.Output.Dither ?? ticket.Encoding == SampleEncoding.Pcm16 ? ", after triangular dither of one step to each side was added" : "")}.",
            ],
            isNumbered: true);
        Say("With other tools the levels of what is left come near to nothing, not to nothing: only DrumPrint of the same revision of each processor gives the same bytes.");
    }

    private void Tracks(Chain chain)
    {
        Head("Tracks");
        var recorded = ticket.Tracks.ToLookup(t => t.Name, StringComparer.Ordinal);
        foreach (var track in _chain.Tracks)
        {
            var at = string.Join(", ", track.Files.Select(f => files.PlaceOf(chain, f) + Start(recorded[track.Name].FirstOrDefault(i => i.File == f))));
            var one = track.Channel is { } channel ? $", channel {channel} alone" : "";
            var late = track.LatencyMs == 0 ? "" : $", {ChangeWords.Number(track.LatencyMs)} ms of outside latency taken out";
            var sum = recorded[track.Name].Any() ? $"; samples {string.Join(", ", recorded[track.Name].Select(i => i.AudioSha256))}" : "";
            var laid = track.Punched.Any ? FormattableString.Invariant($"; where two files overlap, the one named later is heard, in and out over {Splice.FadeMs} ms in a straight line") : "";
            List([$"{track.Name}: {at}{one}; {Level(track.LevelDb)}, polarity {ChangeWords.Polarity(track.IsInverted)}, {Delay(track.Delay)}{late}{(track.Convert ? ", converted to the song's rate" : "")}{(track.At is { } place ? $"; stood at {place} m" : "")}{laid}{sum}"]);
        }

        if (_chain.Impulses.Count > 0)
        {
            Head("Impulses");
            List([.. _chain.Impulses.Select(i => $"{i.Name}: {files.PlaceOf(chain, i.File)}{(i.Layout is { } layout ? $", {layout}" : "")}")]);
        }
    }

    private static string Start(RecordedInput? input) => input?.StartFrame is { } frame ? FormattableString.Invariant($" from frame {frame} of the track at {input.RateHz} Hz") : "";

    private void Buses()
    {
        foreach (var bus in _chain.Buses)
        {
            Head($"Bus {bus.Name}");
            var channels = bus.Channels switch { 1 => "Mono.", 2 => "Stereo.", _ => "Stereo as soon as one feed is stereo or placed, else mono." };
            Say(channels);
            List([.. bus.Feeds.Select(Feed)]);
            if (bus.Stages.Count > 0)
            {
                Say("Then, in this order:");
                List([.. bus.Stages.Select(StageWords.Of)], isNumbered: true);
            }
        }

        if (_chain.DrumBus.Count > 0)
        {
            Head("The drum bus, on the second rough alone");
            List([.. _chain.DrumBus.Select(StageWords.Of)], isNumbered: true);
        }
    }

    private void Prints()
    {
        Head("Prints");
        var buses = _chain.Prints.ToDictionary(p => p.Number);
        List([.. ticket.Prints.Select(p => $"{p.FileName}: {(buses.TryGetValue(p.Number, out var print) ? $"bus {print.Bus}, {Level(print.LevelDb)}{(print.IsOptional ? ", not in the rough" : "")}" : What(p.Kind))}; samples {p.AudioSha256}")]);
    }

    private void Formula()
    {
        var used = _chain.Buses.SelectMany(b => b.Stages).Concat(_chain.DrumBus).Select(s => s.Definition).DistinctBy(d => (d.Key, d.Revision)).OrderBy(d => d.Key, StringComparer.Ordinal);
        foreach (var definition in used)
        {
            Head(string.Create(CultureInfo.InvariantCulture, $"{definition.Key}, revision {definition.Revision}"));
            Say(definition.Summary);
            foreach (var line in Formulas.Of(definition.Key) ?? [])
            {
                if (line.StartsWith("- ", StringComparison.Ordinal))
                {
                    List([line[2..]]);
                }
                else
                {
                    Say(line);
                }
            }
        }

        Say("How near each comes to its published source stands in conformance.md.");
    }

    private static string What(PrintKind kind) => kind switch
    {
        PrintKind.Rough => "the sum of all prints but the optional ones",
        PrintKind.RoughWithBus => "the rough through the drum bus",
        _ => "clicks on the beats of the tempo map",
    };

    private static string Feed(Feed feed)
    {
        var pan = feed.PanPct switch
        {
            null => "",
            0 => ", placed in the centre",
            < 0 => $", placed {ChangeWords.Number(-feed.PanPct.Value)} % left",
            _ => $", placed {ChangeWords.Number(feed.PanPct.Value)} % right",
        };
        var rides = string.Concat(feed.Rides.Select(r => string.Create(
            CultureInfo.InvariantCulture, $"; from {(r.InBars ? "bar " : "")}{r.From} to {(r.InBars ? "the end of bar " : "")}{r.To}{(r.InBars ? "" : " s")} turned by {ChangeWords.Number(r.Db)} dB within {ChangeWords.Number(r.FadeMs)} ms")));
        return $"{feed.Source}: {Level(feed.LevelDb)}, polarity {ChangeWords.Polarity(feed.IsInverted)}, {Delay(feed.Delay)}{pan}{rides}";
    }

    private static string Level(double db) => $"{ChangeWords.Number(db)} dB";

    private static string Delay(PathDelay delay) => delay.Amount == 0 ? "no delay" : $"{ChangeWords.Number(delay.Amount)} {delay.Unit.Symbol()} later{(delay.IsExact ? ", exact" : "")}";

    private void Head(string text) => _blocks.Add(new HeadingBlock(text));

    private void Say(string text) => _blocks.Add(new TextBlock(text));

    private void List(IReadOnlyList<string> items, bool isNumbered = false) => _blocks.Add(new ListBlock(items, isNumbered));
}
