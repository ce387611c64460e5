using System.Text;
using DrumPrint.Chains.Reading;

namespace DrumPrint.Tests.Chains;

public sealed class JsonSyntaxTests
{
    [Theory]
    [InlineData("", "1:1: the file is empty.")]
    [InlineData("// a note and nothing else", "1:1: the file is empty.")]
    [InlineData("{ \"a\": 1 \"b\": 2 }", "1:9: a comma is missing here.")]
    [InlineData("{ \"a\": -3 dB }", "1:11: a: 'dB' does not belong here: a number stands without its unit, -3 alone.")]
    [InlineData("{ \"a\": 80 Hz, \"b\": 2 }", "1:11: a: 'Hz' does not belong here: a number stands without its unit, 80 alone.")]
    [InlineData("{ \"a\": 50 %}", "1:11: a: '%' does not belong here: a number stands without its unit, 50 alone.")]
    [InlineData("{ \"a\": \"Kick, \"b\": 2 }", "1:8: a closing quote seems to be missing here: \"Kick\".")]
    [InlineData("{ \"a: \"Kick\", \"b\": 2 }", "1:3: a closing quote seems to be missing here: \"a\".")]
    [InlineData("{ \"a\": \"Kick\" b }", "1:14: a comma is missing here.")]
    [InlineData("{ \"a\": 1,, \"b\": 2 }", "1:10: there is one comma too many here.")]
    [InlineData("{ , \"a\": 1 }", "1:3: there is one comma too many here.")]
    [InlineData("{ \"a\" 1 }", "1:7: a colon is missing between the key and its value.")]
    [InlineData("{ \"a\": 1 : 2 }", "1:10: a colon stands between a key and its value only.")]
    [InlineData("{ \"a\": 10:1 }", "1:8: a: a ratio is written as one number: 10.")]
    [InlineData("{ \"a\": 2.5 : 1, \"b\": 1 }", "1:8: a: a ratio is written as one number: 2.5.")]
    [InlineData("{ \"a\": \"b\": -20, \"c\": 4 } }", "1:8: a: a { is missing before this: \"b\" has a colon behind it, so it is a key, and keys stand inside { }.")]
    [InlineData("{ \"a\": [\n  \"b\": { } ] }", "2:3: a: a { is missing before this: \"b\" has a colon behind it, so it is a key, and keys stand inside { }.")]
    [InlineData("\"a\": 1 }", "1:1: a { is missing before this: \"a\" has a colon behind it, so it is a key, and keys stand inside { }.")]
    [InlineData("{ \"a\" /* a note */ : 1 }", "1:7: a comment cannot stand between a key and its colon. Move it behind the colon.")]
    [InlineData("{ \"a\": }", "1:8: a: a value is missing before this.")]
    [InlineData("{ \"a\": 2,5 }", "1:10: a: a decimal is written with a point, not a comma: 2.5.")]
    [InlineData("{ \"a\": -12,75 }", "1:12: a: a decimal is written with a point, not a comma: -12.75.")]
    [InlineData("{ \"a\": \u22122 }", "1:8: a: this dash is not a minus sign. Write a plain hyphen: -.")]
    [InlineData("{ \"a\": +2 }", "1:8: a: a number above zero has no sign. Leave the + out.")]
    [InlineData("{ \"a\": .5 }", "1:8: a: a digit must stand before the point: 0.5.")]
    [InlineData("{ \"a\": -.5 }", "1:8: a: a digit must stand before the point: -0.5.")]
    [InlineData("{ \"a\": 05 }", "1:8: a: a number does not start with a spare 0. Leave it out.")]
    [InlineData("{ \"a\": 5dB }", "1:8: a: '5dB' is not a number. Write digits and a point only, without a unit: 2.5.")]
    [InlineData("{ \"a\": 'b' }", "1:8: a: use double quotes (\"), not single ones.")]
    [InlineData("{ \u201Ca\u201D: 1 }", "1:3: use straight double quotes (\"), not curly ones.")]
    [InlineData("{ a: 1 }", "1:3: a key in double quotes must stand here.")]
    [InlineData("{ \"a\": stereo }", "1:8: a: 'stereo' must stand in double quotes.")]
    [InlineData("{ \"a\": True }", "1:8: a: 'True' is written in small letters.")]
    [InlineData("{ \"a\": yes }", "1:8: a: 'yes' is not known here. Write true.")]
    [InlineData("{ \"a\": off }", "1:8: a: 'off' is not known here. Write false.")]
    [InlineData("{ \"a\": \"raw\\kick.wav\" }", "1:12: a: a backslash inside quotes needs a second one. Between folders write / instead.")]
    [InlineData("{ \"a\": \"raw\n}", "1:8: a: the text that starts here has no closing quote on its line.")]
    [InlineData("{ \"a\": \"raw", "1:8: a: the text that starts here has no closing quote.")]
    [InlineData("{ \"a\": \"ra\tw\" }", "1:11: a: a tab inside quotes. Use spaces.")]
    [InlineData("{ \"a\": \"\\ud800\" }", "1:8: a: a \\u escape in this text stands for half a character. Write the character itself.")]
    [InlineData("{ \"a\": [\n1\n} }", "3:1: a: this } should be a ]: it closes the [ of line 1.")]
    [InlineData("{ \"a\": {\n\"b\": 1 ] }", "2:8: a: this ] should be a }: it closes the { of line 1.")]
    [InlineData("{ \"a\": { \"b\": 1 ", "1:8: a: the { that opens here is never closed.")]
    [InlineData("{ \"a\": [ 1, ", "1:8: a: the [ that opens here is never closed.")]
    [InlineData("{ } { }", "1:5: nothing may stand after the closing bracket of the file.")]
    [InlineData("{ # a note\n}", "1:3: a comment starts with //, not with #.")]
    [InlineData("{ /a note\n}", "1:3: a comment starts with //.")]
    [InlineData("{ /* a note\n}", "1:3: the comment that starts here is never closed with */.")]
    public void A_broken_text_is_told_in_plain_words_at_the_place_where_it_breaks(string json, string expected)
    {
        var mistakes = Sample.Mistakes(json);

        Assert.Equal([expected], mistakes);
    }

