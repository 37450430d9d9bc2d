package burnerbridge.write;

import burnerbridge.line.WriteTemplate;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Reading;
import burnerbridge.model.Registers;
import burnerbridge.model.Value;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.table.Change;
import burnerbridge.table.ChangeFeed;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Fate;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Repeats;
import burnerbridge.write.ask.RequestKey;
import burnerbridge.write.ask.Source;
import burnerbridge.write.ask.Wanted;
import burnerbridge.write.encode.Encoded;
import burnerbridge.write.encode.Encoder;
import burnerbridge.write.slot.Slot;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.Stream;

/**
 * The one gate through which every write goes. {@link #ask} decides at once and does no I/O; {@link #step} does what
 * time brings: leases that end, silence, heartbeats, other writers; what is to be written waits for the line's own thread,
 * where every question is asked again. Safe for any number of threads.
 */
public final class WriteGate {
    /** A station's time-out times its tries: 3 s and 3 retries are usual (ASHRAE 135, 12.11, from memory). */
    private static final Duration REPEATS_FOR = Duration.ofSeconds(12);

    private static final int MOST_REPEATS = 10_000;
    private static final long PACE = Duration.ofMillis(200).toNanos();
    private static final long LONGEST_PAUSE = Duration.ofMinutes(1).toNanos();
    private static final long SECOND = Duration.ofSeconds(1).toNanos();
    private static final String NO_LONGER_WANTED = "nobody asks for it any more";
    /** To give a slot up nothing of a value is asked, nor whether the controller is there. */
    private static final Set<Question> OF_VALUES = EnumSet.range(Question.TYPE, Question.RECORD);

    private final PermitBook book;
    /** None where there is nothing to watch. */
    private final Optional<ChangeFeed> changes;

    private final GateKeeping keeping;
    private final BridgeClock clock;
    private final WriteEvent.Listener listener;
    private final GateKnowledge knowledge;
    private final Interrogation interrogation;
    private final Map<PointId, PointState> states = new LinkedHashMap<>();
    private final Map<Name, Runnable> wakes = new HashMap<>();
    private final Repeats<Asked, Decision> repeats = new Repeats<>(REPEATS_FOR, MOST_REPEATS);
    /** One request may ask for several points, or for one twice. */
    private record Asked(RequestKey key, PointId point, int slot, Wanted wanted) {}

    private final Map<Integer, ControllerLink> links = new HashMap<>();
    /** What must be put on the disk, by the next step and outside of the monitor. */
    private final List<Runnable> chores = new ArrayList<>();

    private final Openness openness;
    private final Followers followers = new Followers();
    private final RefusalNews refusals = new RefusalNews();
    private final GateCounts counts = new GateCounts();
    private final List<PermitStatus.Watcher> watchers = new ArrayList<>();
    private long tickets;

    WriteGate(
            PermitBook book,
            Authority authority,
            GateKeeping keeping,
            Identities identities,
            ValueTable table,
            BridgeClock clock,
            WriteEvent.Listener listener) {
        this.book = book;
        this.openness = new Openness(authority);
        this.keeping = keeping;
        this.changes = book.isEmpty() ? Optional.empty() : Optional.of(table.subscribe());
        this.clock = clock;
        this.listener = listener;
        this.knowledge = new GateKnowledge(states, openness, keeping, identities, table);
        this.interrogation = new Interrogation(book, knowledge);
        long now = clock.ticks();
        book.all().forEach(permitted -> states.put(permitted.id(), stateAtStart(permitted, now)));
        states.values().forEach(state -> state.refreshEvery = Refreshing.every(state, states.values()));
    }

    /** A demand that stood when the bridge ended has its whole lease again, and is then silent. */
    private PointState stateAtStart(Permitted permitted, long now) {
        PointState state = new PointState(permitted, now);
        state.asleep = keeping.asleep(permitted.id()).orElse("");
        state.standing = keeping.isStanding(permitted.id());
        Optional<Silence> silence = permitted.permit().silence();
        if (state.standing && silence.isPresent()) {
            state.orphanUntil = OptionalLong.of(now + silence.get().after().toNanos());
        }
        return state;
    }

