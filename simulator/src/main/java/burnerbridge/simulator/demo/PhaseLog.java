package burnerbridge.simulator.demo;

import burnerbridge.simulator.plant.BurnerState;
import burnerbridge.simulator.plant.Phase;
import java.io.PrintStream;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** One line a change of phase, for output that is no terminal, and one at the end. */
final class PhaseLog implements Screen {
    private final PrintStream out;
    private final LiveTable table;
    private final Function<String, Optional<Published>> published;
    private @Nullable Phase told;

    PhaseLog(PrintStream out, LiveTable table, Function<String, Optional<Published>> published) {
        this.out = out;
        this.table = table;
        this.published = published;
    }

    @Override
    public void show(BurnerState state, Instant now) {
        if (state.phase() != told) {
            told = state.phase();
            out.println(line(state, now));
            out.flush();
        }
    }

    private String line(BurnerState state, Instant now) {
        return String.format(
                Locale.ROOT,
                "%s plant: %s, water %.1f °C, flue gas %.1f °C | over MQTT: %s, %s",
                now.truncatedTo(ChronoUnit.SECONDS),
                state.phase().text(),
                state.waterTemperature(),
                state.flueTemperature(),
                published.apply("phase").map(Published::value).orElse("nothing yet"),
                table.goodPoints());
    }

    @Override
    public void close() {
        out.println("at the end over MQTT: " + table.goodPoints());
        out.flush();
    }
}
