using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>Sees to it that every file of a delivery has a number and a name of its own.</summary>
internal sealed class PrintChecks(ProblemList problems, Values chain)
{
    private readonly Dictionary<double, string> _numbers = [];
    private readonly Dictionary<string, string> _names = new(StringComparer.OrdinalIgnoreCase);

    public void Run()
    {
        var claims = chain.Entries(ChainKeys.Prints)
            .Select(p => new FileClaim(p, PrintKeys.Number, PrintKeys.Name, IsGiven: true, $"the print on {p.Position.LineWords}"))
            .Concat(Beside(OutputKeys.Rough, BesideKeys.Rough, "the rough before the drum bus"))
            .Concat(Beside(OutputKeys.RoughWithBus, BesideKeys.RoughWithBus, "the rough through the drum bus"))
            .Concat(Beside(OutputKeys.Click, BesideKeys.Click, "the click"))
            .ToList();

        // What the file does not spell out has no line to blame, so it comes first and the others give way.
        foreach (var claim in claims.OrderBy(c => c.IsGiven).ThenBy(c => c.Values.Position.File is not null).ThenBy(c => c.Values.Position.Line).ThenBy(c => c.Values.Position.Column))
        {
            Take(claim, claims);
        }
    }

    private IEnumerable<FileClaim> Beside(ShapeParameter parameter, BesideKeys keys, string label)
    {
        var output = chain.Group(ChainKeys.Output);
        var given = output?.Group(parameter);
        if (given is { IsOff: false })
        {
            yield return new FileClaim(given, keys.Number, keys.Name, IsGiven: true, label);
        }
        else if (given is null && keys.Shape.IsOnByDefault && !chain.IsUnknown(ChainKeys.Output) && output?.IsUnknown(parameter) != true)
        {
            var values = new Values(parameter.Key, Position.Start, JsonPlace.Key(ChainKeys.Output.Key, parameter.Key));
            yield return new FileClaim(values, keys.Number, keys.Name, IsGiven: false, $"{label} (made unless {values.Place} is false)");
        }
    }

    private void Take(FileClaim claim, IReadOnlyList<FileClaim> all)
    {
        if (claim.Values.Number(claim.Number) is { } number && !_numbers.TryAdd(number, claim.Label))
        {
            problems.Add(
                claim.Values.At(claim.Number),
                claim.Values.PlaceOf(claim.Number),
                $"number {Show.Number(number)} is taken by {_numbers[number]}.{Free(claim.Number, number, all)}");
        }

        if (claim.Values.Text(claim.Name) is { } name && !_names.TryAdd(name, claim.Label))
        {
            problems.Add(
                claim.Values.At(claim.Name),
                claim.Values.PlaceOf(claim.Name),
                $"the name '{Show.Name(name)}' is taken by {_names[name]}. Capitals make no difference.");
        }
    }

    private static string Free(NumberParameter parameter, double wanted, IReadOnlyList<FileClaim> all)
    {
        var taken = all.Select(c => c.Values.Number(c.Number)).ToHashSet();
        var free = Enumerable.Range((int)parameter.Minimum, (int)parameter.Maximum)
            .Where(n => !taken.Contains(n))
            .OrderBy(n => Math.Abs(n - wanted))
            .ThenBy(n => n)
            .ToList();
        return free.Count == 0 ? "" : $" Nearest free: {Show.Number(free[0])}.";
    }

    private sealed record FileClaim(Values Values, NumberParameter Number, TextParameter Name, bool IsGiven, string Label);
}