    /** What wakes the thread of a line, so that it looks for what is to be written. */
    void whenAsked(Name line, Runnable wake) {
        synchronized (this) {
            wakes.put(line, wake);
        }
    }

    /** @param watcher told on any thread, which must not wait */
    public synchronized void watch(PermitStatus.Watcher watcher) {
        watchers.add(watcher);
    }

    private void watch(PointState state, long now) {
        if (watchers.isEmpty()) {
            return;
        }
        PermitStatus status = statusOf(state, now);
        if (state.told == null || !status.looksLike(state.told)) {
            state.told = status;
            watchers.forEach(watcher -> watcher.changed(state.permitted.id()));
        }
    }

    private void watchAll() {
        long now = clock.ticks();
        states.values().forEach(state -> watch(state, now));
    }

    /** What it decided and wrote so far. For any thread. */
    GateCounts counts() {
        return counts;
    }

    /** Decides on an ask, at once and without I/O. What is admitted is not written yet. */
    public synchronized Decision ask(Ask ask) {
        return ask(ask, Optional.empty());
    }

    /**
     * Decides on an ask as {@link #ask(Ask)} does.
     *
     * @param follower told once what became of it where it is admitted. So many asks as its caller lets wait are kept
     */
    public synchronized Decision ask(Ask ask, Fate.Follower follower) {
        return ask(ask, Optional.of(follower));
    }

    private Decision ask(Ask ask, Optional<Fate.Follower> follower) {
        long now = clock.ticks();
        Optional<Asked> request = ask.request().map(key -> new Asked(key, ask.point(), ask.slot(), ask.wanted()));
        Optional<Decision> before = request.flatMap(asked -> repeats.answer(asked, now));
        if (before.isPresent()) {
            return before.get();
        }
        boolean isEmptyAlready = isEmptyAlready(ask);
        Decision decision = decide(ask, now);
        counts.decided(decision);
        request.ifPresent(asked -> repeats.answered(asked, decision, now));
        if (!isEmptyAlready || decision instanceof Decision.Refused) {
            keeping.decided(ask, decision, presentText(ask.point()));
        }
        PointState state = states.get(ask.point());
        if (state != null) {
            if (decision instanceof Decision.Refused no) {
                refusals.refused(ask.point(), no.question().code(), no.sentence(), now)
                        .ifPresent(listener::told);
            } else {
                follower.ifPresent(waits -> follow(state, ask, waits));
            }
            watch(state, now);
        }
        return decision;
    }

    /** Records and tells what was refused at a door, before it came here. */
    synchronized void refused(PointId point, Source source, String wanted, String code, String sentence) {
        counts.refusedAtADoor();
        keeping.refused(point, source, wanted, code, sentence, presentText(point));
        if (states.containsKey(point)) {
            refusals.refused(point, code, sentence, clock.ticks()).ifPresent(listener::told);
        }
    }

    /** Tells what is known of an admitted ask already, or once it is. */
    private void follow(PointState state, Ask ask, Fate.Follower follower) {
        Optional<Slot> winner = state.slots.winner();
        Ticket under = state.queued == null ? state.inFlight : state.queued;
        if (ask.wanted() instanceof Wanted.Nothing) {
            follower.became(new Fate.GivenUp());
        } else if (winner.isPresent() && winner.get().number() != ask.slot()) {
            follower.became(new Fate.Behind(winner.get().number(), winner.get().source()));
        } else if (state.held != null) {
            follower.became(new Fate.Withheld(state.held.question(), state.held.sentence(), true));
        } else if (under != null) {
            followers.follow(under, follower);
        } else {
            follower.became(new Fate.Written(winner.orElseThrow().value().value()));
        }
    }

    /** Some stations give up again and again what they do not hold, and that would push everything else out. */
    private boolean isEmptyAlready(Ask ask) {
        PointState state = states.get(ask.point());
        return ask.wanted() instanceof Wanted.Nothing
                && state != null
                && state.slots.at(ask.slot()).isEmpty();
    }

    private String presentText(PointId point) {
        return book.of(point)
                .flatMap(permitted -> knowledge.present(permitted))
                .map(Value::text)
                .orElse("");
    }

