using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using DrumPrint.Chains;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Demo;
using DrumPrint.Demo.Playing;
using DrumPrint.Diff;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Diff;

/// <summary>Changes a chain in every place where it can be changed, one at a time, and reads what <c>diff</c> makes of it.</summary>
public sealed class EveryChangeTests : IDisposable
{
    private const int MostValues = 2;
    private const int MostInRow = 3;

    // Every processor once more under a second number, so that a revision too can be changed.
    private static readonly IReadOnlyList<ProcessorDefinition> TwoRevisions =
        [.. Catalogue.All, .. Catalogue.All.Select(d => new ProcessorDefinition(d.Key, d.Revision + 1, d.Summary, d.Parameters, d.Create) { TakesKey = d.TakesKey, NeedsKey = d.NeedsKey, OutputChannels = d.OutputChannels })];

    // The words that a key takes, whatever it stands in.
    private static readonly ILookup<string, string> Choices =
        OutputKeys.Shape.Keys.Concat([ImpulseKeys.Layout, BusKeys.Channels, PolarityKeys.Polarity])
            .Concat(Catalogue.All.SelectMany(d => d.Parameters).SelectMany(All))
            .OfType<ChoiceParameter>()
            .SelectMany(c => c.Choices.Select(choice => (c.Key, choice.Word)))
            .Distinct()
            .ToLookup(c => c.Key, c => c.Word);

    // What diff calls a key where that is not the key without its unit.
    private static readonly Dictionary<string, string> Called = new(StringComparer.Ordinal)
    {
        ["revision"] = "revision",
        ["key"] = "listens to",
        ["optional"] = "part of the rough",
        ["convert"] = "resampling",
        ["over"] = "prints over 0 dBFS",
        ["tempo"] = "file",
        ["delay_frames"] = "delay",
        ["off"] = "left out",
    };

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("drumprint-changes-");

    public void Dispose() => _folder.Delete(recursive: true);

    // Each change reads the whole chain again, so the time goes with the square of its length: the processors stand in short rows.
    private static readonly Dictionary<string, ProcessorDefinition[]> Rows =
        Catalogue.All.Chunk(MostInRow).ToDictionary(row => $"{row[0].Key} to {row[^1].Key}", StringComparer.Ordinal);

    public static TheoryData<string> Chains => ["demo", .. Rows.Keys];

    [Theory]
    [MemberData(nameof(Chains))]
    public void Every_setting_that_changes_is_named_with_its_place_and_alone(string which)
    {
        var chain = Of(which);
        var text = ChainWriter.Canonical(chain);
        var root = JsonNode.Parse(text)!;
        var places = JsonPlace.Leaves(root, []).ToList();
        var random = new Random(places.Count);
        var unchanged = new List<string>();
        Assert.All(places, place =>
        {
            var changed = Changed(chain, text, root, place, random).ToList();
            Assert.All(changed, c => AssertNamed(place, chain, c));
            if (changed.Count == 0)
            {
                unchanged.Add(string.Join('.', place));
            }
        });

        // The format of the file is the one word that has no other.
        Assert.Equal(["chain"], unchanged);
    }

    [Theory]
    [MemberData(nameof(Chains))]
    public void Every_setting_that_is_switched_on_is_named_with_its_place_and_alone(string which)
    {
        var chain = Of(which);
        var root = JsonNode.Parse(ChainWriter.Canonical(chain))!;
        var random = new Random(1);
        var count = 0;
        Assert.All(Off(root, []), off =>
        {
            foreach (var value in off.Values)
            {
                var copy = root.DeepClone();
                JsonPlace.At(copy, off.Place[..^1])!.AsObject().Add((string)off.Place[^1], value.DeepClone());
                if (Read(copy) is { } other && ChainWriter.Canonical(other) != ChainWriter.Canonical(chain))
                {
                    AssertNamed(off.Place, chain, other);
                    count++;
                    break;
                }
            }
        });

        Assert.True(count >= Least(which), $"only {count} were switched on");
    }

    // Whatever stands in a list or goes by a name, taken out: tracks, feeds, rides, processors, bands, prints.
    [Theory]
    [MemberData(nameof(Chains))]
    public void Everything_that_is_taken_out_or_put_in_is_named_with_its_place(string which)
    {
        var chain = Of(which);
        var root = JsonNode.Parse(ChainWriter.Canonical(chain))!;
        var count = 0;
        Assert.All(Branches(root, []), place =>
        {
            var copy = root.DeepClone();
            JsonPlace.Remove(copy, place);
            if (Read(copy) is { } other && ChainWriter.Canonical(other) != ChainWriter.Canonical(chain))
            {
                AssertPlace(place, chain, Differences(chain, other));
                AssertPlace(place, chain, Differences(other, chain));
                count++;
            }
        });

        Assert.True(count >= Least(which), $"only {count} were taken out");
    }

