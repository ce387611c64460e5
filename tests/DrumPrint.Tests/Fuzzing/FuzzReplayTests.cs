using DrumPrint.Fuzz.Mutating;
using DrumPrint.Fuzz.Targets;

namespace DrumPrint.Tests.Fuzzing;

/// <summary>The fuzzer's targets over its examples, every found case, and some thousand changes of them that are the same in every run.</summary>
/// <remarks><c>tools/fuzz.sh</c> tries millions; see <c>fixtures/fuzz/README.md</c>.</remarks>
public sealed class FuzzReplayTests
{
    private const int ChangesOfEach = 60;
    private const long MostExampleBytes = 500_000;

    private static readonly string Examples = Repository.File("fixtures", "fuzz");

    public static TheoryData<string> Targets => [.. FuzzTargets.Names];

    [Theory]
    [MemberData(nameof(Targets))]
    public void Every_example_is_taken_or_refused_as_its_name_says(string name)
    {
        using var target = FuzzTargets.Make(name);

        Assert.All(Files(name), file =>
        {
            var outcome = target.Run(File.ReadAllBytes(file));
            Assert.Equal(Path.GetFileName(file).Split('-')[0] switch { "good" => true, "bad" => false, _ => outcome.IsAccepted }, outcome.IsAccepted);
        });
    }

    [Theory]
    [MemberData(nameof(Targets))]
    public void No_change_of_an_example_brings_out_more_than_a_refusal(string name)
    {
        using var target = FuzzTargets.Make(name);
        var examples = Files(name).Select(File.ReadAllBytes).ToList();
        var words = examples.SelectMany(e => WordEdits.Words(e).Select(w => e[w])).Where(w => w.Length is > 1 and < 40).Take(500).ToList();
        var random = new FuzzRandom(1);
        var mutator = new Mutator(random, target.IsText ? words : [], 1 << 13, target.IsText);

        foreach (var example in examples)
        {
            for (var n = 0; n < ChangesOfEach; n++)
            {
                var input = mutator.Next(example, random.Of(examples));
                var fault = Record.Exception(() => target.Run(input));
                Assert.True(fault is null, $"{name}: {fault}{Environment.NewLine}{Convert.ToBase64String(input)}");
            }
        }
    }

    [Fact]
    public void Every_target_has_examples_of_both_kinds_and_every_folder_a_target()
    {
        Assert.Equal(FuzzTargets.Names.Order(StringComparer.Ordinal), Directory.GetDirectories(Examples).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.All(FuzzTargets.Names, name => Assert.All(["good-", "bad-"], kind => Assert.Contains(Files(name), f => Path.GetFileName(f).StartsWith(kind, StringComparison.Ordinal))));
    }

    [Fact]
    public void Examples_are_small() =>
        Assert.InRange(Directory.GetFiles(Examples, "*", SearchOption.AllDirectories).Sum(f => new FileInfo(f).Length), 1, MostExampleBytes);

    private static IEnumerable<string> Files(string target) => Directory.GetFiles(Path.Combine(Examples, target)).Order(StringComparer.Ordinal);
}