    private Decision decide(Ask ask, long now) {
        Subject subject = Subject.of(ask, book);
        PointState state = states.get(ask.point());
        if (ask.wanted() instanceof Wanted.Nothing) {
            Optional<Decision.Refused> no = interrogation.firstNo(subject, OF_VALUES, now);
            return no.isPresent() ? no.get() : givenUp(Objects.requireNonNull(state), ask.slot(), now);
        }
        boolean renews = state != null && renews(state, subject);
        Optional<Decision.Refused> no =
                interrogation.firstNo(subject, renews ? Interrogation.OF_CHANGES : Interrogation.NONE, now);
        return no.isPresent() ? no.get() : admitted(Objects.requireNonNull(state), subject, renews, now);
    }

    /** Whether an ask is for what its slot holds; but to ask for what could not be written is to try again. */
    private static boolean renews(PointState state, Subject subject) {
        Optional<Slot> slot = state.slots.at(subject.slot());
        boolean equal = slot.isPresent()
                && subject.value()
                        .filter(value ->
                                value.registers().equals(slot.get().value().registers()))
                        .isPresent();
        boolean wins = state.slots.winner().equals(slot);
        boolean mustBeWritten =
                wins && !state.isBusy() && state.held == null && (state.hasFailed() || state.target == null);
        return equal && !mustBeWritten;
    }

    private Decision admitted(PointState state, Subject subject, boolean renews, long now) {
        Optional<Silence> silence = state.permitted.permit().silence();
        OptionalLong until = silence.isPresent()
                ? OptionalLong.of(now + silence.get().after().toNanos())
                : OptionalLong.empty();
        Encoded value = subject.value().orElseThrow();
        Slot slot = new Slot(subject.slot(), value, subject.source(), until, subject.notAfter());
        boolean settled = renews
                && state.slots.at(subject.slot()).orElseThrow().notAfter().isEmpty();
        state.slots.put(settled ? slot.settled() : slot);
        state.orphanUntil = OptionalLong.empty();
        state.endSilence();
        if (renews) {
            return new Decision.Admitted(Decision.Standing.RENEWED);
        }
        if (state.slots.winner().orElseThrow().number() != subject.slot()) {
            return new Decision.Admitted(Decision.Standing.BEHIND);
        }
        state.isFree();
        if (isThere(state, value)) {
            state.slots.put(slot.settled());
            overtaken(state);
            return new Decision.Admitted(Decision.Standing.RENEWED);
        }
        queue(state, state.slots.winner().orElseThrow(), Cause.ASK);
        return new Decision.Admitted(Decision.Standing.TO_BE_WRITTEN);
    }

    /** Whether what the bridge wrote last is just this. */
    private static boolean isThere(PointState state, Encoded value) {
        Registers target = state.target;
        return !state.hasFailed()
                && state.inFlight == null
                && target != null
                && value.registers().equals(target);
    }

    private void queue(PointState state, Slot winner, Cause cause) {
        state.failure = "";
        queue(state, winner.value(), cause, winner.source(), winner.number(), winner.notAfter());
    }

    private void queue(PointState state, Encoded value, Cause cause, Source source, int slot, OptionalLong notAfter) {
        overtaken(state);
        state.queued = new Ticket(
                state.permitted,
                value,
                cause,
                source,
                slot,
                openness.authority().hash().orElse(""),
                notAfter,
                ++tickets);
        wake(state);
    }

    /** What waits does not leave any more. */
    private void overtaken(PointState state) {
        if (state.queued != null) {
            followers.tell(state.queued, new Fate.Overtaken());
            state.queued = null;
        }
    }

    private void queueSilence(PointState state, BigDecimal value) {
        Optional<Encoded> encoded = Encoder.encode(state.permitted.point().definition(), value);
        queue(
                state,
                encoded.orElseThrow(() -> new IllegalStateException(
                        "the registers of " + state.permitted.id() + " cannot hold its silence " + value)),
                Cause.SILENCE,
                Source.Bridge.SILENCE,
                Ticket.NO_SLOT,
                OptionalLong.empty());
    }

