using System.Reflection;
using Mono.Cecil;

namespace DrumPrint.Tests.Support;

/// <summary>The namespaces of an assembly that reach each other in a circle, by what its compiled types refer to. A namespace inside another
/// is one of its own, so a parent and its child count too.</summary>
internal sealed class NamespaceCircles
{
    private readonly Dictionary<string, SortedDictionary<string, SortedSet<string>>> _arrows = [];
    private readonly Dictionary<string, HashSet<string>> _reached = [];

    public NamespaceCircles(Assembly assembly)
    {
        using var references = new CompiledReferences(assembly);
        var types = references.Types().ToList();
        var own = types.Select(t => CompiledReferences.NamespaceOf(t.From)).Where(n => n.StartsWith(nameof(DrumPrint), StringComparison.Ordinal)).ToHashSet();
        foreach (var (from, to) in types)
        {
            var (start, end) = (CompiledReferences.NamespaceOf(from), CompiledReferences.NamespaceOf(to));
            if (start != end && own.Contains(start) && own.Contains(end) && to.Scope == from.Module)
            {
                var arrows = _arrows.TryGetValue(start, out var known) ? known : _arrows[start] = [];
                (arrows.TryGetValue(end, out var names) ? names : arrows[end] = []).Add($"{Outermost(from).Name} uses {Outermost(to).Name}");
            }
        }

        foreach (var start in own)
        {
            _reached[start] = Reached(start);
        }
    }

    /// <summary>Every pair that reaches each other, as "A ⇄ B", in the order of the alphabet.</summary>
    public IReadOnlyList<string> Pairs =>
    [
        .. from a in _reached.Keys
           from b in _reached[a]
           where string.CompareOrdinal(a, b) < 0 && _reached[b].Contains(a)
           let pair = $"{a} ⇄ {b}"
           orderby pair
           select pair,
    ];

    /// <summary>The arrows inside circles, each with a few of the types that make it.</summary>
    public IEnumerable<string> Arrows =>
        from start in _arrows
        from end in start.Value
        where _reached[end.Key].Contains(start.Key)
        select $"{start.Key} → {end.Key}: {string.Join(", ", end.Value.Take(4))}{(end.Value.Count > 4 ? $" and {end.Value.Count - 4} more" : "")}";

    private static TypeReference Outermost(TypeReference type) => type.DeclaringType is { } outer ? Outermost(outer) : type;

    private HashSet<string> Reached(string start)
    {
        var reached = new HashSet<string>();
        var open = new Stack<string>([start]);
        while (open.TryPop(out var at))
        {
            foreach (var next in _arrows.TryGetValue(at, out var arrows) ? arrows.Keys.Where(reached.Add) : [])
            {
                open.Push(next);
            }
        }

        return reached;
    }
}