    [Theory]
    [MemberData(nameof(Chains))]
    public void Everything_that_changes_its_place_in_a_row_is_named(string which)
    {
        var chain = Of(which);
        var root = JsonNode.Parse(ChainWriter.Canonical(chain))!;
        var count = 0;
        Assert.All(Branches(root, []), place =>
        {
            var copy = root.DeepClone();
            if (JsonPlace.MoveUp(copy, place) && Read(copy) is { } other && ChainWriter.Canonical(other) != ChainWriter.Canonical(chain))
            {
                Assert.NotEmpty(Differences(chain, other));
                Assert.DoesNotContain(Differences(chain, other), c => c.Subject == "chain" && !c.Text.EndsWith("in another order", StringComparison.Ordinal));
                count++;
            }
        });

        Assert.True(count >= Least(which), $"only {count} were swapped");
    }

    [Fact]
    public void Every_track_bus_and_impulse_of_the_demo_can_be_renamed_and_that_is_all_that_is_told()
    {
        var chain = Of("demo");
        var text = ChainWriter.Canonical(chain);
        var names = chain.Tracks.Select(t => t.Name).Concat(chain.Buses.Select(b => b.Name)).ToList();
        foreach (var name in names)
        {
            AssertRenamed(Renames.In(chain, [new Rename(RenamedKind.Bus, name, "the new_one")]), name);
        }

        foreach (var impulse in chain.Impulses)
        {
            AssertRenamed(Renames.In(chain, [new Rename(RenamedKind.Impulse, impulse.Name, "the new_one")]), impulse.Name);
        }

        void AssertRenamed(Chain other, string name)
        {
            Assert.NotEqual(text, ChainWriter.Canonical(other));
            Assert.Equal($"the new_one: name {name} → the new_one", Assert.Single(Differences(chain, other)).ToString());
        }
    }

    [Fact]
    public void Every_change_of_a_tempo_map_is_named()
    {
        var chain = Of("demo");
        var root = JsonNode.Parse(TempoWriter.Canonical(chain.Song.Tempo!))!;
        var random = new Random(5);
        var unchanged = new List<string>();
        Assert.All(JsonPlace.Leaves(root, []), place =>
        {
            var seen = false;
            foreach (var value in Candidates(root, place, chain, random))
            {
                var copy = root.DeepClone();
                JsonPlace.Put(copy, place, value);
                if (Tempo(copy) is { } tempo && TempoWriter.Canonical(tempo) != TempoWriter.Canonical(chain.Song.Tempo!))
                {
                    var other = chain with { Song = chain.Song with { Tempo = tempo } };
                    Assert.All(Differences(chain, other), c => Assert.Equal("tempo map", c.Subject));
                    Assert.NotEmpty(Differences(chain, other));
                    seen = true;
                }
            }

            if (!seen)
            {
                unchanged.Add(string.Join('.', place));
            }
        });

        Assert.Equal(["tempo_map"], unchanged);
    }

    // One for each processor at least, and what stands around them.
    private static int Least(string which) => which == "demo" ? 10 : Rows[which].Length + 2;

    private static IReadOnlyList<Change> Differences(Chain a, Chain b) => ChainChanges.Of(Made.Of("a", a), Made.Of("b", b));

    private static void AssertNamed(object[] place, Chain chain, Chain other)
    {
        var changes = Differences(chain, other);
        AssertPlace(place, chain, changes);

        // Under another number it is another print.
        if (place is ["prints", int, "number"])
        {
            return;
        }

        // One signature goes and another comes, and no print hangs on either.
        if (place is ["accepted", ..])
        {
            Assert.Equal(2, changes.Count);
            Assert.All(changes, c => Assert.Empty(c.Reaches));
            return;
        }

        var change = Assert.Single(changes);

        // Heard beside the prints, so none hangs on it.
        if (place is ["reference", string of])
        {
            Assert.Contains(Word(of), change.Text, StringComparison.Ordinal);
            Assert.Empty(change.Reaches);
            return;
        }

        if (place is ["buses", string, "from", string feed, ..])
        {
            Assert.Contains(feed, change.Text, StringComparison.Ordinal);
        }

        if (Array.IndexOf(place, "through") is >= 0 and var row)
        {
            Assert.Contains(ChangeWords.Processor((string)place[row + 2]), change.Text, StringComparison.Ordinal);
        }

        Assert.Contains(place.Contains("ride") ? "ride" : Word((string)place.Last(p => p is string)), change.Text, StringComparison.Ordinal);
        Assert.NotEmpty(change.Reaches);
    }