    private void wake(PointState state) {
        Runnable wake = wakes.get(state.permitted.controller().line());
        if (wake != null) {
            wake.run();
        }
    }

    private Decision givenUp(PointState state, int number, long now) {
        boolean won =
                state.slots.winner().filter(slot -> slot.number() == number).isPresent();
        state.slots.giveUp(number);
        if (won) {
            state.isFree();
            rise(state, now);
        }
        return new Decision.Admitted(Decision.Standing.GIVEN_UP);
    }

    /** What won is gone: what comes up passes the whole gate, and where nothing does, that is silence. */
    private void rise(PointState state, long now) {
        overtaken(state);
        Optional<Slot> winner = state.slots.winner();
        if (winner.isEmpty()) {
            state.held = null;
            silence(state);
            return;
        }
        if (isThere(state, winner.get().value())) {
            state.held = null;
            return;
        }
        Optional<Decision.Refused> no =
                interrogation.firstNo(Subject.of(state.permitted, winner.get()), Interrogation.NONE, now);
        if (no.isPresent()) {
            hold(state, winner.get(), no.get(), now);
        } else {
            state.held = null;
            queue(state, winner.get(), Cause.RISE);
        }
    }

    private void hold(PointState state, Slot winner, Decision.Refused no, long now) {
        if (no.question() == Question.FRESH) {
            state.slots.giveUp(winner.number());
            tell(WriteEvent.Kind.FAILED, state, winner.source().text() + " was not written: " + no.sentence());
            rise(state, now);
            return;
        }
        boolean news = state.toldHeld != no.question();
        state.held = no;
        state.toldHeld = no.question();
        if (news) {
            tell(
                    WriteEvent.Kind.HELD,
                    state,
                    "slot " + winner.number() + " of " + winner.source().text() + " waits: " + no.sentence());
        }
    }

    private void silence(PointState state) {
        Optional<Silence> silence = state.permitted.permit().silence();
        if (!state.standing || silence.isEmpty()) {
            state.standing = false;
            return;
        }
        state.orphanUntil = OptionalLong.empty();
        if (silence.get().action() instanceof Silence.Action.Write write) {
            state.silenceOwed = true;
            state.silenceTries = 0;
            state.notBefore = clock.ticks();
            tell(
                    WriteEvent.Kind.SILENCE,
                    state,
                    "nobody asks any more: " + write.value().toPlainString() + " is written");
            queueSilence(state, write.value());
        } else {
            tell(
                    WriteEvent.Kind.SILENCE,
                    state,
                    "nobody asks any more: nothing is written, and the controller lets the demand go by itself");
            // Its registers may hold it still when it counts no more.
            state.target = null;
            endStanding(state);
        }
    }

    private void endStanding(PointState state) {
        state.endSilence();
        state.standing = false;
        chores.add(() -> keeping.noLongerStanding(state.permitted.id(), () -> stands(state)));
    }

    private synchronized boolean stands(PointState state) {
        return state.standing;
    }

    private void tell(WriteEvent.Kind kind, PointState state, String sentence) {
        WriteEvent event = new WriteEvent(kind, state.permitted.id(), sentence);
        keeping.told(event);
        listener.told(event);
    }

    /**
     * Does what time brings, and puts on the disk what must be kept of it.
     *
     * @return the tick at which it is next due
     */
    public long step(long now) {
        List<Runnable> due;
        synchronized (this) {
            changes.ifPresent(feed -> feed.drain().forEach(change -> changed(change, now)));
            states.values().forEach(state -> stepOne(state, now));
            refusals.due(now).forEach(listener::told);
            watchAll();
            due = List.copyOf(chores);
            chores.clear();
        }
        due.forEach(Runnable::run);
        keeping.step(now);
        return now + PACE;
    }

