using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Files;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>Reads the recipe that a chain uses into the chain, as if it stood there.</summary>
/// <remarks>What both give is the chain's: a bus or impulse by its name, a print by its number, the drum bus and the output as a whole.
/// Nothing is put together from two halves.</remarks>
/// <param name="problems">Gathers the mistakes of both files.</param>
/// <param name="form">What has read the chain.</param>
/// <param name="reach">Which files the chain may name.</param>
internal sealed class RecipeReader(ProblemList problems, FormReader form, SessionReach reach)
{
    private readonly HashSet<string> _places = new(StringComparer.Ordinal);
    private readonly List<string> _replaced = [];

    /// <summary>Reads it.</summary>
    /// <param name="chain">What the chain gives; it is given what the recipe has and the chain has not.</param>
    /// <param name="chainPath">The chain file.</param>
    /// <param name="isGood">False after a mistake: what the chain refers to is not known then.</param>
    /// <returns>Null where the chain uses none.</returns>
    public UsedRecipe? Into(Values chain, string chainPath, out bool isGood)
    {
        isGood = true;
        if (chain.Text(ChainKeys.Use) is not { } use)
        {
            return null;
        }

        var before = problems.Count;
        var path = Beside(chainPath, use);
        if (Read(chain, use, path) is { } recipe && problems.Count == before)
        {
            Entries(chain, recipe, ChainKeys.Impulses, use);
            Entries(chain, recipe, ChainKeys.Buses, use);
            Prints(chain, recipe);
            Whole(chain, recipe, ChainKeys.DrumBus);
            Whole(chain, recipe, ChainKeys.Output);
            form.References.RemoveAll(r => r.Position.File is not null && _replaced.Exists(p => r.Place == p || r.Place.StartsWith(p + ".", StringComparison.Ordinal)));
            if (chain.Entries(ChainKeys.Prints).Count == 0)
            {
                problems.Add(chain.At(ChainKeys.Use), chain.PlaceOf(ChainKeys.Use), $"there is no print, neither here nor in {Show.Name(use)}. Add at least one.");
            }
        }

        isGood = problems.Count == before;
        return new UsedRecipe(use, path, _places);
    }

    private Values? Read(Values chain, string use, string path)
    {
        var (at, place) = (chain.At(ChainKeys.Use), chain.PlaceOf(ChainKeys.Use));
        if (reach.Outside(use) is { } outside)
        {
            problems.Add(at, place, $"the recipe {Show.Name(use)} is not read: {reach.Advice(outside)}");
            return null;
        }

        try
        {
            return FormFile.Read(SourceFile.Read(path), RecipeKeys.Shape, RecipeKeys.Recipe, "recipe", form, problems, path);
        }
        catch (UnreadableFileException e)
        {
            problems.Add(at, place, e.Message);
            return null;
        }
    }

    private void Entries(Values chain, Values recipe, NamedShapesParameter parameter, string use)
    {
        var own = chain.Entries(parameter).ToDictionary(e => e.Name, StringComparer.Ordinal);
        var merged = new List<Values>();
        foreach (var entry in recipe.Entries(parameter))
        {
            if (own.Remove(entry.Name, out var instead))
            {
                _replaced.Add(entry.Place);
                merged.Add(instead);
                continue;
            }

            if (parameter == ChainKeys.Impulses && entry.Text(ImpulseKeys.File) is { } file)
            {
                entry.Add(ImpulseKeys.File, Beside(use, file), entry.At(ImpulseKeys.File));
            }

            _places.Add($"{parameter.Key}.{entry.Name}");
            merged.Add(entry);
        }

        Put(chain, recipe, parameter, parameter, [.. merged, .. chain.Entries(parameter).Where(e => own.ContainsKey(e.Name))]);
    }

    private void Prints(Values chain, Values recipe)
    {
        var own = chain.Entries(ChainKeys.Prints);
        var merged = new List<Values>(own);
        foreach (var print in recipe.Entries(RecipeKeys.Prints))
        {
            if (own.Any(p => p.Number(PrintKeys.Number) == print.Number(PrintKeys.Number)))
            {
                _replaced.Add(print.Place);
                continue;
            }

            _places.Add(FormattableString.Invariant($"prints.{print.Number(PrintKeys.Number)}"));
            merged.Add(print);
        }

        Put(chain, recipe, ChainKeys.Prints, RecipeKeys.Prints, merged);
    }

    private void Whole(Values chain, Values recipe, ShapeParameter parameter)
    {
        if (recipe.Group(parameter) is not { } group)
        {
            return;
        }

        if (chain.Has(parameter))
        {
            _replaced.Add(recipe.PlaceOf(parameter));
            return;
        }

        _places.Add(parameter.Key);
        chain.Add(parameter, group, recipe.At(parameter));
    }

    private static void Put(Values chain, Values recipe, Parameter parameter, Parameter there, List<Values> entries)
    {
        if (chain.Has(parameter) || recipe.Has(there))
        {
            chain.Add(parameter, entries, chain.Has(parameter) ? chain.At(parameter) : recipe.At(there));
        }
    }

    // What a file names lies beside it: the way there without turns, as people would write it.
    private static string Beside(string file, string named)
    {
        if (Path.IsPathRooted(named))
        {
            return named;
        }

        var folder = Path.GetDirectoryName(file) ?? "";
        var root = Path.GetPathRoot(folder) ?? "";
        var way = new List<string>();
        foreach (var step in $"{folder[root.Length..]}/{named}".Split([Path.DirectorySeparatorChar, '/'], StringSplitOptions.RemoveEmptyEntries).Where(s => s != "."))
        {
            if (step == ".." && way.Count > 0 && way[^1] != "..")
            {
                way.RemoveAt(way.Count - 1);
            }
            else
            {
                way.Add(step);
            }
        }

        return root + string.Join('/', way);
    }
}
