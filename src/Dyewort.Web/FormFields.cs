using System.Reflection;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;

namespace Dyewort.Web;

/// <summary>A form of which no field came was broken on its way: a browser sends the empty ones too. Taken as an empty form it could
/// clear what stands in the notebook.</summary>
internal static class FormFields
{
    public static EndpointFilterDelegate Ask(EndpointFilterFactoryContext context, EndpointFilterDelegate next)
    {
        var forms = context
            .MethodInfo.GetParameters()
            .Where(parameter =>
                parameter.GetCustomAttribute<FromFormAttribute>() is not null
                && parameter.ParameterType.GetConstructor(Type.EmptyTypes) is not null
            )
            .Select(parameter => parameter.Position)
            .ToList();
        if (forms.Count == 0)
            return next;
        return called =>
            forms.TrueForAll(place => called.Arguments[place] is not null)
                ? next(called)
                : ValueTask.FromResult<object?>(
                    Show.Problem(
                        StatusCodes.Status400BadRequest,
                        "None of the form's fields arrived. Go back, load the page again and send it once more."
                    )
                );
    }
}
