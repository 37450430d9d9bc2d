package burnerbridge.config.csv;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

/**
 * The text of a CSV file as an editor or a spreadsheet saved it, and how to save another text likewise.
 *
 * @param content without the byte-order mark
 * @param marked whether a byte-order mark stands in front
 */
public record CsvText(String content, Charset charset, boolean marked) {
    private static final char BYTE_ORDER_MARK = '\uFEFF';
    private static final Charset WINDOWS_1252 = Charset.forName("windows-1252");
    private static final List<Charset> MARKED =
            List.of(StandardCharsets.UTF_8, StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE);

    /** Finds the encoding; empty where the bytes are no text. */
    static Optional<CsvText> of(byte[] bytes) {
        for (Charset charset : MARKED) {
            Optional<String> text = decode(bytes, charset);
            if (text.isPresent() && text.get().indexOf(BYTE_ORDER_MARK) == 0) {
                return Optional.of(new CsvText(text.get().substring(1), charset, true));
            }
        }
        Charset guess = withoutMark(bytes);
        return decode(bytes, guess).filter(text -> text.indexOf('\0') < 0).map(text -> new CsvText(text, guess, false));
    }

    private static Charset withoutMark(byte[] bytes) {
        // ASCII in UTF-16 has a zero in every other byte, and no other text has any.
        if (bytes.length > 1 && (bytes[0] == 0 || bytes[1] == 0)) {
            return bytes[0] == 0 ? StandardCharsets.UTF_16BE : StandardCharsets.UTF_16LE;
        }
        return decode(bytes, StandardCharsets.UTF_8).isPresent() ? StandardCharsets.UTF_8 : WINDOWS_1252;
    }

    private static Optional<String> decode(byte[] bytes, Charset charset) {
        try {
            return Optional.of(
                    charset.newDecoder().decode(ByteBuffer.wrap(bytes)).toString());
        } catch (CharacterCodingException e) {
            return Optional.empty();
        }
    }

    /** Another text in the same encoding. */
    public byte[] encode(String text) {
        return ((marked ? String.valueOf(BYTE_ORDER_MARK) : "") + text).getBytes(charset);
    }

    boolean isUtf8() {
        return charset.equals(StandardCharsets.UTF_8);
    }

    /** How its lines end. */
    public String lineEnd() {
        int first = content.indexOf('\n');
        return first > 0 && content.charAt(first - 1) == '\r' ? "\r\n" : "\n";
    }
}
