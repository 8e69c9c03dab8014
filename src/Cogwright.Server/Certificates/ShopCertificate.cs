using System.Globalization;
using System.Net;
using System.Net.NetworkInformation;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Cogwright.Server;

/// <summary>
/// The certificate under which other devices reach this machine: the shop's own, or one that a small authority of this
/// installation signs. Devices trust the authority once; it signs anew when names or addresses change.
/// </summary>
/// <param name="Chain">The server's certificate with its key, and what stands above it.</param>
/// <param name="Authority">The authority to trust; null: the shop brought its own certificate.</param>
/// <param name="Names">The names and addresses in the certificate.</param>
internal sealed record ShopCertificate(
    X509Certificate2Collection Chain,
    X509Certificate2? Authority,
    IReadOnlyList<string> Names
) : IDisposable
{
    private const string AuthorityFile = "authority.pem";
    private const string ServerFile = "server.pem";
    private const string AuthorityOid = "1.3.6.1.5.5.7.3.1";
    private const int AuthorityYears = 10;

    // Browsers refuse longer ones (some from 398 days on).
    private const int ServerDays = 397;
    private const int RenewedDaysBefore = 60;

    // Devices' clocks run late.
    private static readonly TimeSpan Early = TimeSpan.FromDays(1);

    /// <summary>The certificate with the private key.</summary>
    internal X509Certificate2 Own => Chain[0];

    /// <summary>What people compare: SHA-256 of what they are asked to trust, in pairs of hexadecimal digits.</summary>
    internal string Fingerprint =>
        string.Join(
            ':',
            (Authority ?? Own)
                .GetCertHash(HashAlgorithmName.SHA256)
                .Select(each => each.ToString("X2", CultureInfo.InvariantCulture))
        );

    internal static ShopCertificate Open(ServerOptions options) =>
        options.CertificateFile is { } file
            ? Brought(file, options.CertificateKeyFile)
            : Made(options);

    /// <summary>The names and addresses that devices may use for this machine.</summary>
    internal static IReadOnlyList<string> NamesOfThisMachine(IEnumerable<string> more)
    {
        var host = Dns.GetHostName().ToLowerInvariant();
        var addresses = NetworkInterface
            .GetAllNetworkInterfaces()
            .Where(each => each.OperationalStatus == OperationalStatus.Up)
            .SelectMany(each => each.GetIPProperties().UnicastAddresses)
            .Select(each => each.Address)
            .Where(each => !IPAddress.IsLoopback(each) && !each.IsIPv6LinkLocal)
            .Select(each => each.ToString().Split('%')[0]);
        IEnumerable<string> names =
            host.Contains('.', StringComparison.Ordinal) || host == "localhost"
                ? [host]
                : [host, host + ".local"];
        return [.. names.Concat(addresses).Concat(more).Distinct(StringComparer.OrdinalIgnoreCase)];
    }

    private static ShopCertificate Brought(string file, string? keyFile)
    {
        try
        {
            var own = X509Certificate2.CreateFromPemFile(file, keyFile);
            var chain = new X509Certificate2Collection();
            chain.ImportFromPemFile(file);
            return new ShopCertificate(
                [WithKeyForTls(own), .. chain.Skip(1)],
                null,
                [.. NamesIn(own)]
            );
        }
        catch (Exception e)
            when (e
                    is CryptographicException
                        or IOException
                        or UnauthorizedAccessException
                        or ArgumentException
            )
        {
            throw new ServerFaultException(
                Texts.Get("certificate.unreadable", file, keyFile ?? file),
                e
            );
        }
    }

    private static ShopCertificate Made(ServerOptions options)
    {
        KeyFile.MakeFolder(options.KeyFolder);
        var now = options.Clock.GetUtcNow();
        var authority = Read(Path.Combine(options.KeyFolder, AuthorityFile));
        if (
            authority is null
            || authority.NotAfter.ToUniversalTime() < now.UtcDateTime.AddDays(ServerDays)
        )
        {
            authority = MakeAuthority(now);
            Write(Path.Combine(options.KeyFolder, AuthorityFile), authority);
        }
        var names = NamesOfThisMachine(options.ShopNames);
        var path = Path.Combine(options.KeyFolder, ServerFile);
        var own = Read(path);
        if (
            own is null
            || own.Issuer != authority.Subject
            || !IsSignedBy(own, authority)
            || own.NotAfter.ToUniversalTime() < now.UtcDateTime.AddDays(RenewedDaysBefore)
            || names.Except(NamesIn(own), StringComparer.OrdinalIgnoreCase).Any()
        )
        {
            own = MakeServer(authority, names, now);
            Write(path, own);
        }
        var shown = X509CertificateLoader.LoadCertificate(authority.RawData);
        authority.Dispose();
        return new ShopCertificate([WithKeyForTls(own), shown], shown, names);
    }

    private static X509Certificate2 MakeAuthority(DateTimeOffset now)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest(
            $"CN=Cogwright shop authority {Convert.ToHexString(RandomNumberGenerator.GetBytes(4))}",
            key,
            HashAlgorithmName.SHA256
        );
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, true, 0, true));
        request.CertificateExtensions.Add(
            new X509KeyUsageExtension(
                X509KeyUsageFlags.KeyCertSign | X509KeyUsageFlags.CrlSign,
                true
            )
        );
        request.CertificateExtensions.Add(
            new X509EnhancedKeyUsageExtension([new Oid(AuthorityOid)], false)
        );
        request.CertificateExtensions.Add(
            new X509SubjectKeyIdentifierExtension(request.PublicKey, false)
        );
        return request.CreateSelfSigned(now - Early, now.AddYears(AuthorityYears));
    }

    private static X509Certificate2 MakeServer(
        X509Certificate2 authority,
        IReadOnlyList<string> names,
        DateTimeOffset now
    )
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=Cogwright", key, HashAlgorithmName.SHA256);
        var alternatives = new SubjectAlternativeNameBuilder();
        foreach (var name in names)
        {
            if (IPAddress.TryParse(name, out var address))
            {
                alternatives.AddIpAddress(address);
            }
            else
            {
                alternatives.AddDnsName(name);
            }
        }
        request.CertificateExtensions.Add(alternatives.Build());
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(false, false, 0, true));
        request.CertificateExtensions.Add(
            new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature, true)
        );
        request.CertificateExtensions.Add(
            new X509EnhancedKeyUsageExtension([new Oid(AuthorityOid)], false)
        );
        request.CertificateExtensions.Add(
            X509AuthorityKeyIdentifierExtension.CreateFromCertificate(authority, true, false)
        );
        using var signed = request.Create(
            authority,
            now - Early,
            now.AddDays(ServerDays) - Early,
            RandomNumberGenerator.GetBytes(16)
        );
        return signed.CopyWithPrivateKey(key);
    }

    private static IEnumerable<string> NamesIn(X509Certificate2 certificate) =>
        certificate
            .Extensions.OfType<X509SubjectAlternativeNameExtension>()
            .SelectMany(each =>
                each.EnumerateDnsNames()
                    .Concat(each.EnumerateIPAddresses().Select(address => address.ToString()))
            );

    private static bool IsSignedBy(X509Certificate2 own, X509Certificate2 authority)
    {
        using var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.Add(authority);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        chain.ChainPolicy.VerificationFlags = X509VerificationFlags.IgnoreNotTimeValid;
        return chain.Build(own);
    }

    private static X509Certificate2? Read(string path)
    {
        try
        {
            return File.Exists(path) ? X509Certificate2.CreateFromPemFile(path) : null;
        }
        catch (CryptographicException e)
        {
            throw new ServerFaultException(Texts.Get("key.unreadable", path), e);
        }
    }

    private static void Write(string path, X509Certificate2 certificate)
    {
        using var key = certificate.GetECDsaPrivateKey()!;
        KeyFile.Write(
            path,
            certificate.ExportCertificatePem() + "\n" + key.ExportPkcs8PrivateKeyPem() + "\n"
        );
    }

    // Some systems serve no key that was never in a PKCS #12.
    private static X509Certificate2 WithKeyForTls(X509Certificate2 certificate) =>
        X509CertificateLoader.LoadPkcs12(certificate.Export(X509ContentType.Pkcs12), null);

    public void Dispose()
    {
        foreach (var each in Chain)
        {
            each.Dispose();
        }
    }
}
