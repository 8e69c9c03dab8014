namespace Cogwright.Log;

/// <summary>
/// Personal data that lie beside the log: the entry holds only their digest. The salt lies with the data and is erased
/// with them; without it nobody can try names until a digest fits.
/// </summary>
public sealed class PersonalDatum
{
    /// <summary>Length of the salt in bytes: as long as the digest, so that guessing it is no easier.</summary>
    public const int SaltBytes = 32;

    private static ReadOnlySpan<byte> Letters => "CWP\u0001"u8;

    private readonly byte[] salt;
    private readonly byte[] data;

    /// <summary>Holds a datum with its salt.</summary>
    /// <param name="salt">Exactly <see cref="SaltBytes"/> bytes from a cryptographic source, used for this datum only.</param>
    /// <param name="data">The datum.</param>
    /// <exception cref="ArgumentException">The salt has another length.</exception>
    public PersonalDatum(ReadOnlySpan<byte> salt, ReadOnlySpan<byte> data)
    {
        if (salt.Length != SaltBytes)
        {
            throw new ArgumentException(
                Texts.Get("personal.salt", SaltBytes, salt.Length),
                nameof(salt)
            );
        }
        this.salt = salt.ToArray();
        this.data = data.ToArray();
        // The salt has one length only, so no other salt and datum run together to the same bytes.
        Digest = Digest.Of([.. Letters, .. salt, .. data]);
    }

    /// <summary>The salt, to be stored beside the datum.</summary>
    public ReadOnlyMemory<byte> Salt => salt;

    /// <summary>The datum.</summary>
    public ReadOnlyMemory<byte> Data => data;

    /// <summary>SHA-256 over "CWP", 1, salt, datum: what the entry holds.</summary>
    public Digest Digest { get; }
}
