using System.Collections;
using System.Globalization;
using System.Reflection;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tests.Chains;

/// <summary>Compares chains by everything they say. Where they stand, that is path and lines, says nothing.</summary>
internal static class Same
{
    public static void Chains(Chain expected, Chain actual) => Assert.Equal(Describe(expected), Describe(actual));

    private static string Describe(Chain chain) => string.Join("\n", Lines("", chain));

    private static IEnumerable<string> Lines(string place, object? value) => value switch
    {
        null or string or bool or int or long or Enum => [$"{place} = {value ?? "null"}"],
        double number => [$"{place} = {number.ToString("R", CultureInfo.InvariantCulture)}"],
        ProcessorDefinition definition => [$"{place} = {definition.Key} {definition.Revision}"],
        Stage stage => Lines($"{place}.key", stage.Key).Concat(Lines(place, stage.Definition)).Concat(Lines(place, stage.Definition.Parameters, stage.Settings)),
        Sought sought => Lines($"{place}.found", sought.Found).Concat(Lines($"{place}.{sought.Goal.Key}", sought.Goal.Parameters, sought.Settings)),
        Item item => Lines($"{place}.{item.Kind.Key}", item.Kind.Parameters, item.Settings),
        IEnumerable list => list.Cast<object>().SelectMany((item, i) => Lines($"{place}[{i}]", item)),
        _ => value.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance)
            .Where(p => p.Name is not ("Line" or "Path" or "Folder") && p.GetIndexParameters().Length == 0)
            .SelectMany(p => Lines($"{place}.{p.Name}", p.GetValue(value))),
    };

    private static IEnumerable<string> Lines(string place, IEnumerable<Parameter> parameters, Settings settings) =>
        parameters.SelectMany(p => Lines($"{place}.{p.Key}", settings.Raw(p)));
}
