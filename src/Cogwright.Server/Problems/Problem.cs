namespace Cogwright.Server;

/// <summary>
/// One sort of failure. Its title, its explanation and what to do next stand in the texts under
/// <c>problem.CODE.title</c>, <c>.detail</c> and <c>.next</c>.
/// </summary>
/// <param name="Code">For programs; it never changes.</param>
/// <param name="Status">The HTTP status.</param>
internal sealed record Problem(string Code, int Status)
{
    internal static readonly Problem BadRequest = new("bad-request", 400);
    internal static readonly Problem Malformed = new("malformed", 400);
    internal static readonly Problem BadEntry = new("bad-entry", 400);
    internal static readonly Problem BadField = new("bad-field", 400);
    internal static readonly Problem NotLoggedIn = new("not-logged-in", 401);
    internal static readonly Problem WrongLogIn = new("wrong-log-in", 401);
    internal static readonly Problem WrongPin = new("wrong-pin", 401);
    internal static readonly Problem NotAllowed = new("not-allowed", 403);
    internal static readonly Problem UnknownHost = new("unknown-host", 403);
    internal static readonly Problem CrossOrigin = new("cross-origin", 403);
    internal static readonly Problem MissingHeader = new("missing-header", 403);
    internal static readonly Problem NoOwner = new("no-owner", 403);
    internal static readonly Problem NotEncrypted = new("not-encrypted", 403);
    internal static readonly Problem Proxied = new("proxied", 403);
    internal static readonly Problem NotTrusted = new("not-trusted", 403);
    internal static readonly Problem NotFound = new("not-found", 404);
    internal static readonly Problem NoSuchLink = new("no-such-link", 404);
    internal static readonly Problem WrongMethod = new("wrong-method", 405);
    internal static readonly Problem Conflict = new("conflict", 409);
    internal static readonly Problem OwnerExists = new("owner-exists", 409);
    internal static readonly Problem LastOwner = new("last-owner", 409);
    internal static readonly Problem Erased = new("erased", 410);
    internal static readonly Problem TooLarge = new("too-large", 413);
    internal static readonly Problem WrongType = new("wrong-type", 415);
    internal static readonly Problem DigestDiffers = new("digest-differs", 422);
    internal static readonly Problem BadParts = new("bad-parts", 422);
    internal static readonly Problem BadSpec = new("bad-spec", 422);
    internal static readonly Problem TooManyOptions = new("too-many-options", 422);
    internal static readonly Problem RefusedAccount = new("refused-account", 422);
    internal static readonly Problem TooMany = new("too-many", 429);
    internal static readonly Problem SearchRuns = new("search-runs", 429);
    internal static readonly Problem Throttled = new("throttled", 429);
    internal static readonly Problem Unforeseen = new("unforeseen", 500);
    internal static readonly Problem Store = new("store", 503);
    internal static readonly Problem OverQuota = new("over-quota", 507);

    /// <summary>Every sort.</summary>
    internal static IReadOnlyList<Problem> All { get; } =
    [
        BadRequest,
        Malformed,
        BadEntry,
        BadField,
        NotLoggedIn,
        WrongLogIn,
        WrongPin,
        NotAllowed,
        UnknownHost,
        CrossOrigin,
        MissingHeader,
        NoOwner,
        NotEncrypted,
        Proxied,
        NotTrusted,
        NotFound,
        NoSuchLink,
        WrongMethod,
        Conflict,
        OwnerExists,
        LastOwner,
        Erased,
        TooLarge,
        WrongType,
        DigestDiffers,
        BadParts,
        BadSpec,
        TooManyOptions,
        RefusedAccount,
        TooMany,
        SearchRuns,
        Throttled,
        Unforeseen,
        Store,
        OverQuota,
    ];

    /// <summary>The sort that a bare status stands for.</summary>
    internal static Problem OfStatus(int status) =>
        status switch
        {
            401 => NotLoggedIn,
            403 => NotAllowed,
            404 => NotFound,
            405 => WrongMethod,
            413 => TooLarge,
            415 => WrongType,
            429 => TooMany,
            >= 500 => Unforeseen,
            _ => BadRequest,
        };

    internal string Title => Texts.Get($"problem.{Code}.title");

    internal string Detail(object?[] about) => Texts.Get($"problem.{Code}.detail", about);

    internal string Next => Texts.Get($"problem.{Code}.next");
}
