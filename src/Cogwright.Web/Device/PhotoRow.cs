using Cogwright.Log;

namespace Cogwright.Web.Device;

/// <summary>A photo: the log that it lies beside, and its digest. As text <c>log/digest</c>.</summary>
internal readonly record struct PhotoId(LogId Log, Digest Digest)
{
    /// <summary>The id that a row has as its key.</summary>
    internal static PhotoId Read(string text)
    {
        var at = text.IndexOf('/', StringComparison.Ordinal);
        return new(new(Guid.Parse(text[..at])), new(Convert.FromHexString(text[(at + 1)..])));
    }

    /// <inheritdoc/>
    public override string ToString() => $"{Log}/{Digest}";
}

/// <summary>A photo on the device. Immutable.</summary>
/// <param name="Id">Its <see cref="PhotoId"/> as text.</param>
/// <param name="Log">The log that it lies beside.</param>
/// <param name="Digest">Its digest, hexadecimal.</param>
/// <param name="ContentType">What it is.</param>
/// <param name="Salt">Its salt, base 64; empty when it was erased.</param>
/// <param name="Data">Its bytes, base 64; empty when it was erased.</param>
/// <param name="IsSent">Whether the server has confirmed it.</param>
/// <param name="IsErased">Whether the server said that it was erased: the row then only remembers that.</param>
internal sealed record PhotoRow(
    string Id,
    string Log,
    string Digest,
    string ContentType,
    string Salt,
    string Data,
    bool IsSent,
    bool IsErased
)
{
    internal static PhotoRow Of(
        LogId log,
        PersonalDatum datum,
        string contentType,
        bool isSent = false
    ) =>
        new(
            new PhotoId(log, datum.Digest).ToString(),
            log.ToString(),
            datum.Digest.ToString(),
            contentType,
            Convert.ToBase64String(datum.Salt.Span),
            Convert.ToBase64String(datum.Data.Span),
            isSent,
            false
        );

    /// <summary>What is left of a photo that was erased.</summary>
    internal static PhotoRow Erased(PhotoId id) =>
        new(id.ToString(), id.Log.ToString(), id.Digest.ToString(), "", "", "", true, true);

    /// <summary>There while the photo waits to be sent: the database finds by it what waits, without reading the photos.</summary>
    public int? Waiting => IsSent ? null : 1;

    /// <summary>The key.</summary>
    internal PhotoId PhotoId => PhotoId.Read(Id);

    /// <summary>The photo with its salt, or null when there is none or its bytes are not those it was kept with.</summary>
    internal PersonalDatum? Datum()
    {
        try
        {
            var salt = Convert.FromBase64String(Salt);
            if (IsErased || salt.Length != PersonalDatum.SaltBytes)
            {
                return null;
            }
            var datum = new PersonalDatum(salt, Convert.FromBase64String(Data));
            return datum.Digest.ToString() == Digest ? datum : null;
        }
        catch (FormatException)
        {
            return null;
        }
    }
}
