using DrumPrint.Chains.Describing;
using Spectre.Console;

namespace DrumPrint.Cli.Output;

/// <summary>Shows the processor reference.</summary>
internal static class ReferenceScreen
{
    public static void List(IReadOnlyList<ProcessorPage> pages)
    {
        var console = Terminal.Screen();
        var grid = new Grid().AddColumn(new GridColumn().NoWrap()).AddColumn();
        foreach (var page in pages)
        {
            grid.AddRow(Screen.Cell(page.Key), Screen.Cell(page.Summary));
        }

        console.Draw(grid);
        console.Line();
        console.Line("For the settings of one: drumprint processors NAME");
    }

    public static void Page(ProcessorPage page)
    {
        var console = Terminal.Screen();
        console.Line(page.Summary);
        console.Line($"Revision {page.Revision}{(page.Revisions.Count > 1 ? $" (also: {string.Join(", ", page.Revisions.Skip(1))})" : "")}{(page.TakesKey ? "; takes a \"key\", the name of another track or bus to listen to" : "")}.");
        console.Line();
        console.Line($"In a chain, with the settings you want: {page.Example}");
        foreach (var part in page.Tables)
        {
            if (part.Rows.Count == 0)
            {
                continue;
            }

            console.Line();
            console.Line(part.Title == page.Key ? part.Title : $"{part.Title}: {part.Summary}");
            var table = new Table().Border(TableBorder.SimpleHeavy);
            table.AddColumn(new TableColumn("Setting").NoWrap());
            table.AddColumn("Takes");
            table.AddColumn("Left out");
            table.AddColumn("What it does");
            foreach (var row in part.Rows)
            {
                table.AddRow(Screen.Cell(row.Key), Screen.Cell(row.Takes), Screen.Cell(row.Default), Screen.Cell(row.Help));
            }

            console.Draw(table);
        }
    }
}
