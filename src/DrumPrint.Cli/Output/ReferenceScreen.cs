using DrumPrint.Chains.Describing;
using Spectre.Console;

namespace DrumPrint.Cli.Output;

/// <summary>Shows the processor reference.</summary>
internal static class ReferenceScreen
{
    public static void List(IReadOnlyList<ProcessorPage> pages)
    {
        var console = Screen.Create();
        var grid = new Grid().AddColumn(new GridColumn().NoWrap()).AddColumn();
        foreach (var page in pages)
        {
            grid.AddRow(Markup.Escape(page.Key), Markup.Escape(page.Summary));
        }

        console.Write(grid);
        console.WriteLine();
        console.WriteLine("For the settings of one: drumprint processors NAME");
    }

    public static void Page(ProcessorPage page)
    {
        var console = Screen.Create();
        console.WriteLine(page.Summary);
        console.WriteLine($"Revision {page.Revision}{(page.Revisions.Count > 1 ? $" (also: {string.Join(", ", page.Revisions.Skip(1))})" : "")}{(page.TakesKey ? "; takes a \"key\", the name of another track or bus to listen to" : "")}.");
        console.WriteLine();
        console.WriteLine($"In a chain, with the settings you want: {page.Example}");
        foreach (var part in page.Tables)
        {
            if (part.Rows.Count == 0)
            {
                continue;
            }

            console.WriteLine();
            console.WriteLine(part.Title == page.Key ? part.Title : $"{part.Title}: {part.Summary}");
            var table = new Table().Border(TableBorder.SimpleHeavy);
            table.AddColumn(new TableColumn("Setting").NoWrap());
            table.AddColumn("Takes");
            table.AddColumn("Left out");
            table.AddColumn("What it does");
            foreach (var row in part.Rows)
            {
                table.AddRow(Markup.Escape(row.Key), Markup.Escape(row.Takes), Markup.Escape(row.Default), Markup.Escape(row.Help));
            }

            console.Write(table);
        }
    }
}
