using System.Text;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Language;

namespace DrumPrint.Chains.Describing;

/// <summary>The reference of every processor, made from the declarations the reader goes by.</summary>
public static class ProcessorReference
{
    /// <summary>The newest revision of every processor, in catalogue order.</summary>
    public static IReadOnlyList<ProcessorPage> Pages(IReadOnlyList<ProcessorDefinition>? catalogue = null) =>
        [.. (catalogue ?? Catalogue.All).GroupBy(d => d.Key, StringComparer.Ordinal).Select(g => Page([.. g]))];

    /// <summary>The newest revision of one processor; null when there is none of that name.</summary>
    public static ProcessorPage? Find(string key, IReadOnlyList<ProcessorDefinition>? catalogue = null) =>
        Pages(catalogue).FirstOrDefault(p => p.Key == key);

    /// <summary>The processor that was meant by a mistyped name; null when none comes close.</summary>
    public static string? Nearest(string key, IReadOnlyList<ProcessorDefinition>? catalogue = null) =>
        (catalogue ?? Catalogue.All).FirstOrDefault(d => d.AlsoCalled.Contains(key, StringComparer.OrdinalIgnoreCase))?.Key ?? Language.Nearest.Word(key, Pages(catalogue).Select(p => p.Key));

    /// <summary>Pages as one Markdown text.</summary>
    public static string Markdown(IEnumerable<ProcessorPage> pages)
    {
        ArgumentNullException.ThrowIfNull(pages);
        var text = new StringBuilder();
        foreach (var page in pages)
        {
            text.Append(text.Length > 0 ? "\n" : "").Append(Markdown(page));
        }

        return text.ToString();
    }

    private static string Markdown(ProcessorPage page)
    {
        var text = new StringBuilder();
        text.Append("## ").Append(page.Key).Append("\n\n").Append(page.Summary).Append(" Revision ").Append(Show.Number(page.Revision));
        text.Append(page.Revisions.Count > 1 ? $"; {Show.List([.. page.Revisions.Skip(1).Select(r => Show.Number(r))])} can still be asked for.\n" : ".\n");
        text.Append("\n```jsonc\n").Append(page.Example).Append("\n```\n");
        foreach (var table in page.Tables)
        {
            if (table != page.Tables[0])
            {
                text.Append("\n### ").Append(table.Title).Append("\n\n").Append(table.Summary).Append('\n');
            }

            text.Append("\n| setting | takes | when left out | what it does |\n|---|---|---|---|\n");
            foreach (var row in table.Rows)
            {
                text.Append("| `").Append(row.Key).Append("` | ").Append(Cell(row.Takes)).Append(" | ").Append(Cell(row.Default)).Append(" | ").Append(Cell(row.Help)).Append(" |\n");
            }
        }

        return text.ToString();
    }

    private static ProcessorPage Page(IReadOnlyList<ProcessorDefinition> revisions)
    {
        var sorted = revisions.OrderByDescending(d => d.Revision).ToList();
        var newest = sorted[0];
        var shape = StageKeys.Shape(newest);
        var kinds = newest.Parameters.OfType<ListParameter>().SelectMany(l => l.Kinds).GroupBy(k => k.Parameters).Select(Table);
        return new ProcessorPage(
            newest.Key, newest.Revision, [.. sorted.Select(d => d.Revision)], newest.Summary, newest.IsNonLinear, newest.TakesKey, ParameterForms.Example(newest.Key, newest.NeedsKey ? [StageKeys.KeyOf(newest), .. newest.Parameters] : newest.Parameters), [Table(shape), .. kinds]);
    }

    // Kinds that take the same settings share a table.
    private static SettingsTable Table(IEnumerable<ItemKind> kinds)
    {
        var tables = kinds.Select(k => Table(StageKeys.Shape(k))).ToList();
        return tables[0] with { Title = string.Join(", ", tables.Select(t => t.Title)), Summary = string.Join(" ", tables.Select(t => t.Summary)) };
    }

    // Revision and off are the same everywhere; the page and the guide have them.
    private static SettingsTable Table(Shape shape) =>
        new(shape.Name, shape.Summary, [.. shape.Keys.Where(k => k != StageKeys.Revision && k != StageKeys.Off).Select(Row)]);

    private static SettingRow Row(Parameter parameter)
    {
        var form = ParameterForms.Of(parameter);
        return new(parameter.Key, form.TakesOnPage(parameter), form.LeftOut(parameter) ?? (parameter.IsRequired ? "must be given" : "off"), form.Help(parameter));
    }

    private static string Cell(string text) => text.Replace("|", "\\|", StringComparison.Ordinal);
}
