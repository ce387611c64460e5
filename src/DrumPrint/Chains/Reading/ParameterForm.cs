using System.Text.Json;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Reading;

/// <summary>
/// What a file knows of one kind of parameter: how its value is read, written, described as schema and put into words.
/// A new kind is one class like this and its line in <see cref="ParameterForms"/>.
/// </summary>
internal abstract class ParameterForm
{
    /// <summary>Whether what stands there is of this kind.</summary>
    public abstract bool Fits(TreeNode node);

    /// <summary>The value, or null after telling <paramref name="form"/> what is wrong with it.</summary>
    /// <param name="form">Who reads the file.</param>
    /// <param name="parameter">The declaration.</param>
    /// <param name="node">What stands there.</param>
    /// <param name="keyAt">Where the key stands.</param>
    /// <param name="place">Where it stands in the file's structure.</param>
    public abstract object? Read(FormReader form, Parameter parameter, TreeNode node, Position keyAt, string place);

    /// <summary>Writes key and value of a processor's setting.</summary>
    public virtual void Write(Utf8JsonWriter json, Parameter parameter, object value) =>
        throw new NotSupportedException($"A processor has no setting such as '{parameter.Key}'.");

    /// <summary>Describes the value, inside its braces.</summary>
    public abstract void Describe(SchemaWriter schema, Parameter parameter);

    /// <summary>What it takes in a file, in words.</summary>
    public abstract string Takes(Parameter parameter);

    /// <summary>What it takes, on a page of reference.</summary>
    public virtual string TakesOnPage(Parameter parameter) => Takes(parameter);

    /// <summary>What holds when it is left out, on a page of reference; null for what must be given or is off.</summary>
    public virtual string? LeftOut(Parameter parameter) => null;

    /// <summary>A value as it may stand in a file, for an example; null for what is off.</summary>
    public virtual string? Example(Parameter parameter) => null;

    /// <summary>What it does.</summary>
    public virtual string Help(Parameter parameter) => parameter.Help;

    /// <summary>A sentence that helps with a value of another kind; empty when there is nothing to say.</summary>
    public virtual string Hint(Parameter parameter, TreeNode node) => "";

    /// <summary>A sentence that helps with a value that is not allowed; empty when there is nothing to say.</summary>
    public virtual string Hint(Parameter parameter, object value) => "";

    /// <summary>What to say when nothing stands in it; null when that is fine.</summary>
    public virtual string? WhenEmpty(Parameter parameter) => null;
}

/// <inheritdoc/>
/// <typeparam name="TParameter">The kind of parameter.</typeparam>
/// <typeparam name="TNode">What its value is in a file.</typeparam>
internal abstract class ParameterForm<TParameter, TNode> : ParameterForm
    where TParameter : Parameter
    where TNode : TreeNode
{
    public sealed override bool Fits(TreeNode node) => node is TNode;

    public override object? Read(FormReader form, Parameter parameter, TreeNode node, Position keyAt, string place) =>
        node is TNode its ? Read(form, (TParameter)parameter, its, keyAt, place) : form.WrongKind(parameter, node, place);

    public sealed override void Describe(SchemaWriter schema, Parameter parameter) => Describe(schema, (TParameter)parameter);

    public sealed override string Takes(Parameter parameter) => Takes((TParameter)parameter);

    protected abstract object? Read(FormReader form, TParameter parameter, TNode node, Position keyAt, string place);

    protected abstract void Describe(SchemaWriter schema, TParameter parameter);

    protected abstract string Takes(TParameter parameter);
}
