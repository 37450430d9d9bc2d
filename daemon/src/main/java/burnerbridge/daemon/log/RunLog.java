package burnerbridge.daemon.log;

import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.BridgeClock;
import ch.qos.logback.classic.AsyncAppender;
import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.AppenderBase;
import ch.qos.logback.core.ConsoleAppender;
import ch.qos.logback.core.encoder.EncoderBase;
import java.nio.charset.StandardCharsets;
import java.util.EnumMap;
import java.util.Map;
import java.util.concurrent.atomic.LongAdder;
import org.slf4j.LoggerFactory;

/**
 * The log of a bridge while it runs. Lines go to standard error by a thread of their own, so that whoever does not read
 * them holds up nothing; those that find no room there are lost. Where the environment asks for debug or trace, nothing is
 * left out.
 */
public final class RunLog implements MetricSource {
    /** How lines look. */
    public enum Format {
        TEXT,
        JSON
    }

    private static final Metric LINES =
            Metric.counter("burner_bridge_log_lines", "Lines that were written to the log, by level.", "level");
    private static final Metric LEFT_OUT = Metric.counter(
            "burner_bridge_log_lines_left_out", "Lines that were counted instead, as repeats or for want of room.");

    /** Lines that wait while nobody reads; each is some hundred bytes. */
    private static final int MOST_WAITING = 1_000;

    private static final org.slf4j.Logger LOG = LoggerFactory.getLogger("burnerbridge.log");

    private final BridgeClock clock;
    private final LogBudget budget;
    private final RecentLines recent = new RecentLines();
    private final LongAdder leftOut = new LongAdder();
    private final Map<LogBudget.Weight, LongAdder> written = new EnumMap<>(LogBudget.Weight.class);
    private final LoggerContext context = (LoggerContext) LoggerFactory.getILoggerFactory();

    private RunLog(BridgeClock clock) {
        this.clock = clock;
        this.budget = new LogBudget(clock.ticks());
        for (LogBudget.Weight weight : LogBudget.Weight.values()) {
            written.put(weight, new LongAdder());
        }
    }

    /** Takes over the log of this process. */
    public static RunLog begin(Format format, BridgeClock clock) {
        RunLog log = new RunLog(clock);
        ConsoleAppender<ILoggingEvent> console = new ConsoleAppender<>();
        console.setContext(log.context);
        console.setTarget("System.err");
        console.setEncoder(log.encoder(format));
        console.start();
        AsyncAppender queue = new AsyncAppender();
        queue.setContext(log.context);
        queue.setQueueSize(MOST_WAITING);
        queue.setDiscardingThreshold(0);
        queue.setNeverBlock(true);
        queue.addAppender(console);
        queue.start();
        Bounded bounded = log.new Bounded(queue);
        bounded.setContext(log.context);
        bounded.start();
        Logger root = log.context.getLogger(org.slf4j.Logger.ROOT_LOGGER_NAME);
        root.detachAndStopAllAppenders();
        root.addAppender(bounded);
        return log;
    }

    /** The newest lines. */
    public RecentLines recent() {
        return recent;
    }

    /** Tells what was counted; to be called now and then. */
    public void step(long now) {
        for (LogBudget.Note note : budget.due(now)) {
            switch (note.weight()) {
                case NEWS -> LOG.info("{}", note.sentence());
                case WARNING -> LOG.warn("{}", note.sentence());
                case ERROR -> LOG.error("{}", note.sentence());
            }
        }
    }

    /** Writes what waits, for a second at most, and ends the log. */
    public void end() {
        context.stop();
    }

    @Override
    public void measure(MetricSink sink) {
        written.forEach((weight, count) -> sink.sample(LINES, count.sum(), word(weight)));
        sink.sample(LEFT_OUT, leftOut.sum());
    }

    private static String word(LogBudget.Weight weight) {
        return switch (weight) {
            case NEWS -> "info";
            case WARNING -> "warn";
            case ERROR -> "error";
        };
    }

    private EncoderBase<ILoggingEvent> encoder(Format format) {
        return new EncoderBase<>() {
            @Override
            public byte[] headerBytes() {
                return new byte[0];
            }

            @Override
            public byte[] encode(ILoggingEvent event) {
                String line = format == Format.JSON ? JsonText.of(event) : TextLine.of(event);
                return (line + "\n").getBytes(StandardCharsets.UTF_8);
            }

            @Override
            public byte[] footerBytes() {
                return new byte[0];
            }
        };
    }

    /** Lets through what has room. */
    private final class Bounded extends AppenderBase<ILoggingEvent> {
        private final AsyncAppender next;

        Bounded(AsyncAppender next) {
            this.next = next;
        }

        @Override
        protected void append(ILoggingEvent event) {
            LogBudget.Weight weight = weight(event.getLevel());
            boolean free = isDetail(event) || LOG.isDebugEnabled();
            if (!free && !budget.takes(weight, event.getFormattedMessage(), clock.ticks())) {
                leftOut.increment();
                return;
            }
            if (!isDetail(event)) {
                recent.add(TextLine.of(event));
            }
            LongAdder count = written.get(weight);
            if (count != null) {
                count.increment();
            }
            next.doAppend(event);
        }

        private boolean isDetail(ILoggingEvent event) {
            return !event.getLevel().isGreaterOrEqual(Level.INFO);
        }

        private LogBudget.Weight weight(Level level) {
            if (level.isGreaterOrEqual(Level.ERROR)) {
                return LogBudget.Weight.ERROR;
            }
            return level.isGreaterOrEqual(Level.WARN) ? LogBudget.Weight.WARNING : LogBudget.Weight.NEWS;
        }

        @Override
        public void stop() {
            super.stop();
            next.stop();
        }
    }
}