    private void stepOne(PointState state, long now) {
        if (state.permitted.permit().beat().isPresent()) {
            beat(state, state.permitted.permit().beat().get(), now);
            return;
        }
        knowledge.readingSinceUp(state.permitted).ifPresent(reading -> read(state, reading, now));
        boolean won = !state.slots.isEmpty();
        Optional<Slot> winner = state.slots.winner();
        List<Slot> ended = state.slots.end(now);
        ended.forEach(slot -> tell(
                WriteEvent.Kind.LEASE_ENDED,
                state,
                slot.source().text() + " has not asked again for " + leaseText(state) + ": slot " + slot.number()
                        + " is given up"));
        if (won && !winner.equals(state.slots.winner())) {
            state.isFree();
            rise(state, now);
        } else if (state.orphanUntil.isPresent() && now - state.orphanUntil.getAsLong() >= 0) {
            silence(state);
        } else if (state.held != null && !state.isBusy() && now - state.notBefore >= 0) {
            rise(state, now);
        } else if (state.silenceOwed && !state.isBusy() && now - state.notBefore >= 0) {
            silenceAgain(state);
        } else if (mustBeRefreshed(state, now)) {
            queue(state, state.slots.winner().orElseThrow(), Cause.REFRESH);
        }
    }

    private static boolean mustBeRefreshed(PointState state, long now) {
        Optional<Slot> winner = state.slots.winner();
        return winner.isPresent()
                && !state.isBusy()
                && isThere(state, winner.get().value())
                && state.refreshEvery.isPresent()
                && now - state.refreshAt >= 0;
    }

    private static void refreshLater(PointState state, long now) {
        state.refreshEvery.ifPresent(every -> state.refreshAt = now + every);
    }

    private static String leaseText(PointState state) {
        return state.permitted
                .permit()
                .silence()
                .map(silence -> silence.after().toSeconds() + " s")
                .orElse("");
    }

    private void silenceAgain(PointState state) {
        Silence.Action action = state.permitted.permit().silence().orElseThrow().action();
        if (action instanceof Silence.Action.Write write) {
            queueSilence(state, write.value());
        }
    }

    private void beat(PointState state, Purpose.Beat beat, long now) {
        if (!openness.isOpen() || !Heartbeats.demandsStand(state, states.values())) {
            overtaken(state);
            if (state.beats && state.inFlight == null) {
                state.beats = false;
                keeping.beatsEnded(state.permitted.id(), state.beatsWritten);
                state.beatsWritten = 0;
            }
        } else if (now - state.beatDue >= 0 && !state.isBusy()) {
            long until = now + beat.every().toNanos();
            state.beatDue = until;
            state.beat = Heartbeats.next(beat.pattern(), state.beat);
            Encoder.encode(state.permitted.point().definition(), BigDecimal.valueOf(state.beat))
                    .ifPresent(value -> queue(
                            state,
                            value,
                            Cause.HEARTBEAT,
                            Source.Bridge.HEARTBEAT,
                            Ticket.NO_SLOT,
                            OptionalLong.of(until)));
        }
    }

    private void changed(Change change, long now) {
        if (change instanceof Change.LinkChanged link) {
            ControllerLink before = links.put(link.controller().ordinal(), link.link());
            if (before != null || link.link().state() == ControllerLink.State.DOWN) {
                // Whoever was away may be another since, or hold what it holds when it begins.
                states.values().stream()
                        .filter(state -> state.permitted.controller().equals(link.controller()))
                        .forEach(state -> isBackOrGone(state, now));
            }
        }
    }

    private static void isBackOrGone(PointState state, long now) {
        state.forgetWhatItHolds();
        if (state.silenceOwed) {
            // It has waited for the controller long enough.
            state.notBefore = now;
            state.silenceTries = Math.min(state.silenceTries, 1);
        }
    }

    /**
     * What a permitted register holds though nobody here wrote it, somebody else did. The newest reading is looked at, not
     * changes of it: who puts a value back before it was polled changes nothing there.
     */
    private void read(PointState state, Reading reading, long now) {
        Registers raw = reading.raw();
        boolean told = raw != null
                && reading.isGood()
                && reading.askedAt() != null
                && reading.askedAt().ticks() - state.endedAt > 0;
        if (raw == null || !told || state.inFlight != null) {
            return;
        }
        Registers holds = OwnBits.of(state.permitted, raw);
        Registers before = state.expected;
        state.expected = holds;
        if (before == null || before.equals(holds) || !openness.authority().isInForce() || !state.asleep.isEmpty()) {
            return;
        }
        Registers sent = state.sent;
        boolean ownCameLate = state.target == null && sent != null && holds.equals(sent);
        if (ownCameLate || watchdogMayHaveActed(state, now)) {
            state.target = null;
            return;
        }
        String what = state.permitted.point().definition().addressText() + " was " + before.hex() + " and is "
                + holds.hex() + ", which this bridge did not write: another writer, so that the permit sleeps until a"
                + " person approves it again";
        state.asleep = what;
        state.slots.clear();
        overtaken(state);
        state.held = null;
        endStanding(state);
        chores.add(() -> keeping.fallAsleep(state.permitted.id(), what));
        tell(WriteEvent.Kind.ASLEEP, state, what);
    }

