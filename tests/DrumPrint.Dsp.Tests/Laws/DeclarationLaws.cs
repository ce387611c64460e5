using System.Text.RegularExpressions;
using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Laws;

/// <summary>What every declaration in the catalogue must hold to.</summary>
public sealed partial class DeclarationLaws
{
    // The first changes nothing of the sound, and no chain can name it; the others hold a processor that is in the catalogue.
    private static readonly Type[] Others = [typeof(DetectorLevels), typeof(OneSide), typeof(OneSideReducer)];

    [Fact]
    public void Every_processor_of_the_assembly_is_in_the_catalogue()
    {
        var made = Catalogue.All.Select(d => LawCase.All(d, randomCount: 0)[0].Create().GetType()).ToHashSet();

        var all = typeof(IProcessor).Assembly.GetTypes().Where(t => typeof(IProcessor).IsAssignableFrom(t) && t is { IsAbstract: false, IsInterface: false } && !Others.Contains(t));

        Assert.All(all, type => Assert.True(made.Contains(type), $"{type.Name} is not in the catalogue."));
    }

    [Fact]
    public void A_key_and_revision_stand_for_one_sound_only()
    {
        var names = Catalogue.All.Select(d => (d.Key, d.Revision)).ToArray();

        Assert.Equal(names.Length, names.Distinct().Count());
    }

    [Fact]
    public void Keys_are_snake_case_and_unique_and_end_with_the_unit()
    {
        Assert.All(Catalogue.All, d => Assert.Matches(SnakeCase(), d.Key));
        foreach (var (owner, parameters) in Groups())
        {
            Assert.Equal(parameters.Count, parameters.Select(p => p.Key).Distinct().Count());
            foreach (var parameter in parameters)
            {
                Assert.Matches(SnakeCase(), parameter.Key);
                if (parameter is NumberParameter number)
                {
                    Assert.True(number.Key.EndsWith(number.Unit.Suffix(), StringComparison.Ordinal), $"{owner}.{number.Key} does not end with {number.Unit.Suffix()}");
                    Assert.True(
                        number.Unit != Unit.None || !Enum.GetValues<Unit>().Any(u => u != Unit.None && number.Key.EndsWith(u.Suffix(), StringComparison.Ordinal)),
                        $"{owner}.{number.Key} ends with a unit and declares none.");
                }
            }
        }
    }

    [Fact]
    public void Every_line_of_help_is_a_sentence()
    {
        var lines = Catalogue.All.Select(d => (Where: d.Key, Line: d.Summary))
            .Concat(Groups().SelectMany(g => g.Parameters.Select(p => (Where: $"{g.Owner}.{p.Key}", Line: p.Help))))
            .Concat(Groups().SelectMany(g => g.Parameters.OfType<ChoiceParameter>().SelectMany(c => c.Choices.Select(o => (Where: $"{g.Owner}.{c.Key}.{o.Word}", Line: o.Help)))))
            .Concat(Groups().SelectMany(g => g.Parameters.OfType<ListParameter>().SelectMany(l => l.Kinds.Select(k => (Where: $"{g.Owner}.{l.Key}.{k.Key}", Line: k.Summary)))));

        Assert.All(lines, l => Assert.True(l.Line.Length > 3 && char.IsUpper(l.Line[0]) && l.Line.EndsWith('.'), $"{l.Where}: {l.Line}"));
    }

    [Fact]
    public void Defaults_lie_in_their_ranges()
    {
        foreach (var (owner, parameters) in Groups())
        {
            foreach (var parameter in parameters)
            {
                switch (parameter)
                {
                    case NumberParameter number:
                        Assert.True(number.Minimum < number.Maximum, $"{owner}.{number.Key}");
                        Assert.True(number.Default is null || number.Problem(number.Default.Value) is null, $"{owner}.{number.Key}");
                        Assert.True(number.Default is null || !number.IsRequired, $"{owner}.{number.Key} is required and has a default.");
                        Assert.True(number.Steps is null || number.Steps.SequenceEqual(number.Steps.Order().Where(s => s >= number.Minimum && s <= number.Maximum)), $"{owner}.{number.Key}");
                        break;
                    case ChoiceParameter choice:
                        Assert.Contains(choice.Choices, c => c.Word == choice.Default);
                        break;
                    default:
                        break;
                }
            }
        }
    }

    private static IEnumerable<(string Owner, IReadOnlyList<Parameter> Parameters)> Groups() =>
        Catalogue.All.SelectMany(d => Groups(d.Key, d.Parameters));

    private static IEnumerable<(string Owner, IReadOnlyList<Parameter> Parameters)> Groups(string owner, IReadOnlyList<Parameter> parameters) =>
        parameters.OfType<ListParameter>()
            .SelectMany(l => l.Kinds)
            .SelectMany(k => Groups($"{owner}.{k.Key}", k.Parameters))
            .Prepend((owner, parameters));

    [GeneratedRegex("^[a-z][a-z0-9]*(_[a-z0-9]+)*$")]
    private static partial Regex SnakeCase();
}
