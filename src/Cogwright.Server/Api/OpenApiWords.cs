using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace Cogwright.Server;

/// <summary>What the description of the API cannot tell from the code: how failures look, and that a datum is bytes.</summary>
internal static class OpenApiWords
{
    private const string Bytes = "application/octet-stream";

    internal static async Task CompleteAsync(
        OpenApiOperation operation,
        OpenApiOperationTransformerContext context,
        CancellationToken cancellation
    )
    {
        operation.Responses ??= [];
        operation.Responses["default"] = new OpenApiResponse
        {
            Description = Texts.Get("openApi.problem"),
            Content = new Dictionary<string, OpenApiMediaType>
            {
                [ProblemAnswers.MediaType] = new()
                {
                    Schema = await context
                        .GetOrCreateSchemaAsync(
                            typeof(Microsoft.AspNetCore.Mvc.ProblemDetails),
                            cancellationToken: cancellation
                        )
                        .ConfigureAwait(false),
                },
            },
        };
        if (
            context.Description.RelativePath is { } path
            && path.EndsWith("/personal/{digest}", StringComparison.Ordinal)
            && context.Description.HttpMethod == "PUT"
        )
        {
            operation.Parameters ??= [];
            operation.Parameters.Add(
                new OpenApiParameter
                {
                    Name = PersonalRoutes.SaltHeader,
                    In = ParameterLocation.Header,
                    Required = true,
                    Description = Texts.Get("openApi.salt"),
                    Schema = new OpenApiSchema { Type = JsonSchemaType.String },
                }
            );
            operation.RequestBody = new OpenApiRequestBody
            {
                Required = true,
                Description = Texts.Get("openApi.datum"),
                Content = new Dictionary<string, OpenApiMediaType>
                {
                    [Bytes] = new()
                    {
                        Schema = new OpenApiSchema
                        {
                            Type = JsonSchemaType.String,
                            Format = "binary",
                        },
                    },
                },
            };
        }
    }
}
