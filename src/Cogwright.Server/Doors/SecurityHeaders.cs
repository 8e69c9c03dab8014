using System.Buffers.Text;
using System.Security.Cryptography;

namespace Cogwright.Server;

/// <summary>Tells browsers to keep to this server, to be framed by nobody, and to guess no types.</summary>
internal sealed class SecurityHeaders(RequestDelegate next)
{
    private const string NonceKey = "Cogwright.Nonce";

    /// <summary>What lets the scripts and styles of this one answer run.</summary>
    internal static string NonceOf(HttpContext context) => (string)context.Items[NonceKey]!;

    public Task InvokeAsync(HttpContext context)
    {
        var nonce = Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(16));
        context.Items[NonceKey] = nonce;
        var headers = context.Response.Headers;
        headers.ContentSecurityPolicy = PolicyOf(context.Request.Path, nonce);
        headers.XContentTypeOptions = "nosniff";
        headers.XFrameOptions = "DENY";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Permissions-Policy"] = "geolocation=(), microphone=(), payment=(), usb=()";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers.CacheControl = "no-store";
        if (context.Request.IsHttps)
        {
            headers.StrictTransportSecurity = "max-age=31536000";
        }
        return next(context);
    }

    private static string PolicyOf(PathString path, string nonce) =>
        path.StartsWithSegments("/api") && !path.StartsWithSegments("/api/v1")
            // The page to try the API sets styles from its script, which only 'unsafe-inline' allows.
            ? $"default-src 'none'; script-src 'self' 'nonce-{nonce}'; style-src 'self' 'unsafe-inline'; "
                + "img-src 'self' data:; font-src 'self' data:; connect-src 'self'; "
                + "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
        : IsServers(path)
            ? $"default-src 'none'; style-src 'nonce-{nonce}'; "
                + "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
        // The client compiles itself and talks to this server; nothing else may run or be reached.
        : "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; "
            + "img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; manifest-src 'self'; "
            + "worker-src 'self'; base-uri 'self'; form-action 'none'; frame-ancestors 'none'";

    private static bool IsServers(PathString path) => !WebClient.IsThere || WebClient.IsOwn(path);
}
