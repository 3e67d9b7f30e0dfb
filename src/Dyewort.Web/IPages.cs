using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web;

/// <summary>The addresses of one room; every class that implements it is found and mapped.</summary>
public interface IPages
{
    void Map(IEndpointRouteBuilder app);
}