    /** When a bridge that ran before wrote last, nobody knows. */
    private static boolean watchdogMayHaveActed(PointState state, long now) {
        Optional<Duration> watchdog =
                state.permitted.controller().type().options().watchdog();
        return watchdog.isPresent()
                && (!state.everSent || now - state.sentAt >= watchdog.get().toNanos());
    }

    /** When a template may be sent, as its line has it; in ticks, not before {@code now}. */
    interface Turn {
        long readyAt(WriteTemplate template, long now);
    }

    /** The tick from which there is something to write on a line; empty where there is nothing. */
    synchronized OptionalLong readyAt(Name line, Turn turn, long now) {
        return waiting(line).mapToLong(state -> left(state, turn, now)).min().stream()
                .map(left -> now + left)
                .findFirst();
    }

    private Stream<PointState> waiting(Name line) {
        return states.values().stream()
                .filter(state -> state.queued != null && state.inFlight == null)
                .filter(state -> state.permitted.controller().line().equals(line));
    }

    private long left(PointState state, Turn turn, long now) {
        // A line knows nothing of what it never sends; that is refused when it has its turn.
        long line = book.isOnItsLine(state.permitted) ? turn.readyAt(state.permitted.template(), now) - now : 0;
        return Math.max(Math.max(0, state.notBefore - now), line);
    }

    /** The next ticket of a line, with every question asked again; it is under way until {@link #ended}. */
    synchronized Optional<Ticket> begin(Name line, Turn turn) {
        long now = clock.ticks();
        List<PointState> waiting = waiting(line)
                .filter(state -> left(state, turn, now) == 0)
                .sorted(Comparator.comparing(
                                (PointState state) -> state.queued().cause() != Cause.SILENCE)
                        .thenComparing(state -> state.queued().cause() == Cause.HEARTBEAT)
                        .thenComparingLong(state -> state.queued().number()))
                .toList();
        for (PointState state : waiting) {
            Ticket ticket = state.queued();
            state.queued = null;
            Optional<Decision.Refused> no = refusal(ticket, Interrogation.NONE, now);
            if (no.isEmpty()) {
                state.inFlight = ticket;
                state.beats |= ticket.cause() == Cause.HEARTBEAT;
                state.stoodBefore = state.standing;
                state.standing |= ticket.isDemand();
                return Optional.of(ticket);
            }
            withheld(state, ticket, no.get(), now);
        }
        return Optional.empty();
    }

    private Optional<Decision.Refused> refusal(Ticket ticket, Set<Question> notAsked, long now) {
        Optional<String> lapsed = openness.objection(ticket);
        return lapsed.isPresent()
                ? lapsed.map(why -> new Decision.Refused(Question.APPROVED, why))
                : interrogation.firstNo(
                        Subject.of(ticket), ticket.cause() == Cause.SILENCE ? Interrogation.OF_SILENCE : notAsked, now);
    }

    /** Asks everything once more right before a write leaves; from then on it counts as sent. */
    synchronized Optional<Decision.Refused> leaves(Ticket ticket) {
        long now = clock.ticks();
        PointState state = Objects.requireNonNull(states.get(ticket.permitted().id()));
        Optional<Decision.Refused> no = isWanted(state, ticket)
                ? refusal(ticket, Interrogation.OF_PAID, now)
                : Optional.of(new Decision.Refused(Question.APPROVED, NO_LONGER_WANTED));
        if (no.isEmpty()) {
            state.sentBefore = state.sentAt;
            state.sentAt = now;
            refreshLater(state, now);
            state.sent = ticket.value().registers();
            state.everSent = true;
            state.forgetWhatItHolds();
        }
        return no;
    }

