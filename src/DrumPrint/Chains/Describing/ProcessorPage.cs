namespace DrumPrint.Chains.Describing;

/// <summary>What a user must know about one processor.</summary>
/// <param name="Key">The word a chain uses.</param>
/// <param name="Revision">Number of the sound described.</param>
/// <param name="Revisions">Every number there is, newest first.</param>
/// <param name="Summary">One sentence.</param>
/// <param name="IsNonLinear">Whether it bends the signal.</param>
/// <param name="TakesKey">Whether its detector may listen to another track or bus.</param>
/// <param name="Example">One line of a chain that uses it.</param>
/// <param name="Tables">Its settings; then one table for each kind of item, where it has a list.</param>
public sealed record ProcessorPage(
    string Key,
    int Revision,
    IReadOnlyList<int> Revisions,
    string Summary,
    bool IsNonLinear,
    bool TakesKey,
    string Example,
    IReadOnlyList<SettingsTable> Tables);

/// <summary>Settings that belong together.</summary>
/// <param name="Title">The word under which they stand in a chain: the processor, or a kind of item.</param>
/// <param name="Summary">One sentence.</param>
/// <param name="Rows">One for each setting.</param>
public sealed record SettingsTable(string Title, string Summary, IReadOnlyList<SettingRow> Rows);

/// <summary>One setting.</summary>
/// <param name="Key">The word in the chain.</param>
/// <param name="Takes">What may stand there.</param>
/// <param name="Default">What holds when it is left out.</param>
/// <param name="Help">What it does.</param>
public sealed record SettingRow(string Key, string Takes, string Default, string Help);
