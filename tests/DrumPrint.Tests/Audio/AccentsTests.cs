using DrumPrint.Audio;

namespace DrumPrint.Tests.Audio;

public sealed class AccentsTests
{
    // Unicode's canonical decompositions of some letters of Latin-1 and Latin Extended-A, from memory.
    [Theory]
    [InlineData("U\u0308berkopf", "Überkopf")]
    [InlineData("caisse claire e\u0301", "caisse claire é")]
    [InlineData("bombo n\u0303", "bombo ñ")]
    [InlineData("Sa\u030A", "Så")]
    [InlineData("pr\u030Cechod", "přechod")]
    [InlineData("x\u0308", "x\u0308")]
    [InlineData("\u0308", "\u0308")]
    [InlineData("Kick", "Kick")]
    public void A_mark_joins_the_letter_before_it_where_there_is_such_a_letter(string text, string composed) => Assert.Equal(composed, Accents.Composed(text));
}
