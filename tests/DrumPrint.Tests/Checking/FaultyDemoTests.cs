using System.Globalization;
using DrumPrint.Checking;
using DrumPrint.Checking.Findings;
using DrumPrint.Demo.Faults;
using Json.Schema;

namespace DrumPrint.Tests.Checking;

public sealed class FaultyDemoTests(FaultyDemoFixture demo) : IClassFixture<FaultyDemoFixture>
{
    // A musician who is shown a place this near sees the hit that is meant: a thirty-second at 104 BPM is 72 ms.
    private const double RightThereS = 0.05;

    private static readonly string[] Seeded = ["R1", "R2", "R3", "R4", "R5", "R6", "P1", "P2", "P3", "P4", "P5", "P6", "P7", "P9", "P10", "P11", .. FaultyDemoFixture.IsFull ? (string[])["R7"] : []];

    public static TheoryData<string> Ids => [.. Seeded];

    [Fact]
    public void Every_fault_whose_place_lies_in_the_session_is_seeded() =>
        Assert.Equal(Seeded.Order(StringComparer.Ordinal), demo.Made.Faults.Select(f => f.Id).Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(Ids))]
    public void A_seeded_fault_is_told_under_its_rule_its_track_and_its_place(string id)
    {
        var fault = demo.Made.Faults.Single(f => f.Id == id);

        Assert.All(fault.Signs, sign =>
        {
            var found = demo.Sign(sign);
            Assert.True(found is not null, $"{sign} is not found. Found: {string.Join(", ", demo.Report.Open.Select(f => $"{f.Rule.Id} {f.Track}"))}");
            if (found.PlacesS.Count > 0 && id != "P5")
            {
                Assert.All(fault.PlacesS, place => Assert.Contains(found.PlacesS, p => Math.Abs(p - place) < RightThereS));
            }
        });
    }

    [Fact]
    public void A_folder_that_a_killed_run_left_half_made_is_gone() =>
        Assert.Equal(["damaged"], Directory.GetDirectories(demo.Place).Select(Path.GetFileName));

    [Fact]
    public void The_clipped_hits_are_three_and_at_their_bars()
    {
        var found = demo.Sign(new FaultSign("C1", "snare vent"))!;

        Assert.Equal(3, found.Count);
        Assert.All(found.PlacesS, p => Assert.StartsWith("24:", demo.Report.Bar(p), StringComparison.Ordinal));
    }

    [Fact]
    public void The_slipped_overhead_is_512_frames_late() => Assert.Equal(512, demo.Sign(new FaultSign("B2", "overhead right"))!.Value!.Value, 1.0);

    [Fact]
    public void The_late_print_is_64_frames_late_and_its_first_notch_lies_at_375_Hz()
    {
        Assert.Equal(64, demo.Sign(new FaultSign("B3", "12 Impact"))!.Value!.Value, 1.0);
        Assert.Equal(375, demo.Sign(new FaultSign("F3", "12 Impact"))!.Value!.Value, 6.0);
    }

    [Fact]
    public void The_dip_of_the_steep_filter_is_forecast_where_the_sum_has_it()
    {
        var found = demo.Sign(new FaultSign("F4", "impact"))!;

        Assert.InRange(found.Value!.Value, 91, 97);
        Assert.Contains("−11.4 dB at equal level", found.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void A_normalised_print_is_told_by_what_it_gained()
    {
        var raised = double.Parse(demo.Made.Faults.Single(f => f.Id == "P3").What.Split("dBFS, ")[1].Split(' ')[0], CultureInfo.InvariantCulture);

        Assert.Contains(FormattableString.Invariant($"its peak is {raised:0.0} dB above the one in the ticket"), demo.Sign(new FaultSign("C6", "06 OH"))!.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Lost_ghosts_are_listed_in_their_section()
    {
        var found = demo.Sign(new FaultSign("G7", "snare gate"))!;

        Assert.Contains(" in verse 1", found.Sentence, StringComparison.Ordinal);
        Assert.Contains(demo.Report.Notes, n => n.Contains("'G7' is signed off for up to", StringComparison.Ordinal));
    }

    [Fact]
    public void A_print_under_another_name_is_known_by_its_samples() =>
        Assert.EndsWith("; its samples lie in 10 Snare Rasp (final).wav.", demo.Report.Open.Single(f => f.Rule.Id == "D4" && f.Track == "10 SnareRasp").Sentence, StringComparison.Ordinal);

    [Fact]
    public void The_list_names_every_fault_its_rule_and_its_place()
    {
        var list = File.ReadAllText(demo.Made.List);

        Assert.StartsWith("This session is damaged on purpose.", list, StringComparison.Ordinal);
        Assert.All(demo.Made.Faults, f => Assert.Contains($"\n{f.Id,-4} {f.Part}\n", list, StringComparison.Ordinal));
        Assert.Contains("24:", list, StringComparison.Ordinal);
    }

    [Fact]
    public void A_damaged_session_goes_into_no_folder_that_holds_something()
    {
        var folder = Path.GetDirectoryName(demo.Made.Session.Chain)!;

        var refused = Assert.Throws<UsageException>(() => FaultyDemo.Write(folder, false, false, null, null, CancellationToken.None));

        Assert.Contains("so that no damaged take lies among good ones", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_is_left_of_a_damaged_session_that_was_stopped()
    {
        using var cancel = new CancellationTokenSource();
        cancel.Cancel();
        var parent = Directory.CreateTempSubdirectory("drumprint-").FullName;

        Assert.ThrowsAny<OperationCanceledException>(() => FaultyDemo.Write(Path.Combine(parent, "damaged"), false, true, null, null, cancel.Token));

        Assert.Empty(Directory.GetFileSystemEntries(parent));
        Directory.Delete(parent);
    }

    [Fact]
    public void What_is_written_as_JSON_fits_its_schema()
    {
        using var stream = new MemoryStream();
        CheckJson.Write(stream, demo.Report);

        var schema = JsonSchema.FromText(CheckSchema.Text());
        using var document = System.Text.Json.JsonDocument.Parse(stream.ToArray());
        var result = schema.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });

        Assert.True(result.IsValid, System.Text.Json.JsonSerializer.Serialize(result));
    }

    [Fact]
    public void Each_place_that_is_pictured_shows_that_place_and_as_much_as_its_rule_asks()
    {
        var pictures = demo.Report.Pictures!;

        Assert.Equal(demo.Report.Findings.Count, pictures.Places.Count);
        Assert.All(demo.Report.Findings.Zip(pictures.Places), x => Assert.All(x.Second, p =>
        {
            Assert.InRange(p.MarksS[0], p.FromS, p.ToS);
            Assert.Equal(x.First.Rule.PictureS, p.ToS - p.FromS, 6);
            Assert.All(p.Lanes, lane => Assert.All(lane.Highest, h => Assert.InRange(h, -1.001, 1.001)));
        }));
        var clipped = pictures.Places[demo.Report.Findings.ToList().FindIndex(f => f.Rule.Id == "C1")];
        Assert.Equal(3, clipped.Count);
        Assert.All(clipped, p => Assert.Equal(0, p.TopDb, 2));
    }
}
