using System.Text;

namespace Lugbook.Store.Exchange;

/// <summary>Bytes to text, for files that do not say how they were encoded.</summary>
/// <remarks>
/// Order: byte-order mark (UTF-8, UTF-16, UTF-32); UTF-16 without a mark, told by its zero bytes; UTF-8 when the bytes are valid;
/// otherwise Windows-1252, the habit of western spreadsheets (it contains Latin-1's letters). A guess is reported in words.
/// </remarks>
internal static class TextDecoding
{
    private static readonly Encoding StrictUtf8 = new UTF8Encoding(false, throwOnInvalidBytes: true);

    /// <summary>The text without its byte-order mark, and a remark when the encoding had to be guessed; null when this is no text.</summary>
    public static string? Decode(ReadOnlySpan<byte> bytes, string place, out string? remark)
    {
        remark = null;
        var text = Marked(bytes) ?? Unmarked(bytes, place, out remark);
        return text.Contains('\0', StringComparison.Ordinal) ? null : text;
    }

    private static string? Marked(ReadOnlySpan<byte> bytes) => bytes switch
    {
        [0xEF, 0xBB, 0xBF, .. var rest] => Encoding.UTF8.GetString(rest),
        [0xFF, 0xFE, 0, 0, .. var rest] => Encoding.UTF32.GetString(rest),
        [0xFF, 0xFE, .. var rest] => Encoding.Unicode.GetString(rest),
        [0xFE, 0xFF, .. var rest] => Encoding.BigEndianUnicode.GetString(rest),
        _ => null,
    };

    private static string Unmarked(ReadOnlySpan<byte> bytes, string place, out string? remark)
    {
        remark = null;
        if (LooksLikeUtf16(bytes) is { } utf16)
        {
            remark = $"{place}: read as UTF-16.";
            return utf16.GetString(bytes);
        }
        try
        {
            return StrictUtf8.GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            remark = $"{place}: not UTF-8, so read as Windows-1252 (western European). If letters look wrong, save it as UTF-8.";
            return CodePagesEncodingProvider.Instance.GetEncoding(1252)!.GetString(bytes);
        }
    }

    /// <summary>Text of mostly western letters in UTF-16 has a zero in nearly every second byte.</summary>
    private static Encoding? LooksLikeUtf16(ReadOnlySpan<byte> bytes)
    {
        var look = bytes[..(Math.Min(bytes.Length, 4096) / 2 * 2)];
        if (look.Length < 4 || bytes.Length % 2 != 0) return null;
        int even = 0, odd = 0;
        for (var i = 0; i < look.Length; i += 2)
        {
            if (look[i] == 0) even++;
            if (look[i + 1] == 0) odd++;
        }
        var pairs = look.Length / 2;
        if (odd > pairs * 0.7 && even < pairs * 0.1) return Encoding.Unicode;
        return even > pairs * 0.7 && odd < pairs * 0.1 ? Encoding.BigEndianUnicode : null;
    }
}
