namespace DrumPrint.Diff;

/// <summary>Compares things by a text that says all of them; each text is written once.</summary>
/// <param name="write">Writes the text of one.</param>
internal sealed class TextOf<T>(Func<T, string> write)
    where T : class
{
    private readonly Dictionary<T, string> _texts = new(ReferenceEqualityComparer.Instance);

    public bool AreSame(T one, T other) => ReferenceEquals(one, other) || Of(one) == Of(other);

    private string Of(T one)
    {
        if (!_texts.TryGetValue(one, out var text))
        {
            _texts.Add(one, text = write(one));
        }

        return text;
    }
}
