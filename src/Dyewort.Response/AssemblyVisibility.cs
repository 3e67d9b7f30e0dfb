using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("Dyewort.Response.Tests")]
[assembly: InternalsVisibleTo("response-accuracy")]
