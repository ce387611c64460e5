using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Delivering;
using Json.Schema;

namespace DrumPrint.Tests.Delivering;

public sealed class ManifestSchemaTests : IDisposable
{
    private const string Rewrite = "DRUMPRINT_REWRITE_SCHEMA";

    private readonly DeliverySession _session = new();

    public void Dispose() => _session.Dispose();

    // Source: JSON Schema, draft 2020-12, by an independent validator.
    [Fact]
    public void A_manifest_of_everything_fits_its_schema_and_one_with_a_strange_key_does_not()
    {
        _session.TakeDelivered();
        _session.Deliver(
            2,
            b => b + ", \"delivery\": { \"wishes\": [ { \"version\": 2, \"wish\": \"More.\", \"about\": [\"dry\"], \"answer\": \"No.\" } ] }",
            with: o => o with { WithDry = true, WithRaw = true, SplitsStereo = true, RateHz = 44100, Encoding = SampleEncoding.Pcm16 });
        var schema = JsonSchema.FromText(ManifestSchema.Text());
        var text = File.ReadAllText(Path.Combine(_session.To, "Test_v2", "Test_v2.delivery.json"));

        using var manifest = JsonDocument.Parse(text);
        using var strange = JsonDocument.Parse(text.Replace("\"engine\"", "\"engines\"", StringComparison.Ordinal));

        Assert.True(schema.Evaluate(manifest.RootElement).IsValid);
        Assert.False(schema.Evaluate(strange.RootElement).IsValid);
    }

    [Fact]
    public void The_schema_in_the_repository_is_that_of_the_code()
    {
        var path = Repository.File("src", "DrumPrint", "Delivering", "delivery.schema.json");
        if (Environment.GetEnvironmentVariable(Rewrite) == "1")
        {
            File.WriteAllText(path, ManifestSchema.Text());
        }

        Assert.Equal(ManifestSchema.Text(), File.ReadAllText(path));
    }
}
