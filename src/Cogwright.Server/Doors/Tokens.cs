using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace Cogwright.Server;

/// <summary>Tokens of sessions and links: 256 bits of chance, of which the store holds only the SHA-256.</summary>
internal static class Tokens
{
    private const int Bytes = 32;

    internal static string New() => Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(Bytes));

    /// <summary>Of any text, so that a wrong token takes the same way as a right one.</summary>
    internal static byte[] HashOf(string token) => SHA256.HashData(Encoding.UTF8.GetBytes(token));
}