    // That the changes stand where the file was changed.
    private static void AssertPlace(object[] place, Chain chain, IReadOnlyList<Change> changes)
    {
        Assert.NotEmpty(changes);
        var subjects = changes.Select(c => c.Subject).ToList();
        switch (place)
        {
            case ["song", "tempo", ..]:
                Assert.Contains("tempo map", subjects);
                break;
            case ["tracks" or "impulses" or "buses", string name, ..]:
                Assert.Contains(name, subjects);
                break;
            case ["prints", int index, ..]:
                Assert.Contains(subjects, s => s.StartsWith(chain.Prints[index].Number.ToString("00", CultureInfo.InvariantCulture), StringComparison.Ordinal));
                break;
            case ["accepted", ..]:
                Assert.All(subjects, s => Assert.Equal("signed off", s));
                break;
            case ["drum_bus", ..]:
                Assert.Contains("drum bus", subjects);
                break;
            case ["output", "rough" or "rough_with_bus" or "click", ..]:
                Assert.Contains(((string)place[1]).Replace('_', ' '), subjects);
                break;
            default:
                Assert.Contains((string)place[0], subjects);
                break;
        }
    }

    private static string Word(string key)
    {
        if (Called.TryGetValue(key, out var word))
        {
            return word;
        }

        var unit = Enum.GetValues<Unit>().Select(u => u.Suffix()).Where(s => s.Length > 0 && key.EndsWith(s, StringComparison.Ordinal)).OrderByDescending(s => s.Length).FirstOrDefault("");
        return key == "number" ? "name" : key[..^unit.Length].Replace('_', ' ');
    }

    // The chain with one value after another in one place.
    private IEnumerable<Chain> Changed(Chain chain, string text, JsonNode root, object[] place, Random random) =>
        Candidates(root, place, chain, random)
            .Select(value =>
            {
                var copy = root.DeepClone();
                JsonPlace.Put(copy, place, value);
                return Read(copy);
            })
            .OfType<Chain>()
            .Where(c => ChainWriter.Canonical(c) != text)
            .Take(MostValues);

    private static IEnumerable<JsonNode> Candidates(JsonNode root, object[] place, Chain chain, Random random)
    {
        var leaf = JsonPlace.At(root, place)!;
        var key = (string)place.Last(p => p is string);
        switch (leaf.GetValueKind())
        {
            case var _ when Choices.Contains(key):
                return Choices[key].Select(word => int.TryParse(word, CultureInfo.InvariantCulture, out var whole) ? (JsonNode)JsonValue.Create(whole) : JsonValue.Create(word));
            case JsonValueKind.True or JsonValueKind.False:
                return [JsonValue.Create(!leaf.GetValue<bool>())];
            case JsonValueKind.Number:
                var number = leaf.GetValue<double>();
                double[] near = [number + (random.NextDouble() * 1e-7), number * (0.5 + random.NextDouble()), number + 1, number - 1, number + 6, number + 20, number * 2, number / 2];
                return near.Select(n => JsonValue.Create(n));
            default:
                string[] words = [leaf + "2", "5/8", .. chain.Tracks.Select(t => t.Name), .. chain.Buses.Select(b => b.Name), .. chain.Impulses.Select(i => i.Name)];
                return words.Select(w => JsonValue.Create(w));
        }
    }

    // Keys that the canonical form leaves out because they are off, with values to try.
    private static IEnumerable<(object[] Place, IEnumerable<JsonNode> Values)> Off(JsonNode node, object[] place)
    {
        foreach (var (key, child) in JsonPlace.Children(node))
        {
            foreach (var off in Off(child, [.. place, key]))
            {
                yield return off;
            }
        }

        if (node is not JsonObject given)
        {
            yield break;
        }

        IEnumerable<Parameter> takes = place switch
        {
            ["output"] => OutputKeys.Shape.Keys,
            ["buses", string, "from", string] => FeedKeys.Shape.Keys,
            [.., "through", int, string kind] => StageKeys.Shape(Catalogue.All.First(d => d.Key == kind)).Keys,
            [.., "through", int, string kind, string list, int, string item] =>
                Catalogue.All.First(d => d.Key == kind).Parameters.OfType<ListParameter>().First(p => p.Key == list).Kinds.First(k => k.Key == item).Parameters,
            _ => [],
        };
        foreach (var parameter in takes.Where(p => !given.ContainsKey(p.Key) && !DelayKeys.All.Contains(p)))
        {
            yield return ([.. place, parameter.Key], parameter is NumberParameter number
                ? [JsonValue.Create(number.Minimum + ((number.Maximum - number.Minimum) / 3)), JsonValue.Create(Math.Floor((number.Minimum + number.Maximum) / 2))]
                : parameter is ToggleParameter ? [JsonValue.Create(true)] : [JsonValue.Create("kick in"), JsonValue.Create("in")]);
        }
    }