    /** Whether a ticket that is under way is still for what shall be there. */
    private boolean isWanted(PointState state, Ticket ticket) {
        return switch (ticket.cause()) {
            case SILENCE -> state.silenceOwed;
            case HEARTBEAT -> Heartbeats.demandsStand(state, states.values());
            default ->
                state.slots
                        .winner()
                        .filter(slot ->
                                slot.value().registers().equals(ticket.value().registers()))
                        .isPresent();
        };
    }

    private void withheld(PointState state, Ticket ticket, Decision.Refused no, long now) {
        keeping.withheld(ticket, no);
        switch (ticket.cause()) {
            case HEARTBEAT -> {}
            case SILENCE -> silenceFailed(state, no.sentence(), now);
            case REFRESH -> {
                refreshLater(state, now);
                tell(
                        WriteEvent.Kind.FAILED,
                        state,
                        "what stands was not written again, so that the controller may let it go: " + no.sentence());
                followers.tell(ticket, new Fate.Withheld(no.question(), no.sentence(), true));
            }
            default -> {
                Optional<Slot> winner = state.slots.winner();
                if (winner.isPresent() && state.queued == null) {
                    hold(state, winner.get(), no, now);
                }
                boolean kept = state.held != null
                        && state.slots
                                .winner()
                                .filter(slot -> slot.number() == ticket.slot())
                                .isPresent();
                followers.tell(ticket, new Fate.Withheld(no.question(), no.sentence(), kept));
            }
        }
    }

    private void silenceFailed(PointState state, String why, long now) {
        if (!state.silenceOwed) {
            return;
        }
        state.notBefore = now + pause(state.silenceTries);
        if (state.silenceTries++ == 0) {
            tell(WriteEvent.Kind.FAILED, state, "its value for silence is not there yet, and is tried again: " + why);
        }
    }

    /** A ticket has come to its end. */
    synchronized void ended(Ticket ticket, Result result) {
        long now = clock.ticks();
        PointState state = Objects.requireNonNull(states.get(ticket.permitted().id()));
        counts.ended(result);
        state.inFlight = null;
        state.endedAt = now;
        if (result instanceof Result.Withheld withheld) {
            neverLeft(state);
            if (isWanted(state, ticket)) {
                keptBack(state, ticket, withheld.refusal(), now);
            } else {
                followers.tell(ticket, new Fate.Overtaken());
            }
        } else if (result instanceof Result.NotSent notSent) {
            // No interval begins with what never left.
            state.sentAt = state.sentBefore;
            neverLeft(state);
            keptBack(state, ticket, new Decision.Refused(Question.ANSWERING, notSent.why()), now);
        } else if (result instanceof Result.Written written) {
            written(state, ticket, written);
        } else {
            failed(state, ticket, result, now);
        }
        Optional<Slot> winner = state.slots.winner();
        if (winner.isPresent()
                && state.queued == null
                && state.held == null
                && !winner.get().value().registers().equals(ticket.value().registers())) {
            rise(state, now);
        } else if (winner.isEmpty() && state.queued == null && state.standing && !state.silenceOwed) {
            silence(state);
        }
        watch(state, now);
    }

    /** What only the line finds out costs it a read each time, and is tried again more and more seldom. */
    private void keptBack(PointState state, Ticket ticket, Decision.Refused no, long now) {
        withheld(state, ticket, no, now);
        if (state.held != null) {
            state.notBefore = now + pause(state.keptBack++);
        }
    }

    private static long pause(int tries) {
        return Math.min(LONGEST_PAUSE, SECOND << Math.min(6, tries));
    }

    private void neverLeft(PointState state) {
        if (state.standing && !state.stoodBefore) {
            endStanding(state);
        }
    }

