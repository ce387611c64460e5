using System.Globalization;

namespace DrumPrint.Dsp.Parameters;

/// <summary>A number in a range. Without a default it is either required or off when not given.</summary>
public sealed class NumberParameter(string key, Unit unit, double minimum, double maximum, double? @default, string help) : Parameter(key, help)
{
    public override Unit Unit { get; } = unit;

    public double Minimum { get; } = minimum;

    public double Maximum { get; } = maximum;

    /// <summary>Value when none is given; null means off (or required).</summary>
    public double? Default { get; } = @default;

    /// <summary>What holds when none is given, in words, where that is neither a number nor off.</summary>
    public string? LeftOut { get; init; }

    /// <summary>The only values allowed, in rising order; null when every number in the range is.</summary>
    public IReadOnlyList<double>? Steps { get; init; }

    /// <summary>Whether only whole numbers are allowed.</summary>
    public bool IsWhole { get; init; }

    /// <summary>What it may be set by instead of a value; none for most.</summary>
    public IReadOnlyList<Goal> Goals { get; init; } = [];

    public override object? Unset => Default;

    public override string Takes => Steps is { } steps
        ? $"one of {string.Join(", ", steps.Select(Text))}{Symbol}"
        : $"a {(IsWhole ? "whole " : "")}number from {Text(Minimum)} to {Text(Maximum)}{Symbol}";

    private string Symbol => Unit == Unit.None ? "" : " " + Unit.Symbol();

    /// <summary>This parameter with a value, for <see cref="ProcessorDefinition.With"/> and its like.</summary>
    public (Parameter Parameter, object Value) To(double value) => (this, value);

    /// <summary>This parameter set by a goal, for <see cref="ProcessorDefinition.With"/> and its like.</summary>
    /// <param name="goal">One of its goals.</param>
    /// <param name="values">What is said of it.</param>
    /// <exception cref="SettingsException">What is said of it is missing, of the wrong kind or out of range.</exception>
    public (Parameter Parameter, object Value) By(Goal goal, params IEnumerable<(Parameter Parameter, object Value)> values)
    {
        ArgumentNullException.ThrowIfNull(goal);
        return (this, new Sought(goal, Settings.Of(goal.Key, goal.Parameters, values), null));
    }

    public override string? Problem(object value)
    {
        if (value is Sought sought)
        {
            return Goals.Contains(sought.Goal) ? sought.Found is { } found ? Problem(found) : null : $"'{Key}' cannot be set by '{sought.Goal.Key}'; it takes {Takes}.";
        }

        if (value is not double x)
        {
            return WrongKind;
        }

        var nearest = Nearest(x);
        if (nearest == x)
        {
            return null;
        }

        var advice = BelowZero(x) is { } meant ? $"Did you mean {Text(meant)}?" : $"Nearest: {Text(nearest)}.";
        return $"'{Key}' is {Text(x)}{Symbol}; it takes {Takes}. {advice}";
    }

    /// <summary>The same figure with the minus sign that people leave out of decibels; null where it cannot have been meant, since the
    /// figure is allowed as it is or the range does not lie mostly below zero.</summary>
    public double? BelowZero(double x) => Unit is Unit.Decibels or Unit.DecibelsTruePeak && x > Maximum && Maximum < -Minimum && Nearest(-x) == -x ? -x : null;

    internal override object Plain(object value) => value switch
    {
        int x => (double)x,
        long x => (double)x,
        float x => (double)x,
        _ => value,
    };

    private double Nearest(double x) => Steps is { } steps
        ? steps.Contains(x) ? x : steps.MinBy(s => Math.Abs(s - x))
        : x < Minimum ? Minimum : x > Maximum ? Maximum : IsWhole ? Math.Round(x) : x;

    // A plain hyphen for minus: what the message offers can be typed back into the file.
    private static string Text(double x) => x.ToString("0.######", CultureInfo.InvariantCulture);
}
