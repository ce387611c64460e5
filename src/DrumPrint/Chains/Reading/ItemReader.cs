using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>Reads lists whose items each name what they are and give its settings: processors, bands.</summary>
internal sealed class ItemReader(FormReader form, ProblemList problems, IReadOnlyList<ProcessorDefinition> catalogue)
{
    private readonly List<string> _names = [.. catalogue.Select(d => d.Key).Distinct()];

    // Of one name, in rising order.
    private readonly ILookup<string, ProcessorDefinition> _revisions = catalogue.OrderBy(d => d.Revision).ToLookup(d => d.Key);

    /// <summary>Items of a list parameter, such as the bands of an equaliser.</summary>
    public List<Item> Items(ListParameter list, ArrayNode array, string place)
    {
        var items = new List<Item>();
        var names = list.Kinds.Select(k => k.Key).ToList();
        for (var i = 0; i < array.Items.Count; i++)
        {
            foreach (var (member, inner) in Named(array.Items[i], JsonPlace.Item(place, i), Noun(list), names))
            {
                var kind = list.Kinds.First(k => k.Key == member.Name);
                var values = form.Read(StageKeys.Shape(kind), member.Value, member.Position, inner, member.Name);
                if (!values.IsSound)
                {
                    continue;
                }

                var item = kind.With(values.Of(kind.Parameters));
                foreach (var (parameter, wanted) in item.Settings.Wanted)
                {
                    problems.Add(member.Position, JsonPlace.Key(inner, parameter.Key), $"'{parameter.Key}' asks for '{wanted.Goal.Key}', which is looked for in the row of a bus only. Give a number here.");
                }

                items.Add(item);
            }
        }

        return items;
    }

    /// <summary>The processors of a bus.</summary>
    public List<StageValues> Stages(ArrayNode array, string place)
    {
        var stages = new List<StageValues>();
        for (var i = 0; i < array.Items.Count; i++)
        {
            stages.AddRange(Named(array.Items[i], JsonPlace.Item(place, i), "a processor", _names, Meant).Select(n => Stage(n.Member, n.Place)));
        }

        return stages;
    }

    private StageValues Stage(Member member, string place)
    {
        var revisions = _revisions[member.Name].ToList();
        var definition = revisions[^1];
        if (member.Value is ObjectNode group
            && group.Members.FirstOrDefault(m => m.Name == StageKeys.Revision.Key)?.Value is NumberNode { Number: var wanted } node
            && StageKeys.Revision.Problem(wanted) is null)
        {
            if (revisions.Find(d => d.Revision == wanted) is { } found)
            {
                definition = found;
            }
            else
            {
                var known = Show.List([.. revisions.Select(d => Show.Number(d.Revision))]);
                problems.Add(node.Position, JsonPlace.Key(place, StageKeys.Revision.Key), $"{member.Name} has no revision {Show.Number(wanted)}; it has {known}.");
            }
        }

        var values = form.Read(StageKeys.Shape(definition), member.Value, member.Position, place, member.Name);
        return new StageValues(definition, values.IsSound ? definition.With(values.Of(definition.Parameters)).Settings : null, values);
    }

    // The one member that an item of a list consists of. Of several, every known one is read for its mistakes too.
    private IEnumerable<(Member Member, string Place)> Named(TreeNode node, string place, string what, List<string> names, Func<string, string?>? meant = null)
    {
        if (node is not ObjectNode { Members: var members })
        {
            var word = node is TextNode { Text: var text } && names.Contains(text) ? text : names[0];
            problems.Add(node.Position, place, $"this is {NodeWords.Kind(node)}; {what} looks like {{ \"{word}\": {{ … }} }}.");
            return [];
        }

        var known = members.Where(m => names.Contains(m.Name)).ToList();
        if (members.Count == 0)
        {
            problems.Add(node.Position, place, $"this {{ }} is empty; {what} looks like {{ \"{names[0]}\": {{ … }} }}.");
        }
        else if (members.Count == 1 && known.Count == 0)
        {
            var given = members[0].Name;
            problems.Add(members[0].Position, JsonPlace.Key(place, given), Unknown(given, what, names, meant?.Invoke(given)));
        }
        else if (known.Count == 1)
        {
            foreach (var stray in members.Where(m => m != known[0]))
            {
                problems.Add(stray.Position, JsonPlace.Key(place, stray.Name), $"'{Show.Name(stray.Name)}' must stand inside the braces of '{known[0].Name}'.");
            }
        }
        else if (known.Count > 1)
        {
            problems.Add(known[1].Position, place, $"this names {Show.List([.. known.Select(m => m.Name)])}; give each a {{ }} of its own.");
        }
        else
        {
            problems.Add(node.Position, place, $"a name is missing around these settings; {what} looks like {{ \"{names[0]}\": {{ … }} }}.");
        }

        return [.. known.Select(m => (m, JsonPlace.Key(place, m.Name)))];
    }

    private static string Noun(ListParameter list) => list.Kinds[0] is ProcessorKind ? "a processor in a band" : $"an item of '{list.Key}'";

    // The processor that another word of the trade stands for.
    private string? Meant(string given) => catalogue.FirstOrDefault(d => d.AlsoCalled.Contains(given, StringComparer.OrdinalIgnoreCase))?.Key;

    private static string Unknown(string given, string what, List<string> names, string? meant)
    {
        var shown = Show.Name(given);
        return (meant ?? Nearest.Word(given, names)) is { } word
            ? $"'{shown}' is not {what}. Did you mean '{word}'?"
            : $"'{shown}' is not {what}; there are {Show.List(names)}.";
    }
}