    // Items of lists and things that go by a name of their own.
    private static IEnumerable<object[]> Branches(JsonNode node, object[] place)
    {
        var isItem = place is [.., int] or ["tracks" or "impulses" or "buses", string] or ["buses", string, "from", string] or ["output", _] or ["reference"];
        return (isItem ? new[] { place } : []).Concat(JsonPlace.Children(node).SelectMany(c => Branches(c.Child, [.. place, c.Key])));
    }

    private static IEnumerable<Parameter> All(Parameter parameter) => parameter is ListParameter list ? list.Kinds.SelectMany(k => k.Parameters) : [parameter];

    // Null where the reader refuses it.
    private Chain? Read(JsonNode chain)
    {
        try
        {
            return ChainReader.Parse(chain.ToJsonString(), Path.Combine(_folder.FullName, "song.chain.json"), TwoRevisions);
        }
        catch (ChainException)
        {
            return null;
        }
    }

    private static TempoMap? Tempo(JsonNode map)
    {
        try
        {
            return TempoReader.Parse(map.ToJsonString(), SongForm.TempoFile);
        }
        catch (ChainException)
        {
            return null;
        }
    }

    private Chain Of(string which)
    {
        foreach (var name in new[] { "raw/tempo.json", "raw/tempo.json2" })
        {
            var path = Path.Combine(_folder.FullName, name);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllText(path, TempoText.Of(SongForm.Cut));
        }

        return which == "demo"
            ? ChainReader.Parse(ChainText.Of(full: false), Path.Combine(_folder.FullName, "song.chain.json"))
            : Read(JsonNode.Parse($$"""
                { "chain": 1, "song": { "title": "All", "code": "All", "rate_hz": 48000, "tempo": "raw/tempo.json" }, "tracks": { "in": "in.wav", "other": "other.wav" },
                  "impulses": { "room": "room.wav", "cave": "cave.wav" },
                  "buses": { "all": { "from": { "in": 0 }, "through": [ {{string.Join(", ", Rows[which].Select(d => $$"""{ "{{d.Key}}": {{Least([StageKeys.Revision, StageKeys.KeyOf(d), .. d.Parameters])}} }"""))}} ] },
                             "late": { "from": { "other": { "level_db": -6, "pan_pct": 20, "delay_m": 2, "exact": true, "ride": [ { "from_s": 1, "to_s": 2, "db": -3 } ] } }, "through": [ { "convolve": { "impulse": "cave" } }, { "convolve": { "impulse": "room" } } ] } },
                  "prints": [ { "number": 1, "name": "All", "bus": "all" }, { "number": 2, "name": "Late", "bus": "late" } ],
                  "drum_bus": { "through": [ { "gain": { } } ] }, "output": { "tail_s": 2, "click": true }, "reference": { "file": "mix.wav", "latency_ms": 4 } }
                """)!)!;
    }

    // Every processor of the first revision with what it must have; a list with an item of each kind.
    private static string Least(IEnumerable<Parameter> parameters)
    {
        var values = parameters.Select(p => (p.Key, Value: p switch
        {
            NumberParameter number when number == StageKeys.Revision => "1",
            NumberParameter { IsRequired: true, Steps: { } steps } => steps[steps.Count / 2].ToString("R", CultureInfo.InvariantCulture),
            NumberParameter { IsRequired: true } number => ((number.Minimum + number.Maximum) / 4).ToString("R", CultureInfo.InvariantCulture),
            TextParameter { IsRequired: true } => "\"other\"",
            ImpulseParameter => "\"room\"",
            ListParameter list => $"[ {string.Join(", ", list.Kinds.Select(k => $$"""{ "{{k.Key}}": {{Least(k.Parameters)}} }"""))} ]",
            _ => "",
        }));
        return $"{{ {string.Join(", ", values.Where(v => v.Value.Length > 0).Select(v => $"\"{v.Key}\": {v.Value}"))} }}";
    }
}
