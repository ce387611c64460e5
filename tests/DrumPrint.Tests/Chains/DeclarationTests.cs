using DrumPrint.Chains.Format;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Tests.Chains;

public sealed class DeclarationTests
{
    public static TheoryData<string> Shapes => [.. All().Select(s => s.Summary)];

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Keys_of_the_file_are_declared_as_those_of_a_processor_are(string summary)
    {
        var shape = All().First(s => s.Summary == summary);

        Assert.Equal(shape.Keys.Count, shape.Keys.Select(k => k.Key).Distinct().Count());
        Assert.EndsWith(".", shape.Summary, StringComparison.Ordinal);
        Assert.All(shape.Keys, key => Assert.EndsWith(".", key.Help, StringComparison.Ordinal));
        Assert.All(shape.Keys.Where(k => k.Key != "$schema"), key => Assert.Matches("^[a-z]+(_[a-z]+)*$", key.Key));
        Assert.All(shape.Keys.OfType<NumberParameter>().Where(n => n.Key != RideKeys.Db.Key), number =>
        {
            Assert.EndsWith(number.Unit.Suffix(), number.Key, StringComparison.Ordinal);
            Assert.True(number.Minimum <= number.Maximum);
            Assert.True(number.Default is null || number.Problem(number.Default.Value) is null);
        });
        Assert.All(shape.Keys.OfType<ChoiceParameter>(), choice => Assert.Contains(choice.Default, choice.Choices.Select(c => c.Word)));
    }

    [Fact]
    public void No_processor_takes_a_key_of_the_chain_for_its_own()
    {
        var keys = Catalogue.All.SelectMany(d => d.Parameters).Select(p => p.Key);

        Assert.DoesNotContain(StageKeys.Key.Key, keys);
        Assert.DoesNotContain(StageKeys.Revision.Key, keys);
    }

    private static IEnumerable<Shape> All() => Inner(ChainKeys.Shape).Concat(Inner(TempoKeys.Shape)).DistinctBy(s => s.Summary);

    private static IEnumerable<Shape> Inner(Shape shape) => shape.Keys
        .Select(k => k switch
        {
            ShapeParameter one => one.Shape,
            NamedShapesParameter named => named.Shape,
            ShapesParameter list => list.Shape,
            _ => null,
        })
        .OfType<Shape>()
        .SelectMany(Inner)
        .Prepend(shape);
}
