package burnerbridge.write;

import burnerbridge.model.BitValue;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.RealValue;
import burnerbridge.model.StateValue;
import burnerbridge.model.Value;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointId;
import burnerbridge.site.guard.Guard;
import burnerbridge.site.guard.Place;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Purpose;
import burnerbridge.table.ControllerLink;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Source;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.EnumSet;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;

/**
 * The questions that stand between an ask and the line, in their order. It does no I/O and changes nothing. It belongs to
 * the gate's monitor.
 */
final class Interrogation {
    /** What is not asked of what stands already. */
    static final Set<Question> OF_CHANGES = EnumSet.of(Question.STEP, Question.INTERVAL, Question.BUDGET);

    /** What is not asked of a silence action, which even a full disk does not keep back. */
    static final Set<Question> OF_SILENCE =
            EnumSet.of(Question.STEP, Question.INTERVAL, Question.BUDGET, Question.RECORD);

    /** What is not asked of a write that its budget was debited for a moment ago, or its own debit would refuse it. */
    static final Set<Question> OF_PAID = EnumSet.of(Question.BUDGET);

    static final Set<Question> NONE = EnumSet.noneOf(Question.class);

    /** What the gate knows that an answer hangs on. */
    interface Knowledge {
        /**
         * Why a point may not be written whatever is asked; empty where a person has approved it and it is awake.
         *
         * @param source the bridge's own last acts may still be done while the gate closes
         */
        Optional<String> notApproved(Permitted permitted, Source source);

        /** The newest that is known of what the point's registers hold; empty where nothing is. */
        Optional<Value> present(Permitted permitted);

        /** When it was last written. */
        long sentAt(Permitted permitted);

        long spent(PointId point);

        /** Why it is not certain that its controller is the one that was approved; empty where it is. */
        Optional<String> notIdentified(Permitted permitted);

        ControllerLink link(Permitted permitted);

        /** Why no record of a write can be kept now; empty where it can. */
        Optional<String> noRecord();
    }

    private final PermitBook book;
    private final Knowledge knowledge;

    Interrogation(PermitBook book, Knowledge knowledge) {
        this.book = book;
        this.knowledge = knowledge;
    }

    /** The first question that is answered with no, but for those that are not asked; empty where none is. */
    Optional<Decision.Refused> firstNo(Subject subject, Set<Question> notAsked, long now) {
        for (Question question : Question.values()) {
            if (!notAsked.contains(question)) {
                Optional<String> no = answer(question, subject, now);
                if (no.isPresent()) {
                    return Optional.of(new Decision.Refused(question, no.get()));
                }
            }
        }
        return Optional.empty();
    }

    private Optional<String> answer(Question question, Subject subject, long now) {
        if (question == Question.KNOWN_POINT) {
            return book.isKnown(subject.point())
                    ? Optional.empty()
                    : Optional.of(subject.point() + " is not known here");
        }
        Optional<Permitted> permitted = book.of(subject.point());
        if (permitted.isEmpty()) {
            return Optional.of(subject.point() + " has no write permit");
        }
        return answer(question, subject, permitted.get(), now);
    }

    private Optional<String> answer(Question question, Subject subject, Permitted permitted, long now) {
        return switch (question) {
            case KNOWN_POINT -> Optional.empty();
            case PERMIT -> permit(subject, permitted);
            case ROLE -> role(permitted);
            case PROTECTED -> isProtected(permitted);
            case APPROVED -> knowledge.notApproved(permitted, subject.source());
            case SOURCE -> source(subject, permitted);
            case FRESH -> fresh(subject, now);
            case TYPE -> type(subject);
            case RANGE -> range(subject, permitted);
            case STEP -> step(subject, permitted);
            case INTERVAL -> interval(permitted, now);
            case BUDGET -> budget(permitted);
            case IDENTITY -> knowledge.notIdentified(permitted);
            case ANSWERING -> answering(permitted);
            case RECORD -> knowledge.noRecord().map(why -> "no record of a write can be kept, so nothing is: " + why);
        };
    }

    private static Optional<String> permit(Subject subject, Permitted permitted) {
        boolean own = subject.source() instanceof Source.Bridge;
        if (!own && permitted.permit().asked().isEmpty()) {
            return Optional.of(permitted.id() + " is a heartbeat, which nobody can ask for");
        }
        return subject.slot() == Ask.KEPT_SLOT
                ? Optional.of("slot " + Ask.KEPT_SLOT + " of " + permitted.id() + " is kept and cannot be asked for")
                : Optional.empty();
    }

    private static Optional<String> role(Permitted permitted) {
        PointDefinition row = permitted.point().definition();
        return Guard.isProtected(row)
                ? Optional.of(permitted.id() + " is a " + row.role().word()
                        + (Guard.selectsFuel(row) ? " that chooses the fuel" : "") + ", which is never written")
                : Optional.empty();
    }

    private Optional<String> isProtected(Permitted permitted) {
        return book.guard(permitted)
                .against(Place.writtenBy(permitted.point().definition()))
                .or(() -> book.guard(permitted).against(permitted.template().range()))
                .map(entry ->
                        permitted.id() + " at " + permitted.point().definition().addressText()
                                + " meets what is never written: " + entry.why());
    }

