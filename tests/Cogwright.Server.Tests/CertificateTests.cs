using System.Net;
using System.Net.Security;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;

namespace Cogwright.Server.Tests;

public sealed class CertificateTests
{
    [Fact]
    public async Task OtherDevices_ThatTrustTheAuthority_ReachTheServerByItsNames()
    {
        await using var running = await Running.StartAsync(options =>
            options with
            {
                IsOpenToShop = true,
                ShopNames = ["stand.shop.example", "198.51.100.7"],
            }
        );
        await running.NewOwnerAsync();
        var page = await running.NewBrowser().GetStringAsync("trust");
        Assert.Contains(running.Server.Fingerprint!, page, StringComparison.Ordinal);
        using var authority = X509CertificateLoader.LoadCertificate(
            await running.NewBrowser().GetByteArrayAsync("trust/ca.crt")
        );
        Assert.Equal(
            running.Server.Fingerprint!.Replace(":", "", StringComparison.Ordinal),
            authority.GetCertHashString(System.Security.Cryptography.HashAlgorithmName.SHA256)
        );

        foreach (var name in new[] { "stand.shop.example", "198.51.100.7" })
        {
            using var device = DeviceThatTrusts(authority, running.Server.ShopAddresses[0].Port);
            var answer = await device.GetAsync(
                $"https://{name}:{running.Server.ShopAddresses[0].Port}/health"
            );
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        }
        // No name of the certificate: the handshake fails already.
        using var misled = DeviceThatTrusts(authority, running.Server.ShopAddresses[0].Port);
        await Assert.ThrowsAsync<HttpRequestException>(() =>
            misled.GetAsync($"https://other.example:{running.Server.ShopAddresses[0].Port}/health")
        );
    }

    [Fact]
    public void Certificate_AtTheNextStart_IsTheSame_UntilANameOrTimeAsksForAnother()
    {
        var folder = Directory.CreateTempSubdirectory("cogwright-certificate-").FullName;
        var clock = new FakeClock();
        var options = new ServerOptions(new Storage.StoreOptions(folder) { Clock = clock })
        {
            IsOpenToShop = true,
        };
        using var first = ShopCertificate.Open(options);
        using var second = ShopCertificate.Open(options);
        using var third = ShopCertificate.Open(options with { ShopNames = ["stand.shop.example"] });
        clock.Advance(TimeSpan.FromDays(340));
        using var fourth = ShopCertificate.Open(
            options with
            {
                ShopNames = ["stand.shop.example"],
            }
        );

        Assert.Equal(first.Own.Thumbprint, second.Own.Thumbprint);
        Assert.NotEqual(second.Own.Thumbprint, third.Own.Thumbprint);
        Assert.NotEqual(third.Own.Thumbprint, fourth.Own.Thumbprint);
        // Devices need not trust anew.
        Assert.Single(
            new[] { first, second, third, fourth }.Select(each => each.Fingerprint).Distinct()
        );
        Assert.InRange((fourth.Own.NotAfter - fourth.Own.NotBefore).TotalDays, 1, 397);
        Assert.All(
            Directory.GetFiles(options.KeyFolder),
            file =>
                Assert.Equal(
                    UnixFileMode.UserRead | UnixFileMode.UserWrite,
                    File.GetUnixFileMode(file)
                )
        );
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void Certificate_OfTheShopsOwn_ThatIsNone_SaysSo()
    {
        var file = Path.GetTempFileName();
        var options = new ServerOptions(new Storage.StoreOptions("/")) { CertificateFile = file };

        var fault = Assert.Throws<ServerFaultException>(() => ShopCertificate.Open(options));

        Assert.Contains(file, fault.Message, StringComparison.Ordinal);
        File.Delete(file);
    }

    /// <summary>A device that finds the server under every name, and trusts one authority only.</summary>
    private static HttpClient DeviceThatTrusts(X509Certificate2 authority, int port) =>
        new(
            new SocketsHttpHandler
            {
                ConnectCallback = async (_, cancellation) =>
                {
                    var socket = new Socket(SocketType.Stream, ProtocolType.Tcp);
                    await socket.ConnectAsync(
                        new IPEndPoint(IPAddress.Loopback, port),
                        cancellation
                    );
                    return new NetworkStream(socket, ownsSocket: true);
                },
                SslOptions = new SslClientAuthenticationOptions
                {
                    CertificateChainPolicy = new X509ChainPolicy
                    {
                        TrustMode = X509ChainTrustMode.CustomRootTrust,
                        CustomTrustStore = { authority },
                        RevocationMode = X509RevocationMode.NoCheck,
                        // The certificate is dated by the test's clock.
                        VerificationTime = new DateTime(2026, 3, 2, 9, 0, 0, DateTimeKind.Utc),
                    },
                },
            }
        );
}
