package burnerbridge.line.diagnosis;

import burnerbridge.line.diagnosis.Finding.Kind;
import burnerbridge.site.UnitId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The findings that stand. One is told when it begins and when it is over, at most
 * {@value #MOST_TOLD} a window and line; what repeats, and what is beyond, is told at debug.
 */
final class Standing {
    static final int MOST_TOLD = 5;
    /** What comes and goes must not be told each time. */
    private static final int ABSENT_UNTIL_OVER = 2;

    private static final Logger LOG = LoggerFactory.getLogger("burnerbridge.line.diagnosis");

    private record Key(Kind kind, @Nullable UnitId unit) {
        static Key of(Finding finding) {
            return new Key(finding.kind(), finding.unit());
        }
    }

    private static final class Stands {
        private Finding finding;
        private int looks = 1;
        private int absent;

        Stands(Finding finding) {
            this.finding = finding;
        }
    }

    private final String line;
    private final Map<Key, Stands> all = new LinkedHashMap<>();
    private int told;
    private int untold;

    Standing(String line) {
        this.line = line;
    }

    List<Finding> findings() {
        List<Finding> findings = new ArrayList<>();
        all.values().forEach(stands -> findings.add(stands.finding));
        return List.copyOf(findings);
    }

    void found(List<Finding> findings) {
        findings.forEach(this::found);
        all.values().removeIf(stands -> findings.stream().anyMatch(finding -> finding.explains(stands.finding)));
    }

    private void found(Finding finding) {
        Stands stands = all.get(Key.of(finding));
        if (stands == null) {
            all.put(Key.of(finding), new Stands(finding));
            tell(() -> LOG.warn("line {}: {}", line, finding.sentence()), finding);
            return;
        }
        stands.finding = finding;
        stands.looks++;
        stands.absent = 0;
    }

    /** A window has ended. What stands and was not found any more, twice in a row, is over. */
    void endWindow(List<Finding> found, Predicate<Finding> isDecided) {
        Set<Key> keys = found.stream().map(Key::of).collect(Collectors.toSet());
        all.entrySet().removeIf(entry -> {
            Stands stands = entry.getValue();
            if (keys.contains(entry.getKey())) {
                LOG.debug("line {}: at {} looks so far: {}", line, stands.looks, stands.finding.sentence());
                return false;
            }
            return isDecided.test(stands.finding) && isOver(stands);
        });
        if (untold > 0) {
            LOG.warn("line {}: {} more such changes, told at debug", line, untold);
        }
        told = 0;
        untold = 0;
    }

    private boolean isOver(Stands stands) {
        boolean over = ++stands.absent == ABSENT_UNTIL_OVER;
        if (over) {
            Finding finding = stands.finding;
            tell(() -> LOG.info("line {}: no longer so: {}", line, finding.seen()), finding);
        }
        return over;
    }

    private void tell(Runnable log, Finding finding) {
        if (told < MOST_TOLD) {
            told++;
            log.run();
        } else {
            untold++;
            LOG.debug("line {}: begins or is over: {}", line, finding.sentence());
        }
    }
}
