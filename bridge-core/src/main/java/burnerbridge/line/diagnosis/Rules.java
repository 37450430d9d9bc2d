package burnerbridge.line.diagnosis;

import burnerbridge.line.Fault;
import burnerbridge.line.Heard;
import burnerbridge.line.LineCounts;
import burnerbridge.line.ReplyShare;
import burnerbridge.line.diagnosis.Change.Part;
import burnerbridge.line.diagnosis.Finding.Kind;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.UnitId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** What counts say. Pure: the same counts give the same findings. */
final class Rules {
    private static final int FEWEST_FOREIGN_REQUESTS = 3;

    private final Practice practice;

    Rules(LineDefinition line) {
        practice = Practice.of(line);
    }

    List<Finding> findings(Change change) {
        return new Search(change).findings();
    }

    /** One look. */
    private final class Search {
        private final Change change;
        private final List<Finding> found = new ArrayList<>();
        /** Those that are asked, and heard in whatever way. */
        private final Map<UnitId, Part> heard;

        Search(Change change) {
            this.change = change;
            heard = units(part -> !part.isSilent());
        }

        List<Finding> findings() {
            silence();
            secondMaster();
            doubledUnits();
            risesWithLength();
            for (Symptom symptom : Symptom.values()) {
                spread(symptom);
            }
            return found.stream()
                    .filter(finding -> found.stream().noneMatch(other -> other.explains(finding)))
                    .toList();
        }

        private Map<UnitId, Part> units(Predicate<Part> which) {
            Map<UnitId, Part> units = new TreeMap<>(Windows.BY_NUMBER);
            units.putAll(change.units());
            units.values().removeIf(which.negate());
            return units;
        }

        private void add(Kind kind, @Nullable UnitId unit, String seen) {
            String whose = unit == null ? "" : "unit " + unit + ": ";
            practice.lookAt(kind, unit != null)
                    .ifPresent(lookAt -> found.add(new Finding(kind, unit, whose + seen, lookAt)));
        }

        private void silence() {
            if (change.isAnybodyHeard()) {
                units(Part::isSilent).forEach((unit, part) -> add(Kind.UNIT_SILENT, unit, seenSilent(part)));
            } else if (change.line().saysSomething() && !change.anybodyInDoubt()) {
                add(Kind.NOTHING_HEARD, null, seenNothing(change.line()));
            }
        }

        private static String seenSilent(Part part) {
            return "none of " + part.counts().requests() + " requests in " + part.words()
                    + " was answered, while others on the line are heard";
        }

        private static String seenNothing(Part part) {
            return "nothing was received in reply to " + part.counts().requests() + " requests in " + part.words();
        }

        private void secondMaster() {
            long requests = change.line().counts().heard(Heard.REQUEST);
            if (requests >= FEWEST_FOREIGN_REQUESTS) {
                String units =
                        change.askedByOthers().stream().map(UnitId::toString).collect(Collectors.joining(", "));
                String time = change.line().words();
                add(
                        Kind.SECOND_MASTER,
                        null,
                        requests + " requests that are not ours were heard in " + time + ", to unit " + units);
            }
        }

        /** Where all of several units show overlaid replies, it is the line and not a doubled unit. */
        private void doubledUnits() {
            Map<UnitId, Part> twice = units(part -> isDoubled(part.counts(), 0));
            Map<UnitId, Part> likely =
                    units(part -> isDoubled(part.counts(), part.counts().broken(Fault.OVERLAID)));
            boolean ofAll = likely.size() == heard.size() && heard.size() > 1;
            (ofAll ? twice : likely).forEach((unit, part) -> add(Kind.DOUBLED_UNIT, unit, seenDoubled(part)));
        }

        private static boolean isDoubled(LineCounts counts, long overlaid) {
            return Symptom.isMuch(counts.heard(Heard.SECOND_REPLY) + overlaid, counts);
        }

        private static String seenDoubled(Part part) {
            long after = part.counts().heard(Heard.SECOND_REPLY);
            long atOnce = part.counts().broken(Fault.OVERLAID);
            return Symptom.times(after + atOnce, part) + " more than one reply came"
                    + (atOnce == 0 ? "" : ", " + atOnce + " of them over each other");
        }

        /** Told of the line: each unit alone has too few replies of both lengths. */
        private void risesWithLength() {
            ReplyShare low = change.longer().counts().shortReplies();
            ReplyShare high = change.longer().counts().longReplies();
            if (change.line().counts().broken(Fault.CHECKSUM) > 0 && LengthTest.rises(low, high)) {
                String time = change.longer().words();
                add(
                        Kind.CHECKSUM_RISES_WITH_LENGTH,
                        null,
                        "the checksum was wrong in " + high.spoilt() + " of " + high.all() + " replies of more than "
                                + LineCounts.LONG + " bytes and in " + low.spoilt() + " of " + low.all()
                                + " of at most " + LineCounts.SHORT + " bytes in " + time);
            }
        }

        /** A symptom of all that are heard is the line's; of some, theirs; of none alone, perhaps of their sum. */
        private void spread(Symptom symptom) {
            Map<UnitId, Part> affected = units(part -> symptom.isIn(part.counts()));
            if (affected.isEmpty() || affected.size() == heard.size()) {
                if (symptom.isIn(change.line().counts())) {
                    add(symptom.kind(), null, seen(symptom, change.line()));
                }
            } else {
                affected.forEach((unit, part) -> add(symptom.kind(), unit, seen(symptom, part)));
            }
        }

        private String seen(Symptom symptom, Part part) {
            return symptom.times(part) + " " + practice.seen(symptom);
        }
    }
}
