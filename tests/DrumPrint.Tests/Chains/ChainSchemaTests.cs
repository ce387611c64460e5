using System.Text.Json;
using DrumPrint.Chains.Describing;
using DrumPrint.Chains.Writing;
using FsCheck.Xunit;
using Json.Schema;

namespace DrumPrint.Tests.Chains;

public sealed class ChainSchemaTests
{
    /// <summary>Set to 1 to write the schemas anew after a change of the file format; the change then shows in the diff.</summary>
    private const string Rewrite = "DRUMPRINT_REWRITE_SCHEMA";

    private static readonly JsonDocumentOptions Lenient = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    private static readonly JsonSchema Schema = JsonSchema.FromText(ChainSchema.Text(TestCatalogue.All));

    [Fact]
    public void The_schemas_in_the_repository_are_those_of_the_code()
    {
        Assert.Equal(ChainSchema.Text(), Committed("chain.schema.json", ChainSchema.Text()));
        Assert.Equal(ChainSchema.TempoText(), Committed("tempo.schema.json", ChainSchema.TempoText()));
    }

    [Fact]
    public void The_schemas_are_sound_by_the_rules_of_their_draft()
    {
        Assert.True(IsValid(MetaSchemas.Draft202012, ChainSchema.Text()));
        Assert.True(IsValid(MetaSchemas.Draft202012, ChainSchema.Text(TestCatalogue.All)));
        Assert.True(IsValid(MetaSchemas.Draft202012, ChainSchema.TempoText()));
    }

    [Fact]
    public void The_examples_keep_to_the_schemas()
    {
        Assert.True(IsValid(JsonSchema.FromText(ChainSchema.Text()), File.ReadAllText(Fixtures.Chain("small.chain.json"))));
        Assert.True(IsValid(JsonSchema.FromText(ChainSchema.TempoText()), File.ReadAllText(Fixtures.Chain("raw/tempo.json"))));
    }

    [Property(MaxTest = 50)]
    public void What_the_reader_takes_the_schema_takes(int seed)
    {
        var chain = new RandomChain(seed).Next();

        Assert.True(IsValid(Schema, ChainWriter.Canonical(chain)));
    }

    [Theory]
    [InlineData("\"tempo\": 1")]
    [InlineData("\"output\": { \"bits\": 20 }")]
    [InlineData("\"output\": { \"bits\": \"24\" }")]
    [InlineData("\"output\": { \"rough\": 90 }")]
    [InlineData("\"output\": { \"click\": { \"number\": 1.5 } }")]
    [InlineData("\"impulses\": { \"hall\": { \"layout\": \"auto\" } }")]
    [InlineData("\"impulses\": { \"hall\": \"ir\\\\hall.wav\" }")]
    [InlineData("\"drum_bus\": { \"through\": [ { } ] }")]
    [InlineData("\"drum_bus\": { \"through\": [ { \"gain\": { }, \"eq\": { \"bands\": [ ] } } ] }")]
    [InlineData("\"drum_bus\": { \"through\": [ { \"limiter\": { } } ] }")]
    [InlineData("\"drum_bus\": { \"through\": [ { \"gain\": { \"key\": \"kick\" } } ] }")]
    [InlineData("\"drum_bus\": { \"through\": [ { \"compress\": { \"ratio\": 101 } } ] }")]
    [InlineData("\"drum_bus\": { \"through\": [ { \"compress\": { \"ratoi\": 10 } } ] }")]
    [InlineData("\"drum_bus\": { \"through\": [ { \"compress\": { \"topology\": \"feed_back\" } } ] }")]
    [InlineData("\"drum_bus\": { \"through\": [ { \"tape\": { \"oversampling\": 3 } } ] }")]
    [InlineData("\"drum_bus\": { \"through\": [ { \"tape\": { \"speed_in_per_s\": \"15\" } } ] }")]
    [InlineData("\"drum_bus\": { \"through\": [ { \"convolve\": { } } ] }")]
    [InlineData("\"drum_bus\": { \"through\": [ { \"gate\": { \"revision\": 3 } } ] }")]
    [InlineData("\"drum_bus\": { \"through\": [ { \"gate\": { \"revision\": 1, \"hold_ms\": 3 } } ] }")]
    [InlineData("\"drum_bus\": { \"through\": [ { \"eq\": { \"bands\": [ { \"bell\": { \"freq_hz\": 400 } } ] } } ] }")]
    public void What_one_value_shows_to_be_wrong_both_refuse(string rest)
    {
        var json = Sample.Chain(rest: rest);

        Assert.NotEmpty(Sample.Mistakes(json));
        Assert.False(IsValid(Schema, json));
    }

    [Theory]
    [InlineData("\"drum_bus\": { \"through\": [ { \"gate\": { \"revision\": 1, \"open_db\": -3 } }, { \"gate\": { \"hold_ms\": 3, \"revision\": 2 } } ] }")]
    [InlineData("\"output\": { \"bits\": \"32f\", \"rough\": false, \"rough_with_bus\": { }, \"click\": false }")]
    [InlineData("\"$schema\": \"chain.schema.json\"")]
    public void Short_forms_and_older_revisions_both_take(string rest)
    {
        var json = Sample.Chain(rest: rest);

        Assert.NotNull(Sample.Read(json));
        Assert.True(IsValid(Schema, json));
    }

    private static bool IsValid(JsonSchema schema, string json)
    {
        using var document = JsonDocument.Parse(json, Lenient);
        return schema.Evaluate(document.RootElement).IsValid;
    }

    private static string Committed(string name, string current)
    {
        var path = Repository.File("src", "DrumPrint", "Chains", name);
        if (Environment.GetEnvironmentVariable(Rewrite) == "1")
        {
            File.WriteAllText(path, current);
        }

        return File.ReadAllText(path);
    }
}
