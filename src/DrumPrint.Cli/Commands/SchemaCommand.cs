using System.CommandLine;
using DrumPrint.Chains.Describing;
using DrumPrint.Checking;
using DrumPrint.Cli.Output;
using DrumPrint.Delivering;
using DrumPrint.Tickets;

namespace DrumPrint.Cli.Commands;

/// <summary><c>schema</c>: the JSON Schemas of the file formats.</summary>
internal static class SchemaCommand
{
    public static Command Create()
    {
        var recipe = new Option<bool>("--recipe") { Description = "The schema of recipes, which several chains share, instead." };
        var ticket = new Option<bool>("--ticket") { Description = "The schema of tickets instead." };
        var delivery = new Option<bool>("--delivery") { Description = "The schema of a delivery's manifest instead." };
        var check = new Option<bool>("--check") { Description = "The schema of what check --json writes instead." };
        var command = new Command("schema", "Write the JSON Schema of the chain file, for editors that complete and check as you type.") { recipe, ticket, delivery, check };
        command.Validators.Add(result =>
        {
            var asked = new[] { recipe, ticket, delivery, check }.Where(o => result.GetValue(o)).Select(o => o.Name).ToList();
            if (asked.Count > 1)
            {
                result.AddError($"{string.Join(" and ", asked.Take(2))} name two schemas: give one of them.");
            }
        });
        Guard.Run(command, (parsed, _) =>
        {
            Terminal.TellLines(parsed.GetValue(recipe) ? ChainSchema.RecipeText() : parsed.GetValue(check) ? CheckSchema.Text() : parsed.GetValue(delivery) ? ManifestSchema.Text() : parsed.GetValue(ticket) ? TicketSchema.Text() : ChainSchema.Text());
            return ExitCode.Done;
        });
        return command;
    }
}