    private void written(PointState state, Ticket ticket, Result.Written written) {
        state.failure = "";
        state.isFree();
        if (ticket.cause() == Cause.HEARTBEAT) {
            state.beatsWritten++;
            return;
        }
        state.slots
                .at(ticket.slot())
                .filter(slot -> slot.value().registers().equals(written.registers()))
                .ifPresent(slot -> state.slots.put(slot.settled()));
        state.target = written.registers();
        state.expected = written.registers();
        state.readBack = written.value();
        followers.tell(ticket, new Fate.Written(written.value()));
        if (ticket.cause() != Cause.REFRESH) {
            tell(
                    WriteEvent.Kind.WRITTEN,
                    state,
                    ticket.source().text() + " wrote " + written.value().toPlainString());
        }
        if (ticket.cause() == Cause.SILENCE && state.silenceOwed) {
            endStanding(state);
        }
    }

    private void failed(PointState state, Ticket ticket, Result result, long now) {
        String why = result.sentence(ticket.value().value().toPlainString());
        state.readBack = null;
        if (result instanceof Result.NotTaken notTaken) {
            state.expected = notTaken.registers();
        }
        if (ticket.cause() == Cause.SILENCE) {
            silenceFailed(state, why, now);
        } else if (ticket.cause() != Cause.HEARTBEAT) {
            state.failure = why;
            followers.tell(ticket, new Fate.Failed(result.code(), why));
            tell(WriteEvent.Kind.FAILED, state, why);
        }
    }

    /** The identity under which a controller was approved; empty where none was. */
    synchronized Optional<String> approvedIdentity(ControllerDefinition controller) {
        return openness.authority().identity(controller);
    }

    /**
     * Closes the gate: nobody may ask any more, and what stands is taken back as its permit says. It is done when {@link
     * #isQuiet} says so; the lines must go on until then.
     *
     * @param why for those who ask meanwhile
     */
    public synchronized void close(String why) {
        openness.close(why);
        takeBack();
    }

    /** Closes the gate for good: no approval that is under way opens it again. */
    synchronized void end(String why) {
        openness.end(why);
        takeBack();
    }

    private void takeBack() {
        long now = clock.ticks();
        for (PointState state : states.values()) {
            state.slots.clear();
            state.held = null;
            if (state.silenceOwed) {
                state.notBefore = now;
            } else if (state.permitted.permit().asked().isPresent()) {
                rise(state, now);
            }
        }
        watchAll();
    }

    /** Whether nothing is to be written any more that may be: what only another approval lets out is not waited for. */
    public synchronized boolean isQuiet() {
        return states.values().stream()
                .noneMatch(state -> state.inFlight != null
                        || (state.silenceOwed ? !waitsForApproval(state) : state.queued != null));
    }

    private boolean waitsForApproval(PointState state) {
        return openness.objection(state, Source.Bridge.SILENCE).isPresent()
                || knowledge.notIdentified(state.permitted).isPresent();
    }

    /** Whether something stands that was not taken back, though its time is over. */
    synchronized boolean owesSilence() {
        return states.values().stream().anyMatch(state -> state.silenceOwed);
    }

    /** Opens the gate again under what is approved now. Permits that sleep wake up. */
    synchronized void open(Authority approved) {
        openness.become(approved);
        for (PointState state : states.values()) {
            state.asleep = "";
            state.forgetWhatItHolds();
        }
        watchAll();
    }

    /** Lets everybody ask again under what was approved before. */
    synchronized void reopen() {
        openness.reopen();
    }

    /** Nothing is approved any more. */
    synchronized void shut(Authority withdrawn) {
        openness.become(withdrawn);
    }

    public synchronized boolean isApproved() {
        return openness.authority().isInForce();
    }

    /** Why nothing is approved; empty where something is. */
    public synchronized String whyNotApproved() {
        return openness.authority().why();
    }

    /** How one permit stands; empty where there is none. */
    public synchronized Optional<PermitStatus> status(PointId point) {
        return Optional.ofNullable(states.get(point)).map(state -> statusOf(state, clock.ticks()));
    }

    /** How each permit stands. */
    public synchronized List<PermitStatus> statuses() {
        long now = clock.ticks();
        return states.values().stream().map(state -> statusOf(state, now)).toList();
    }

    private PermitStatus statusOf(PointState state, long now) {
        return PermitStatus.of(state, keeping.spent(state.permitted.id()), now);
    }
}
