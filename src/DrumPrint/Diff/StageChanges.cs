using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Diff;

/// <summary>What changed in a row of processors.</summary>
internal static class StageChanges
{
    /// <summary>One sentence for each change, without the bus.</summary>
    public static IEnumerable<string> Of(IReadOnlyList<Stage> a, IReadOnlyList<Stage> b)
    {
        if (a.Count == b.Count && a.Zip(b).All(p => AreEqual(p.First, p.Second)))
        {
            yield break;
        }

        var isMoved = !Kinds(a).SequenceEqual(Kinds(b)) && Kinds(a).Order(StringComparer.Ordinal).SequenceEqual(Kinds(b).Order(StringComparer.Ordinal));
        if (isMoved)
        {
            yield return $"processors in another order: {Row(a)} → {Row(b)}";
        }

        var texts = new TextOf<Stage>(Text);
        var pairs = isMoved ? ByOccurrence(a, b) : SideBySide.Of(a, b, (x, y) => x.Definition.Key == y.Definition.Key, texts.AreSame);
        Stage? before = null;
        foreach (var (one, other) in pairs)
        {
            switch (one, other)
            {
                case ({ } x, { } y):
                    foreach (var change in Of(x, y, Name(y, b.Count(s => s.Definition.Key == y.Definition.Key) > 1 || a.Count(s => s.Definition.Key == x.Definition.Key) > 1 ? b : [])))
                    {
                        yield return change;
                    }

                    break;
                case ({ } x, null):
                    yield return $"{Name(x, a)} left out";
                    break;
                case (null, { } y):
                    yield return before is null ? $"{Name(y, b)} added at the front" : $"{Name(y, b)} added after the {Name(before, b)}";
                    break;
            }

            before = other ?? before;
        }
    }

    // Most rows are: none of their settings has to be written out to be told from another.
    private static bool AreEqual(Stage a, Stage b) => a.Definition == b.Definition && a.Key == b.Key && AreEqual(a.Definition.Parameters, a.Settings, b.Settings);

    private static bool AreEqual(IReadOnlyList<Parameter> parameters, Settings a, Settings b) => parameters.All(p => AreEqual(a.Raw(p), b.Raw(p)));

    private static bool AreEqual(object? a, object? b) => a is IReadOnlyList<Item> x && b is IReadOnlyList<Item> y
        ? x.Count == y.Count && x.Zip(y).All(p => p.First.Kind == p.Second.Kind && AreEqual(p.First.Kind.Parameters, p.First.Settings, p.Second.Settings))
        : Equals(a, b);

