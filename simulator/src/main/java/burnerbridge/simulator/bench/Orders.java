package burnerbridge.simulator.bench;

import burnerbridge.simulator.frame.Transport;
import burnerbridge.simulator.manners.Kind;
import burnerbridge.simulator.manners.Misbehaviour;
import burnerbridge.simulator.manners.Misbehaviour.Argument;
import burnerbridge.simulator.manners.WriteMisbehaviour;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Understands lines such as {@code exception 6 for 3}, {@code silent of 5,6} and {@code bad-crc every 5}. */
final class Orders {
    static final String WELL = "well";
    static final String HELP = "help";
    static final String END = "end";
    static final String WRITES = "writes";
    static final String SET = "set";
    private static final String OF = "of";
    private static final String FOR = "for";
    private static final String EVERY = "every";
    private static final String MILLIS = "ms";
    private static final int LARGEST_UNIT = 247;

    private final Transport transport;

    Orders(Transport transport) {
        this.transport = transport;
    }

    /** @throws NotUnderstood with a sentence for people */
    Order understand(String line) throws NotUnderstood {
        Deque<String> words =
                new ArrayDeque<>(List.of(line.strip().toLowerCase(Locale.ROOT).split("\\s+")));
        String first = words.remove();
        if (first.equals(WELL)) {
            nothingMore(words);
            return Order.WELL;
        }
        Kind what =
                kinds().filter(kind -> kind.word().equals(first)).findFirst().orElse(null);
        if (what == null) {
            throw new NotUnderstood("there is no \"" + first + "\"; the nearest is \""
                    + Nearest.to(first, words().toList()) + "\" (help lists all)");
        }
        if (!what.makesSenseOn(transport)) {
            throw new NotUnderstood(first + ": makes no sense on " + transport);
        }
        int number = number(what, words);
        When when = when(first, words);
        nothingMore(words);
        return new Order(Optional.of(what), number, when);
    }

    private static int number(Kind what, Deque<String> words) throws NotUnderstood {
        if (what.argument().isEmpty()) {
            return 0;
        }
        Argument argument = what.argument().get();
        int number = whole(what.word() + ": " + argument.what(), words.poll(), argument.least(), argument.most());
        if (argument.what().equals(MILLIS) && MILLIS.equals(words.peek())) {
            words.remove();
        }
        return number;
    }

    private static When when(String first, Deque<String> words) throws NotUnderstood {
        Set<Integer> units = OF.equals(words.peek()) ? units(first, words) : Set.of();
        if (words.isEmpty()) {
            return new When(units, 0, 1);
        }
        String word = words.remove();
        return switch (word) {
            case FOR -> new When(units, whole(first + " for", words.poll(), 1, 1_000_000), 1);
            case EVERY -> new When(units, 0, whole(first + " every", words.poll(), 1, 1_000_000));
            default ->
                throw new NotUnderstood(first + ": there is no \"" + word + "\" to it; the nearest is \""
                        + Nearest.to(word, List.of(OF, FOR, EVERY)) + "\"");
        };
    }

    private static Set<Integer> units(String first, Deque<String> words) throws NotUnderstood {
        words.remove();
        Set<Integer> units = new TreeSet<>();
        for (String unit : Optional.ofNullable(words.poll()).orElse("").split(",")) {
            units.add(whole(first + " of: each unit", unit.isEmpty() ? null : unit, 1, LARGEST_UNIT));
        }
        return units;
    }

    static int whole(String name, @Nullable String word, int least, int most) throws NotUnderstood {
        String range = name + " must be " + least + " to " + most;
        if (word == null) {
            throw new NotUnderstood(range + " (was missing)");
        }
        try {
            int number = Integer.parseInt(word);
            if (number >= least && number <= most) {
                return number;
            }
        } catch (NumberFormatException e) {
            // Told below.
        }
        throw new NotUnderstood(range + " (was " + word + ")");
    }

    private static void nothingMore(Deque<String> words) throws NotUnderstood {
        if (!words.isEmpty()) {
            throw new NotUnderstood("too much: \"" + String.join(" ", words) + "\"");
        }
    }

    private static Stream<Kind> kinds() {
        return Stream.concat(Arrays.stream(Misbehaviour.values()), Arrays.stream(WriteMisbehaviour.values()));
    }

    private Stream<String> words() {
        return Stream.concat(
                Stream.of(WELL, HELP, END, WRITES, SET),
                kinds().filter(kind -> kind.makesSenseOn(transport)).map(Kind::word));
    }

    /** Every command that there is on this transport, a line each. */
    String help() {
        return kinds().filter(m -> m.makesSenseOn(transport))
                .map(m -> row(m.word() + m.argument().map(a -> " N " + a.what()).orElse(""), m.told()))
                .collect(Collectors.joining(
                        "",
                        row(WELL, "every reply is right"),
                        "  each of these from the next request on; with \"of U\" or \"of U,U\", to these units alone;"
                                + " then with \"for N\", for N requests, or with \"every N\", toward each Nth\n"
                                + row(WRITES, "every frame so far that was no read, and what became of it")
                                + row(
                                        SET + " U TABLE A V",
                                        "another writer: address A of coil or holding-register of" + " unit U holds V")
                                + row(HELP, "this list")
                                + row(END, "ends the program")));
    }

    private static String row(String command, String told) {
        return String.format(Locale.ROOT, "  %-24s %s%n", command, told);
    }
}
