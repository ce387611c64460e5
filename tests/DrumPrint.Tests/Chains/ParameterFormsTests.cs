using DrumPrint.Chains.Reading;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tests.Chains;

public sealed class ParameterFormsTests
{
    [Fact]
    public void Every_kind_of_parameter_has_its_form()
    {
        var kinds = new[] { typeof(Parameter).Assembly, typeof(ParameterForms).Assembly }
            .SelectMany(a => a.GetTypes())
            .Where(t => t.IsSubclassOf(typeof(Parameter)) && !t.IsAbstract);

        Assert.Equal(kinds.Select(k => k.Name).Order(), ParameterForms.Kinds.Select(k => k.Name).Order());
    }
}
