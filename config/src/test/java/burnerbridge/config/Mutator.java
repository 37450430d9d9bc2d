package burnerbridge.config;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Damages the bytes of a file at random, as editors, spreadsheets, cables and ill will do. */
final class Mutator {
    private static final Pattern WORD = Pattern.compile("[\\p{L}\\d.+-]+");
    private static final List<String> PIECES = List.of(
            "\"",
            "'",
            "[",
            "]",
            "{",
            "}",
            "&a ",
            "*a",
            "!!int ",
            "|",
            ">",
            "%",
            "@",
            "`",
            "#",
            ":",
            ",",
            ";",
            "\t",
            "\0",
            "\r",
            "\n",
            "\u0007",
            "\uFEFF",
            "\uD83D\uDD25",
            "--- ",
            "...",
            "<<: *a",
            "? ",
            "- ",
            "\\",
            "=1+1",
            "0x",
            "..");
    private static final List<String> WORDS = List.of(
            "-1",
            "0",
            "1e99",
            "9999999999999999999",
            "00",
            "0x",
            "1e-400",
            "NaN",
            "null",
            "~",
            "true",
            "WAHR",
            "1,5",
            "1-Feb",
            "every",
            "bit:99999999999",
            "bits:-1-5",
            "text:999999999999",
            "decimal-words:",
            "datetime:",
            "reserved:99999999",
            "1+",
            "+",
            "1+1+1",
            "..",
            "5..",
            "0=|",
            "=",
            "links",
            "_self",
            "scale-by",
            "clears",
            "none",
            "any",
            "[]",
            "{}",
            "2147483648",
            "65536",
            "4194303",
            "\u0660",
            "\u00BD",
            "\uFF11",
            "999999999 h",
            "192.0.2.0/99",
            "90..20",
            "write 1e9",
            "write nothing",
            "release",
            "count to 99999",
            "toggle",
            "22",
            "heartbeat",
            "safety-setting",
            "low-word-first+swap-bytes");

    private final Random random;

    Mutator(Random random) {
        this.random = random;
    }

    byte[] damage(byte[] bytes, String file) {
        return switch (random.nextInt(14)) {
            case 0 -> flipped(bytes);
            case 1 -> Arrays.copyOf(bytes, random.nextInt(bytes.length + 1));
            case 2, 3, 4 -> lines(text(bytes)).getBytes(StandardCharsets.UTF_8);
            case 5, 6 -> cells(text(bytes), file).getBytes(StandardCharsets.UTF_8);
            case 7, 8, 9 -> words(text(bytes)).getBytes(StandardCharsets.UTF_8);
            case 10, 11 -> inserted(text(bytes), pick(PIECES)).getBytes(StandardCharsets.UTF_8);
            case 12 -> inserted(text(bytes), large()).getBytes(StandardCharsets.UTF_8);
            default ->
                text(bytes).getBytes(random.nextBoolean() ? StandardCharsets.UTF_16LE : StandardCharsets.ISO_8859_1);
        };
    }

    private static String text(byte[] bytes) {
        return new String(bytes, StandardCharsets.UTF_8);
    }

    private <T> T pick(List<T> list) {
        return list.get(random.nextInt(list.size()));
    }

    private byte[] flipped(byte[] bytes) {
        byte[] copy = bytes.clone();
        for (int i = 0; i < 1 + random.nextInt(4) && copy.length > 0; i++) {
            copy[random.nextInt(copy.length)] ^= (byte) (1 << random.nextInt(8));
        }
        return copy;
    }

    private String lines(String text) {
        List<String> lines = new ArrayList<>(List.of(text.split("\n", -1)));
        int one = random.nextInt(lines.size());
        int other = random.nextInt(lines.size());
        switch (random.nextInt(4)) {
            case 0 -> lines.remove(one);
            case 1 -> lines.add(other, lines.get(one));
            case 2 -> Collections.swap(lines, one, other);
            default ->
                lines.set(one, " ".repeat(random.nextInt(5)) + lines.get(one).strip());
        }
        return String.join("\n", lines);
    }

    /** Cells of a CSV row, or what stands between the commas of a mapping. */
    private String cells(String text, String file) {
        List<String> lines = new ArrayList<>(List.of(text.split("\n", -1)));
        int line = random.nextInt(lines.size());
        String separator = file.endsWith("steam.csv") ? ";" : ",";
        List<String> cells = new ArrayList<>(List.of(lines.get(line).split(separator, -1)));
        int one = random.nextInt(cells.size());
        int other = random.nextInt(cells.size());
        switch (random.nextInt(4)) {
            case 0 -> cells.remove(one);
            case 1 -> cells.add(other, cells.get(one));
            case 2 -> Collections.swap(cells, one, other);
            default -> cells.set(one, pick(WORDS));
        }
        lines.set(line, String.join(separator, cells));
        return String.join("\n", lines);
    }

    /** One word becomes another of the file, or one that is known to hurt. */
    private String words(String text) {
        List<MatchResult> found = WORD.matcher(text).results().collect(Collectors.toList());
        if (found.isEmpty()) {
            return pick(WORDS);
        }
        MatchResult old = pick(found);
        String with = random.nextBoolean() ? pick(WORDS) : pick(found).group();
        return text.substring(0, old.start()) + with + text.substring(old.end());
    }

    private String inserted(String text, String piece) {
        int at = random.nextInt(text.length() + 1);
        return text.substring(0, at) + piece + text.substring(at);
    }

    /** What takes time or memory of a reader that is not careful. */
    private String large() {
        int count = 1 << (4 + random.nextInt(random.nextInt(8) == 0 ? 14 : 9));
        return switch (random.nextInt(9)) {
            case 0 -> "[".repeat(count);
            case 1 -> "{a: ".repeat(count);
            case 2 -> "a".repeat(count);
            case 3 -> "1.000".repeat(count);
            case 4 -> "a\n".repeat(count);
            case 5 -> "0=a|".repeat(count);
            case 6 -> "\n" + aliases();
            case 7 -> "- ".repeat(count);
            default -> "\n".repeat(count) + ",".repeat(count);
        };
    }

    /** Nine lists of nine of the one before, which whoever follows them never ends. */
    private static String aliases() {
        StringBuilder bomb = new StringBuilder("a0: &a0 [x, x, x, x, x, x, x, x, x]\n");
        for (int i = 1; i < 12; i++) {
            String before = "*a" + (i - 1);
            bomb.append("a" + i + ": &a" + i + " [" + (before + ", ").repeat(8) + before + "]\n");
        }
        return bomb + "loop: &loop {loop: *loop}\n";
    }
}
