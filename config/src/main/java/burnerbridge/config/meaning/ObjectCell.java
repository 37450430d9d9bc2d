package burnerbridge.config.meaning;

import burnerbridge.config.row.PointRow;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Role;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** Decides what a point becomes on the BACnet side, from its row. */
public final class ObjectCell {
    static final List<String> WORDS =
            Arrays.stream(ObjectKind.values()).map(ObjectKind::word).toList();

    private ObjectCell() {}

    /** @param isRead whether the point is read at all */
    public static Optional<ObjectKind> read(PointRow row, ObjectRule rule, boolean isRead) {
        Optional<String> written = row.word("object", WORDS);
        if (row.has("object") && written.isEmpty()) {
            return Optional.empty();
        }
        if (written.isEmpty()) {
            boolean off = !isRead || isOffByRole(rule.role());
            return Optional.of(off ? ObjectKind.NONE : rule.usual().orElse(ObjectKind.NONE));
        }
        ObjectKind kind = ObjectKind.values()[WORDS.indexOf(written.get())];
        return kind == ObjectKind.NONE ? Optional.of(kind) : checked(row, rule, isRead, kind);
    }

    private static Optional<ObjectKind> checked(PointRow row, ObjectRule rule, boolean isRead, ObjectKind kind) {
        if (!rule.possible().contains(kind)) {
            String what = rule.format().word() + (rule.states().isEmpty() ? "" : " with states");
            row.error(
                    "object",
                    (rule.possible().isEmpty()
                                    ? "a " + what + " can only be none where object-types is basic"
                                    : "a " + what + " becomes " + choices(rule) + ", or none")
                            + " (was '" + kind.word() + "')");
            return Optional.empty();
        }
        if (!isRead) {
            row.error("object", "a point that is not read can only be none");
            return Optional.empty();
        }
        if (rule.rounds(kind)) {
            row.warning(
                    "object",
                    article(kind) + " shows a " + rule.format().word()
                            + " as a REAL, which is exact for whole numbers up to " + (1 << ObjectRule.BITS_OF_REAL)
                            + " only; MQTT has every digit");
        }
        return Optional.of(kind);
    }

    private static String choices(ObjectRule rule) {
        return rule.possible().stream().map(ObjectCell::article).collect(Collectors.joining(", "));
    }

    /** Why a point has no object; empty where it has one. */
    public static Optional<String> whyNone(Site site, SitePoint point) {
        PointDefinition definition = point.definition();
        if (definition.wantsObject()) {
            return site.bacnet().isEmpty()
                    ? Optional.of("BACnet is off")
                    : Optional.of("it has no binding")
                            .filter(w -> site.bindings().instanceOf(point).isEmpty());
        }
        if (!definition.hasReadings()) {
            return Optional.of("it is never read");
        }
        if (isOffByRole(definition.role())) {
            return Optional.of("points of role " + definition.role().word() + " stay off");
        }
        return Optional.of(whyNoneOfBasic(rule(site, definition)).orElse("its row says none"));
    }

    private static ObjectRule rule(Site site, PointDefinition definition) {
        return new ObjectRule(
                definition.format(),
                definition.states(),
                definition.role(),
                definition.scaling(),
                definition.consistency().scaleBy().isPresent(),
                site.bacnet().map(b -> b.options().basicObjects()).orElse(false));
    }

    private static Optional<String> whyNoneOfBasic(ObjectRule rule) {
        if (rule.possible().isEmpty()) {
            return Optional.of("no basic object holds " + rule.format().word());
        }
        return rule.usual().isEmpty()
                ? Optional.of("a REAL would round it past " + (1 << ObjectRule.BITS_OF_REAL))
                : Optional.empty();
    }

    public static String article(ObjectKind kind) {
        String word = kind.word();
        return ("aei".indexOf(word.charAt(0)) >= 0 ? "an " : "a ") + word;
    }

    private static boolean isOffByRole(Role role) {
        return role == Role.CURVE || role == Role.FAULT_RECORD;
    }
}