    [Theory]
    [InlineData("{\n  \"a\": {\n    \"b\": 1\n  \"c\": {\n  }\n}", "3:11: a: a } and a comma are missing here: the { of line 2 is still open.")]
    [InlineData("{\n  \"a\": {\n    \"b\": 1,\n  \"c\": {\n  }\n}", "2:8: a: the { that opens here is never closed: a } seems to be missing before line 4.")]
    [InlineData("{\n  \"a\": {\n    \"b\": {\n      \"d\": 1\n  },\n  \"c\": {\n  }\n}", "3:10: a.b: the { that opens here is never closed: a } seems to be missing before line 5.")]
    [InlineData("{\n  \"a\": [\n    { \"b\": 1 },\n  \"c\": 2\n}", "4:3: a: a ] seems to be missing before this: the [ of line 2 is still open.")]
    [InlineData("{\n  \"a\": { \"b\": 1\n}", "2:8: a: the { that opens here is never closed: a } seems to be missing before line 3.")]
    [InlineData("{\n  \"a\": [\n    { \"b\": 1 }\n}", "4:1: a: a ] seems to be missing before this: the [ of line 2 is still open.")]
    [InlineData("{\n  \"a\": {\n    \"b\": 1\n    \"d\": 1\n  }\n}", "3:11: a: a comma is missing here.")]
    [InlineData("{\n  \"a\": {\n  \"b\": 1\n  \"d\": 1\n  }\n}", "3:9: a: a comma is missing here.")]
    [InlineData("{\n    \"a\": {\n\t\t\"b\": 1\n\t\t\"d\": 1\n    }\n}", "3:9: a: a comma is missing here.")]
    [InlineData("{\n  \"a\": {\n  \"b\": 1,\n    \"d\": 1\n  },\n  \"c\": [ 1, 2\n}", "7:1: c: a ] seems to be missing before this: the [ of line 6 is still open.")]
    public void A_bracket_or_comma_that_was_forgotten_is_told_where_the_lines_step_back(string json, string expected) =>
        Assert.Equal([expected], Sample.Mistakes(json));

    [Fact]
    public void Lines_that_step_back_for_no_reason_are_no_mistake()
    {
        var json = Sample.Chain(buses: "{\n      \"kick\": {\n\"from\": { \"in\": 0 }\n   }\n}");

        var chain = Sample.Read(json);

        Assert.Equal("kick", Assert.Single(chain.Buses).Name);
    }

    [Fact]
    public void Brackets_nested_beyond_reason_are_refused()
    {
        var json = $"{{ \"a\": {new string('[', 100)}";

        var mistakes = Sample.Mistakes(json);

        Assert.EndsWith("brackets are nested more than 64 deep.", Assert.Single(mistakes), StringComparison.Ordinal);
    }

    [Fact]
    public void Columns_count_characters_and_lines_may_end_either_way()
    {
        var json = Sample.Chain(song: "{ \"title\": \"Über\u00e4ll 🥁\",\r\n/* ü */ \"tilte\": 1, \"code\": \"A\", \"rate_hz\": 48000 }");

        var mistakes = Sample.Mistakes(json);

        Assert.Equal(["2:9: song.tilte: 'tilte' is not a key of the song. Did you mean 'title'?"], mistakes);
    }

    [Fact]
    public void Comments_and_trailing_commas_are_no_mistakes()
    {
        var json = Sample.Chain(buses: "{ // the buses\n \"kick\": { \"from\": { \"in\": 0, /* only one */ }, \"through\": [ { \"gain\": { \"level_db\": 3, }, }, ], }, }");

        var chain = Sample.Read(json);

        Assert.Equal("gain", Assert.Single(Assert.Single(chain.Buses).Stages).Definition.Key);
    }

    [Fact]
    public void A_byte_order_mark_is_no_mistake_and_moves_no_column()
    {
        var json = Sample.Chain(rest: "\"a\": 1");
        var bytes = Encoding.UTF8.GetPreamble().Concat(Encoding.UTF8.GetBytes(json)).ToArray();

        var mistakes = Sample.Mistakes(() => ChainReader.Parse(bytes, "song.chain.json", TestCatalogue.All));

        Assert.Equal(Sample.Mistakes(json), mistakes);
    }

    [Fact]
    public void Other_encodings_are_named()
    {
        var latin = Encoding.Latin1.GetBytes("{\n\"title\": \"\u00dcber\" }");
        var wide = Encoding.Unicode.GetPreamble().Concat(Encoding.Unicode.GetBytes("{ }")).ToArray();

        var latinMistakes = Sample.Mistakes(() => ChainReader.Parse(latin, "song.chain.json"));
        var wideMistakes = Sample.Mistakes(() => ChainReader.Parse(wide, "song.chain.json"));

        Assert.Equal(["2:11: this character is not valid UTF-8. Save the file as UTF-8."], latinMistakes);
        Assert.Equal(["1:1: the file is saved as UTF-16. Save it as UTF-8."], wideMistakes);
    }
}