    private static Optional<String> source(Subject subject, Permitted permitted) {
        boolean may = permitted
                .permit()
                .asked()
                .map(asked -> subject.source().isAmong(asked.from()))
                .orElse(subject.source() instanceof Source.Bridge);
        return may ? Optional.empty() : Optional.of(subject.source().text() + " may not ask for " + permitted.id());
    }

    private static Optional<String> fresh(Subject subject, long now) {
        OptionalLong notAfter = subject.notAfter();
        return notAfter.isPresent() && now - notAfter.getAsLong() > 0
                ? Optional.of("the ask for " + subject.point() + " came, or had its turn, too late: "
                        + seconds(now - notAfter.getAsLong()) + " after its end")
                : Optional.empty();
    }

    private static String seconds(long nanos) {
        return new BigDecimal(nanos)
                        .movePointLeft(9)
                        .setScale(1, RoundingMode.UP)
                        .toPlainString() + " s";
    }

    private static Optional<String> type(Subject subject) {
        return subject.asked().isPresent()
                ? Optional.empty()
                : Optional.of(subject.point() + " takes a finite number (was " + subject.wanted() + ")");
    }

    private static Optional<String> range(Subject subject, Permitted permitted) {
        if (permitted.permit().purpose() instanceof Purpose.Beat) {
            return subject.value().isPresent() ? Optional.empty() : Optional.of(unholdable(subject));
        }
        Allowed allowed = permitted.permit().asked().orElseThrow().allowed();
        String unit = permitted.point().definition().unitText();
        String may = subject.point() + " may be written " + allowed.text() + (unit.isEmpty() ? "" : " " + unit);
        if (!allowed.holds(subject.asked().orElseThrow())) {
            return Optional.of(may + " (was " + subject.wanted() + ")");
        }
        if (subject.value().isEmpty()) {
            return Optional.of(unholdable(subject));
        }
        BigDecimal held = subject.value().get().value();
        return allowed.holds(held)
                ? Optional.empty()
                : Optional.of(may + " (was " + subject.wanted() + ", for which its registers would hold "
                        + held.toPlainString() + ")");
    }

    private static String unholdable(Subject subject) {
        return "the registers of " + subject.point() + " cannot hold " + subject.wanted();
    }

    private Optional<String> step(Subject subject, Permitted permitted) {
        Optional<BigDecimal> step = permitted.permit().asked().flatMap(Purpose.Asked::step);
        if (step.isEmpty()) {
            return Optional.empty();
        }
        Optional<BigDecimal> present = knowledge.present(permitted).flatMap(Interrogation::number);
        if (present.isEmpty()) {
            return Optional.of(
                    "what " + permitted.id() + " is now is not known, so that no step can be measured from it");
        }
        BigDecimal change =
                subject.value().orElseThrow().value().subtract(present.get()).abs();
        return change.compareTo(step.get()) <= 0
                ? Optional.empty()
                : Optional.of("one write may change " + permitted.id() + " by "
                        + step.get().toPlainString() + ", and from "
                        + present.get().toPlainString() + " to " + subject.wanted() + " is more");
    }

    /** A value as asks have it. */
    static Optional<BigDecimal> number(Value value) {
        if (value instanceof RealValue real) {
            return Optional.of(real.exact());
        }
        if (value instanceof IntegerValue integer) {
            return Optional.of(new BigDecimal(integer.number()));
        }
        if (value instanceof StateValue state) {
            return Optional.of(BigDecimal.valueOf(state.number()));
        }
        return value instanceof BitValue bit
                ? Optional.of(bit.on() ? BigDecimal.ONE : BigDecimal.ZERO)
                : Optional.empty();
    }

    private Optional<String> interval(Permitted permitted, long now) {
        Duration interval =
                permitted.permit().asked().map(Purpose.Asked::interval).orElse(Duration.ZERO);
        long left = interval.toNanos() - (now - knowledge.sentAt(permitted));
        return left <= 0
                ? Optional.empty()
                : Optional.of(permitted.id() + " may be written once in " + interval.toSeconds() + " s, and "
                        + seconds(left) + " of them are left");
    }

    private Optional<String> budget(Permitted permitted) {
        OptionalLong lifetime = permitted.permit().storage().lifetimeWrites();
        if (lifetime.isEmpty()) {
            return Optional.empty();
        }
        long reserve = reserve(lifetime.getAsLong());
        long spent = knowledge.spent(permitted.id());
        return spent < lifetime.getAsLong() - reserve
                ? Optional.empty()
                : Optional.of(spent + " of the " + lifetime.getAsLong() + " writes that the memory of " + permitted.id()
                        + " may take are spent; the last " + reserve + " are kept for silence");
    }

    /** So many of the last writes are kept for what must be written when nobody asks any more: one in a hundred. */
    static long reserve(long lifetime) {
        return Math.min(lifetime, Math.max(1, Math.min(100, lifetime / 100)));
    }

    private Optional<String> answering(Permitted permitted) {
        ControllerLink link = knowledge.link(permitted);
        return link.state() == ControllerLink.State.UP
                ? Optional.empty()
                : Optional.of(permitted.controller().name() + " does not answer"
                        + (link.detail().isEmpty() ? "" : ": " + link.detail()));
    }
}