    private static IEnumerable<string> Of(Stage a, Stage b, string name)
    {
        if (a.Definition.Revision != b.Definition.Revision)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"{name} revision {a.Definition.Revision} → {b.Definition.Revision}");
        }

        if (a.Key != b.Key)
        {
            yield return $"{name} {ChangeWords.Moved("listens to", a.Key ?? "its own input", b.Key ?? "its own input")}";
        }

        foreach (var change in Of(a.Definition.Parameters, a.Settings, b.Definition.Parameters, b.Settings))
        {
            yield return $"{name} {change}";
        }
    }

    // Revisions may declare other parameters, so they meet by their keys.
    private static IEnumerable<string> Of(IReadOnlyList<Parameter> aParameters, Settings a, IReadOnlyList<Parameter> bParameters, Settings b)
    {
        foreach (var key in bParameters.Concat(aParameters).Select(p => p.Key).Distinct(StringComparer.Ordinal))
        {
            var one = aParameters.FirstOrDefault(p => p.Key == key);
            var other = bParameters.FirstOrDefault(p => p.Key == key);
            foreach (var change in Of(key, (one ?? other)?.Unit ?? Unit.None, Value(one, a), Value(other, b)))
            {
                yield return change;
            }
        }
    }

    private static object? Value(Parameter? parameter, Settings settings) => parameter?.Said(settings.Raw(parameter));

    private static IEnumerable<string> Of(string key, Unit unit, object? a, object? b)
    {
        if (a is IReadOnlyList<Item> || b is IReadOnlyList<Item>)
        {
            return Items((IReadOnlyList<Item>?)a ?? [], (IReadOnlyList<Item>?)b ?? []);
        }

        if (Equals(a, b) || (a is Sought before && b is Sought now && IsSame(before, now)))
        {
            return [];
        }

        if (a is Sought || b is Sought)
        {
            return [ChangeWords.Moved(key, unit, a, b)];
        }

        if (key == ProcessorKind.Off.Key)
        {
            return [b is true ? "left out" : "put back"];
        }

        return a is double || b is double
            ? [ChangeWords.Moved(key, unit, a as double?, b as double?)]
            : [ChangeWords.Moved(key.Replace('_', ' '), Word(a), Word(b))];
    }

    // Where one of the two has not looked yet, no other number has been found.
    private static bool IsSame(Sought a, Sought b) => a.AsksAs(b) && (a.Found is null || b.Found is null || a.Found == b.Found);

    private static IEnumerable<string> Items(IReadOnlyList<Item> a, IReadOnlyList<Item> b)
    {
        var texts = new TextOf<Item>(Text);
        foreach (var (one, other) in SideBySide.Of(a, b, (x, y) => x.Kind.Key == y.Kind.Key, texts.AreSame))
        {
            switch (one, other)
            {
                case ({ } x, { } y):
                    foreach (var change in Of(x.Kind.Parameters, x.Settings, y.Kind.Parameters, y.Settings))
                    {
                        yield return $"{Name(x)} {change}";
                    }

                    break;
                case ({ } x, null):
                    yield return $"{Name(x)} left out";
                    break;
                case (null, { } y):
                    yield return $"{Name(y)} added";
                    break;
            }
        }
    }

    // Such as "high pass at 35 Hz".
    private static string Name(Item item)
    {
        var place = item.Kind.Parameters.OfType<NumberParameter>().FirstOrDefault(p => p.Unit == Unit.Hertz);
        var gain = item.Kind.Parameters.OfType<NumberParameter>().FirstOrDefault(p => p.Key == "gain_db");
        var name = item.Kind.Key.Replace('_', ' ');
        if (place is not null && item.Settings.Find(place) is { } hertz)
        {
            name = $"{name} at {ChangeWords.Number(hertz)} Hz";
        }

        return gain is not null && place is null && item.Settings.Find(gain) is { } db ? $"{name} of {ChangeWords.Number(db)} dB" : name;
    }

    private static IEnumerable<string> Kinds(IEnumerable<Stage> stages) => stages.Select(s => s.Definition.Key);

    private static string Row(IReadOnlyList<Stage> stages) => string.Join(", ", stages.Select(s => Name(s, stages)));

    // The kind; with its number where a row has several.
    private static string Name(Stage stage, IReadOnlyList<Stage> row)
    {
        var alike = row.Where(s => s.Definition.Key == stage.Definition.Key).ToList();
        var name = ChangeWords.Processor(stage.Definition.Key);
        return alike.Count > 1 ? string.Create(CultureInfo.InvariantCulture, $"{name} {alike.FindIndex(s => ReferenceEquals(s, stage)) + 1}") : name;
    }

    private static List<(Stage? A, Stage? B)> ByOccurrence(IReadOnlyList<Stage> a, IReadOnlyList<Stage> b)
    {
        var left = a.ToList();
        return
        [
            .. b.Select(y =>
            {
                var x = left.First(s => s.Definition.Key == y.Definition.Key);
                left.Remove(x);
                return ((Stage?)x, (Stage?)y);
            }),
        ];
    }

    private static string Text(Stage stage) => string.Create(CultureInfo.InvariantCulture, $"{stage.Definition.Revision} {stage.Key} {Text(stage.Definition.Parameters, stage.Settings)}");

    private static string Text(Item item) => Text(item.Kind.Parameters, item.Settings);

    private static string Text(IReadOnlyList<Parameter> parameters, Settings settings) => string.Join(
        "; ",
        parameters.Select(p => settings.Raw(p) switch
        {
            double x => string.Create(CultureInfo.InvariantCulture, $"{p.Key} {x:R}"),
            Sought sought => $"{p.Key} {ChangeWords.Goal(sought)}",
            IReadOnlyList<Item> items => $"{p.Key} [{string.Join(", ", items.Select(i => $"{i.Kind.Key} {Text(i)}"))}]",
            var other => $"{p.Key} {other}",
        }));

    private static string Word(object? value) => value switch
    {
        null => "none",
        bool isOn => ChangeWords.Toggle(isOn),
        _ => value.ToString()!,
    };
}
