using System.Text.Json;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>A goal in place of a number: a group that says what is wanted, or the bare word where that says all.</summary>
internal static class GoalForm
{
    /// <summary>Whether what stands there is meant as a goal.</summary>
    public static bool Fits(NumberParameter parameter, TreeNode node) => node is ObjectNode || (node is TextNode { Text: var word } && parameter.Goals.Any(g => IsWord(g) && g.Key == word));

    /// <summary>The goal, or null after telling what is wrong with it.</summary>
    public static object? Read(FormReader form, NumberParameter parameter, TreeNode node, string place)
    {
        if (node is not ObjectNode group)
        {
            var named = parameter.Goals.First(g => IsWord(g) && g.Key == ((TextNode)node).Text);
            return new Sought(named, Settings.Of(named.Parameters), null);
        }

        var goal = parameter.Goals.FirstOrDefault(g => group.Members.Any(m => m.Name == g.Key)) ?? parameter.Goals[0];
        var found = Found(parameter);
        var values = form.Read(new Shape($"'{parameter.Key}'", parameter.Help, [.. goal.Parameters, found]), group, node.Position, place, parameter.Key);
        if (!values.IsSound)
        {
            return null;
        }

        if (goal.What is ToggleParameter toggle && !(values.Has(toggle) && values.IsOn(toggle)))
        {
            form.Problem(values.At(toggle), values.PlaceOf(toggle), $"'{parameter.Key}' takes {Wording.Takes(parameter)}.");
            return null;
        }

        return new Sought(goal, Settings.Of(goal.Parameters, values.Of(goal.Parameters)), values.Number(found));
    }

    /// <summary>Writes it under the parameter's key.</summary>
    public static void Write(Utf8JsonWriter json, NumberParameter parameter, Sought sought)
    {
        json.WriteStartObject(parameter.Key);
        ParameterForms.Write(json, sought.Goal.Parameters, sought.Settings);
        if (sought.Found is { } found)
        {
            json.WriteNumber(Found(parameter).Key, found);
        }

        json.WriteEndObject();
    }

    /// <summary>Describes every goal of a parameter as one more way to give it.</summary>
    public static void Describe(SchemaWriter schema, NumberParameter parameter)
    {
        foreach (var goal in parameter.Goals)
        {
            schema.Json.WriteStartObject();
            schema.Json.WriteString("description", goal.What.Help);
            schema.Group([.. goal.Parameters, Found(parameter)]);
            schema.Json.WriteEndObject();
            if (IsWord(goal))
            {
                schema.Json.WriteStartObject();
                schema.Json.WriteString("const", goal.Key);
                schema.Json.WriteEndObject();
            }
        }
    }

    /// <summary>How a chain sets a number by it.</summary>
    public static string Example(Goal goal) => IsWord(goal) ? $"\"{goal.Key}\"" : $"{{ {string.Join(", ", goal.Parameters.Select(p => $"\"{p.Key}\": {Example(p)}"))} }}";

    /// <summary>What a goal does, for a page of reference.</summary>
    public static string Help(Goal goal)
    {
        string[] choices = [.. goal.Parameters.OfType<ChoiceParameter>().SelectMany(p => p.Choices).Select(c => $"{c.Word}: {c.Help.TrimEnd('.')}")];
        return $"{goal.Key}: {goal.What.Help}{(choices.Length == 0 ? "" : $" {string.Join("; ", choices)}.")}";
    }

    /// <summary>Where the number that was found stands beside the goal.</summary>
    private static NumberParameter Found(NumberParameter parameter) =>
        new("found" + parameter.Unit.Suffix(), parameter.Unit, parameter.Minimum, parameter.Maximum, null, "The number that a print found; with it nothing is looked for again. Take it out to have it found anew.");

    // A toggle that is always true says all by its name.
    private static bool IsWord(Goal goal) => goal is { What: ToggleParameter, Parameters.Count: 1 };

    private static string Example(Parameter parameter) => parameter switch
    {
        NumberParameter number => Show.Number(Math.Clamp(number.Minimum < 0 ? -18 : 6, number.Minimum, number.Maximum)),
        _ => ParameterForms.Of(parameter).Example(parameter)!,
    };
}
